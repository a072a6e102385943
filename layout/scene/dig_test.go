package scene_test

import (
	"fmt"
	"image"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"duskwire/assets"
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
	"duskwire/layout/file"
	"duskwire/layout/geom"
	"duskwire/layout/internal/garden"
	"duskwire/layout/scene"
)

const mm = geom.Millimetre

// dug is the small garden with digging depths, one leg of each class, and
// findings of the kinds that have a place.
func dug(t testing.TB) scene.Input {
	t.Helper()
	in := small()
	s := in.Scheme
	for _, a := range s.Areas.All() {
		a.DigDepth = map[string]geom.Length{"lawn": 150 * mm, "border": 300 * mm, "gravel": 100 * mm, "dug bed": 500 * mm, "drive": 400 * mm}[a.Kind]
	}
	depth := map[string][]geom.Length{"R7": {450 * mm, 620 * mm}, "R8": {500 * mm}, "R10": {600 * mm, 300 * mm, 200 * mm}, "R11": {450 * mm}, "R12": {450 * mm, 700 * mm},
		"R13": {0}, "R17": {150 * mm}, "R19": {200 * mm}}
	for _, r := range s.Runs.All() {
		for i := range r.Legs {
			if d := depth[r.Tag]; i < len(d) {
				r.Legs[i].Depth = d[i]
			}
		}
	}
	about := func(code finding.Code, level finding.Level, run string, also ...string) finding.Finding {
		f := finding.Finding{Code: code, Level: level, Subject: finding.Subject{ID: run, Label: run}}
		for _, a := range also {
			f.Also = append(f.Also, finding.Subject{ID: a, Label: a})
		}
		return f
	}
	in.Findings = []finding.Finding{about("DIG-01", finding.Stop, "R17", "A1"), about("DIG-01", finding.Decide, "R19", "A5"),
		about("SRV-01", finding.Decide, "R12", "N4"), about("TRE-02", finding.Note, "R17", "M1"), about("DIG-03", finding.Decide, "R7", "R8"), about("VD-01", finding.Stop, "R7")}
	in.Look = scene.LookDig
	in.Circuits = derived(t, s, in.Stock)
	return in
}

func derived(t testing.TB, s *doc.Scheme, stock *doc.Stock) *derive.Circuits {
	rules, err := file.Rules(assets.FS)
	if err != nil {
		t.Fatal(err)
	}
	return derive.Scheme(s, stock, rules[0], nil)
}

// TestDigGolden compares the look of digging with a golden, on paper and on a
// dark screen.
func TestDigGolden(t *testing.T) {
	in := dug(t)
	golden(t, "dig.txt", text(scene.Build(in, scene.Fit(in.Scheme, 280, 240), 280, 240)))
	in.Palette, in.Screen = scene.Dark(), true
	golden(t, "dig-screen.txt", text(scene.Build(in, scene.Fit(in.Scheme, 160, 120), 160, 120)))
}

// TestDigShows: each class of depth has a line of its own, findings that are not
// about digging have no mark, and each about digging lies on its run.
func TestDigShows(t *testing.T) {
	in := dug(t)
	v := scene.Fit(in.Scheme, 280, 240)
	l := scene.Build(in, v, 280, 240)
	lines := map[string]bool{}
	crosses, badges := map[string]int{}, map[string]int{}
	for _, it := range l.Items {
		switch {
		case it.Layer == scene.LayerRuns && it.Kind == scene.Polyline:
			lines[strings.Trim(strings.Join(strings.Fields(text(&scene.List{Items: []scene.Item{{Style: scene.Style{Width: it.Style.Width, Dash: it.Style.Dash}}}})), " "), " ")] = true
		case it.Layer == scene.LayerFinding && it.Kind == scene.Circle && it.Size == 1.4:
			crosses[it.Entity]++
			if d := away(it.Points[0], in.Scheme, it.Entity, v); d > 0.1 {
				t.Errorf("the mark of %s lies %.1f mm off it", it.Entity, d)
			}
		case it.Layer == scene.LayerLabels && strings.Contains(it.Text, "-0"):
			badges[it.Text]++
		}
	}
	if len(lines) < 6 {
		t.Errorf("%d kinds of line, want one for each class: %v", len(lines), lines)
	}
	for id, n := range map[string]int{"R17": 2, "R19": 1, "R12": 1, "R7": 1, "R8": 1} {
		if crosses[id] != n {
			t.Errorf("%s has %d marks, want %d", id, crosses[id], n)
		}
	}
	if badges["VD-01"] > 0 || badges["DIG-01"] != 2 || badges["DIG-03"] != 2 {
		t.Errorf("codes %v", badges)
	}
}

// away is the distance of a place on paper from a run.
func away(p scene.XY, s *doc.Scheme, id string, v scene.View) float64 {
	r, ok := s.Runs.Get(doc.ID(id))
	if !ok {
		return math.Inf(1)
	}
	d := geom.ToPath(v.Plan(p), doc.RunPath(s, r), false)
	return d.Millimetres() / v.Denominator
}

// TestDigLegend: every class used is explained once, kinds of ground that the
// look does not show are not.
func TestDigLegend(t *testing.T) {
	seen := map[string]int{}
	for _, e := range scene.Legend(dug(t)) {
		seen[e.Group+": "+e.Words]++
		for _, it := range e.Sample {
			for _, p := range it.Points {
				if math.Abs(p.X) > scene.LegendWidth/2+0.8 || math.Abs(p.Y) > scene.LegendHeight/2+0.9 {
					t.Errorf("%q reaches %v", e.Words, p)
				}
			}
		}
	}
	for _, want := range []string{"Depth of runs: Not buried", "Depth of runs: Buried, depth not given", "Depth of runs: Less than 450 mm deep", "Depth of runs: 450 mm to less than 500 mm",
		"Depth of runs: 500 mm to less than 600 mm", "Depth of runs: 600 mm or deeper", "Depth of runs: In duct below ground", "Depth of runs: This colour: mains",
		"Ground, by how deep people dig: No digging given", "Ground, by how deep people dig: Up to 150 mm", "Ground, by how deep people dig: Up to 300 mm", "Ground, by how deep people dig: Up to 450 mm",
		"Ground, by how deep people dig: Deeper than 450 mm", "Marks of digging: Stop: clash in the ground", "Marks of digging: By hand up to here", "Ground: Buried service"} {
		if seen[want] != 1 {
			t.Errorf("%q stands there %d times", want, seen[want])
		}
	}
	if seen["Ground: Lawn"]+seen["Zones: Zone 1 Terrace"] > 0 {
		t.Error("the look of digging explains what it does not show")
	}
}

// TestDigContrast holds what is drawn to 3:1 on the ground below it, as
// TestContrast does for the plan (WCAG 2.1, 1.4.11).
func TestDigContrast(t *testing.T) {
	for name, p := range map[string]*scene.Palette{"light": scene.Light(), "dark": scene.Dark()} {
		in := dug(t)
		in.Palette = p
		for _, it := range scene.Build(in, scene.Fit(in.Scheme, 280, 240), 280, 240).Items {
			if it.Layer != scene.LayerGround || it.Style.Fill.A == 0 {
				continue
			}
			for k, c := range map[string]scene.Colour{"mains": p.Mains, "extra": p.Extra, "service": p.Service, "tree": p.Planting, "stop": p.Stop, "decide": p.Decide, "note": p.Note} {
				if r := contrast(c, it.Style.Fill); r < 3 {
					t.Errorf("%s: %s on %v %.2f:1, want 3", name, k, it.Style.Fill, r)
				}
			}
		}
	}
}

// sideOf is the section of a run of the dug garden.
func sideOf(t testing.TB, in scene.Input, run doc.ID, chosen int) scene.SectionInput {
	t.Helper()
	p, ok := derive.Unroll(in.Scheme, run, nil)
	if !ok {
		t.Fatalf("no run %s", run)
	}
	return scene.SectionInput{Scheme: in.Scheme, Stock: in.Stock, Profile: p, Findings: in.Findings, Lengths: in.Lengths, Chosen: chosen, Mark: scene.Colour{R: 0x00, G: 0x6B, B: 0x75, A: 0xFF},
		Readings: [2]scene.SectionReading{{Volts: q.Volt(11.8), Amps: q.Ampere(1.25), Known: true}, {}}}
}

// TestSectionGolden compares the sides of a run over several grounds and of one
// that ends in the air with goldens.
func TestSectionGolden(t *testing.T) {
	in := dug(t)
	l, _ := scene.Section(sideOf(t, in, "R12", 1), 200, 40)
	golden(t, "section.txt", text(l))
	l, _ = scene.Section(sideOf(t, in, "R20", 3), 150, 34)
	golden(t, "section-air.txt", text(l))
}

// TestStretch: heights are drawn by the largest of the round numbers that leaves
// room. 40 m on 193 mm are 4.8 mm a metre; 0.3 m up and down, with a sixth of
// that to spare at both ends, are 0.8 m, for which 31.4 mm are left: 39 mm a
// metre, 8 times as much.
func TestStretch(t *testing.T) {
	s := doc.New("uk-18")
	s.Runs = doc.NewSet(&doc.Run{ID: "R1", Tag: "R1", From: doc.End{At: geom.Pt(0, 0)}, To: doc.End{At: geom.Pt(40, 0)}, Legs: []doc.Leg{{}}})
	p, _ := derive.Unroll(s, "R1", nil)
	l, scale := scene.Section(scene.SectionInput{Scheme: s, Profile: p, Chosen: -1}, 240, 40)
	if scale.Stretch != 5 {
		t.Errorf("heights are %v times larger, want 5", scale.Stretch)
	}
	if d := scale.Paper(0, 0).Y - scale.Paper(0, geom.Metre).Y; math.Abs(d-5*193.0/40) > 1e-6 {
		t.Errorf("a metre up is %v mm", d)
	}
	for _, it := range l.Items {
		if it.Text == "heights 5 times larger than lengths" {
			return
		}
	}
	t.Error("the sheet does not say so")
}

// TestSectionSays: what has to be read off a section stands on it.
func TestSectionSays(t *testing.T) {
	in := dug(t)
	for run, want := range map[doc.ID][]string{
		"R12": {"B2", "L7", "11.8 V", "1.25 A", "no reading", "gas pipe, depth not known", "Lawn, dug 150 mm", "heights drawn as lengths", "1 buried, 450 mm", "R12 · 2 × 2.5 mm² · 2 m · extra-low voltage"},
		"R20": {"in the air", "L14", "Border, dug 300 mm"},
		"R5":  {"G2", "B1", "Terrace", "R5 · 3 × 1.5 mm² · 4 m · mains"},
		"R13": {"1 buried, depth not given"},
		"R11": {"1 in duct, 450 mm"},
	} {
		l, _ := scene.Section(sideOf(t, in, run, -1), 240, 44)
		said := map[string]bool{}
		var all []string
		for _, it := range l.Items {
			if it.Kind == scene.Text {
				said[it.Text] = true
				all = append(all, it.Text)
			}
		}
		for _, w := range want {
			if !said[w] {
				t.Errorf("%s does not say %q, only %q", run, w, all)
			}
		}
	}
}

// Laws of a section, for any legs and any room: heights are never drawn smaller
// than lengths, everything on the cable stays inside the sheet, and a place on
// paper reads back as what was put there.
func TestLawsOfSection(t *testing.T) {
	base := small()
	rapid.Check(t, func(t *rapid.T) {
		l := func(name string, low, high geom.Length) geom.Length {
			return geom.Length(rapid.Int64Range(int64(low), int64(high)).Draw(t, name))
		}
		s := *base.Scheme
		old, _ := s.Runs.Get("R12")
		r := *old
		r.Legs = nil
		for range rapid.IntRange(1, 6).Draw(t, "legs") {
			leg := doc.Leg{To: geom.Point{X: l("x", 0, 12*geom.Metre), Y: l("y", 0, 9*geom.Metre)}, Support: network.Support(rapid.IntRange(0, 5).Draw(t, "support"))}
			if leg.Support == network.Buried || leg.Support == network.InDuct {
				leg.Depth = l("depth", 0, 2*geom.Metre)
			} else {
				leg.Height = l("height", 0, 6*geom.Metre)
			}
			r.Legs = append(r.Legs, leg)
		}
		s.Runs = s.Runs.With(&r)
		p, _ := derive.Unroll(&s, "R12", nil)
		w, h := rapid.Float64Range(90, 500).Draw(t, "w"), rapid.Float64Range(24, 200).Draw(t, "h")
		list, scale := scene.Section(scene.SectionInput{Scheme: &s, Stock: base.Stock, Profile: p, Chosen: rapid.IntRange(-1, len(r.Legs)+1).Draw(t, "chosen")}, w, h)
		if scale.Stretch < 1 {
			t.Fatalf("heights are shrunk to %v", scale.Stretch)
		}
		if long := scale.Paper(p.Length, 0).X - scale.Paper(0, 0).X; long > w-46.9 {
			t.Fatalf("%.1f mm of %.1f are taken by the length", long, w)
		}
		for _, it := range list.Items {
			for _, at := range it.Points {
				if math.IsNaN(at.X) || math.IsNaN(at.Y) {
					t.Fatalf("%s %q at %v", it.Layer, it.Text, at)
				}
				if it.Layer == scene.LayerRuns && (at.X < 20 || at.X > w-10 || at.Y < 0 || at.Y > h) {
					t.Fatalf("the run leaves the sheet of %.0f x %.0f at %v", w, h, at)
				}
			}
		}
		along, level := l("along", 0, p.Length), l("level", -2*geom.Metre, 6*geom.Metre)
		at := scale.Place(scale.Paper(along, level))
		if abs(at.X-along) > 2 || abs(at.Y-level) > 2 {
			t.Fatalf("%v, %v reads back as %v", along, level, at)
		}
		var sum geom.Length
		for _, g := range p.Ground {
			sum += g.To - g.From
		}
		if sum != p.Length || p.Length != p.Legs[len(p.Legs)-1].To {
			t.Fatalf("ground covers %v of %v", sum, p.Length)
		}
	})
}

func abs(l geom.Length) geom.Length { return max(l, -l) }

// TestZoneRings: the rings of six zones differ without their colour, and
// hiding zones leaves neither ring nor number.
func TestZoneRings(t *testing.T) {
	in := small()
	shapes := map[string]int{}
	for n := 1; n <= 6; n++ {
		s := *in.Scheme
		s.Zones = doc.NewSet(&doc.Zone{ID: "Z1", Tag: "Z1", Number: n, Colour: "amber"})
		s.Lamps = doc.NewSet(&doc.Lamp{ID: "L1", Tag: "L1", Stock: "wall", Zone: "Z1", Place: doc.Place{At: geom.Pt(5, 5)}})
		one := scene.Input{Scheme: &s, Stock: in.Stock, Show: map[scene.Layer]bool{scene.LayerPoints: true}, Palette: scene.Light().Grey()}
		drawn := ""
		for _, it := range scene.Build(one, scene.View{Denominator: 50, Origin: geom.Pt(0, 10)}, 200, 200).Items {
			drawn += fmt.Sprintln(it.Kind, it.Points, it.Size, it.Style)
		}
		if other, twice := shapes[drawn]; twice {
			t.Errorf("zones %d and %d have the same ring", other, n)
		}
		shapes[drawn] = n
	}
	in.NoZones = true
	for _, it := range scene.Build(in, scene.Fit(in.Scheme, 280, 240), 280, 240).Items {
		if it.Text == "/1" || it.Text == "/2" || it.Style.Stroke == scene.Light().Zone["amber"] {
			t.Errorf("zones are hidden, yet there is %+v", it)
		}
	}
	for _, e := range scene.Legend(in) {
		if e.Group == "Zones" {
			t.Errorf("hidden zones are explained: %s", e.Words)
		}
	}
}

// TestDigPicture leaves pictures to look at when LOOK names a folder.
func TestDigPicture(t *testing.T) {
	dir := os.Getenv("LOOK")
	if dir == "" {
		t.Skip("set LOOK to a folder to get pictures to look at")
	}
	save := func(name string, l *scene.List, k float64) {
		img := image.NewRGBA(image.Rect(0, 0, int(l.Width*k), int(l.Height*k)))
		scene.NewRasteriser().Draw(img, l, k)
		f, err := os.Create(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		if err := png.Encode(f, img); err != nil {
			t.Fatal(err)
		}
	}
	in := dug(t)
	save("dig.png", scene.Build(in, scene.Fit(in.Scheme, 240, 220), 240, 220), 5)
	for i, run := range []doc.ID{"R12", "R20", "R10", "R9", "R4"} {
		s := sideOf(t, in, run, 1)
		if i%2 == 1 {
			s.Palette = scene.Dark()
		}
		l, _ := scene.Section(s, 180, 40)
		save("section-"+string(run)+".png", l, 6)
	}
	in.Palette, in.Screen = scene.Dark(), true
	save("dig-dark.png", scene.Build(in, scene.Fit(in.Scheme, 240, 160), 240, 160), 5)
}

// BenchmarkZones compares plain rings, as all zones once had, with rings of
// several shapes, and the look of digging with both: 1,000 lamps at 1280 x 800.
func BenchmarkZones(b *testing.B) {
	w, h := 1280/4.0, 800/4.0
	img := image.NewRGBA(image.Rect(0, 0, 1280, 800))
	r := scene.NewRasteriser()
	for _, c := range []struct {
		name string
		same bool
		look scene.Look
	}{{"plain", true, scene.LookPlan}, {"rings", false, scene.LookPlan}, {"dig", false, scene.LookDig}} {
		s := garden.Large(1000)
		if c.same {
			s.Zones = doc.NewSet(&doc.Zone{ID: "Z1", Number: 1, Colour: "amber"}, &doc.Zone{ID: "Z2", Number: 1, Colour: "blue"}, &doc.Zone{ID: "Z3", Number: 1, Colour: "green"})
		}
		in := scene.Input{Scheme: s, Stock: garden.Stock(), Screen: true, Look: c.look}
		v := scene.Centred(s, 250, w, h)
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				r.Draw(img, scene.Build(in, v, w, h), 4)
			}
		})
	}
}

// TestUsualDepth: a bed of which nobody said how deep it is dug is drawn as dug
// as is usual, and the picture says that it was taken.
func TestUsualDepth(t *testing.T) {
	in := small()
	in.Look = scene.LookDig
	for _, it := range scene.Build(in, scene.Fit(in.Scheme, 280, 240), 280, 240).Items {
		if it.Text == "Vegetables, dug 450 mm as usual" {
			return
		}
	}
	t.Error("the vegetable bed does not say how deep it is taken to be dug")
}

// TestClashPlace: a finding about depth is marked where the run lies shallowest
// in that ground, whichever leg it is.
func TestClashPlace(t *testing.T) {
	for _, deep := range [][2]geom.Length{{450 * mm, 700 * mm}, {700 * mm, 450 * mm}} {
		in := dug(t)
		in.Findings = []finding.Finding{{Code: "DIG-01", Level: finding.Stop, Subject: finding.Subject{ID: "R12"}, Also: []finding.Subject{{ID: "A1"}}}}
		r, _ := in.Scheme.Runs.Get("R12")
		r.Legs[0].Depth, r.Legs[1].Depth = deep[0], deep[1]
		path := doc.RunPath(in.Scheme, r)
		if deep[0] > deep[1] {
			path = path[1:]
		}
		v := scene.Fit(in.Scheme, 280, 240)
		found := false
		for _, it := range scene.Build(in, v, 280, 240).Items {
			if it.Layer == scene.LayerFinding && it.Kind == scene.Circle && it.Size == 1.4 {
				found = true
				if d := geom.ToPath(v.Plan(it.Points[0]), path[:2], false); d > 5*mm {
					t.Errorf("depths %v: marked %v off the shallow leg", deep, d)
				}
			}
		}
		if !found {
			t.Errorf("depths %v: no mark", deep)
		}
	}
}
