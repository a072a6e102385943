package scene_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"duskwire/calc/finding"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/internal/garden"
	"duskwire/layout/scene"
)

// luminance is the relative luminance of WCAG 2.1.
func luminance(c scene.Colour) float64 {
	f := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*f(c.R) + 0.7152*f(c.G) + 0.0722*f(c.B)
}

func contrast(a, b scene.Colour) float64 {
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// TestContrast holds lettering to 4.5:1 and drawing to 3:1 against the
// background and the fills below it (WCAG 2.1, 1.4.3 and 1.4.11).
func TestContrast(t *testing.T) {
	for name, p := range map[string]*scene.Palette{"light": scene.Light(), "dark": scene.Dark()} {
		text := map[string]scene.Colour{"ink": p.Ink, "soft": p.Soft, "mains": p.Mains, "extra": p.Extra}
		for k, c := range p.Zone {
			text["zone "+k] = c
		}
		for k, c := range text {
			if r := contrast(c, p.Paper); r < 4.5 {
				t.Errorf("%s: %s on paper %.2f:1, want 4.5", name, k, r)
			}
		}
		for k, c := range map[string]scene.Colour{"stop": p.Stop, "decide": p.Decide, "note": p.Note} {
			if r := contrast(c, p.OnMark); r < 4.5 {
				t.Errorf("%s: sign on %s %.2f:1, want 4.5", name, k, r)
			}
		}
		for kind, tone := range p.Ground {
			for k, c := range map[string]scene.Colour{"mains": p.Mains, "extra": p.Extra, "wall": p.Wall, "service": p.Service, "tree": p.Planting} {
				if r := contrast(c, tone.Fill); r < 3 {
					t.Errorf("%s: %s on %s %.2f:1, want 3", name, k, kind, r)
				}
			}
			if tone.Hatch == tone.Fill {
				t.Errorf("%s: no hatch on %s", name, kind)
			}
		}
		for _, kind := range doc.AreaKinds {
			if _, ok := p.Ground[kind]; !ok {
				t.Errorf("%s: no tone for %s", name, kind)
			}
		}
		for _, key := range doc.ZoneColours {
			if _, ok := p.Zone[key]; !ok {
				t.Errorf("%s: no colour for zone %s", name, key)
			}
		}
	}
}

// TestLettering: nothing under 1.8 mm, and every point has its tag on paper.
func TestLettering(t *testing.T) {
	in := small()
	tags := map[string]bool{}
	for _, it := range scene.Build(in, scene.Fit(in.Scheme, 280, 240), 280, 240).Items {
		if it.Kind == scene.Text {
			tags[it.Text] = true
			if it.Size < 1.8 {
				t.Errorf("%q is %.2f mm high", it.Text, it.Size)
			}
			if it.Turn <= -90.01 || it.Turn > 90.01 {
				t.Errorf("%q stands on its head: %.1f°", it.Text, it.Turn)
			}
		}
	}
	for _, l := range in.Scheme.Lamps.All() {
		if !tags[l.Tag] {
			t.Errorf("lamp %s has no tag", l.Tag)
		}
	}
	for _, want := range []string{"SP1", "B1", "B2", "G1", "G2", "S1", "/1", "/2", "R4 · 3 × 1.5 mm² · 6 m"} {
		if !tags[want] {
			t.Errorf("%q is not lettered", want)
		}
	}
}

// TestTagsKeepApart: level texts of a plan with room do not overlap.
func TestTagsKeepApart(t *testing.T) {
	in := small()
	type box struct {
		text           string
		x0, y0, x1, y1 float64
	}
	var boxes []box
	for _, it := range scene.Build(in, scene.Fit(in.Scheme, 280, 240), 280, 240).Items {
		if it.Kind == scene.Text && it.Turn == 0 {
			p := it.Points[0]
			boxes = append(boxes, box{it.Text, p.X + 0.05, p.Y - it.Size, p.X + scene.TextWidth(it.Text, it.Size, it.Bold) - 0.05, p.Y})
		}
	}
	for i, a := range boxes {
		for _, b := range boxes[:i] {
			if a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1 {
				t.Errorf("%q and %q overlap", a.text, b.text)
			}
		}
	}
}

// runs returns the style of each run's line.
func runs(l *scene.List) map[string]scene.Style {
	out := map[string]scene.Style{}
	for _, it := range l.Items {
		if it.Layer == scene.LayerRuns && it.Kind == scene.Polyline {
			out[it.Entity] = it.Style
		}
	}
	return out
}

// TestVoltageShows: every run up to the source is solid, every one beyond it
// broken, in line and in colour.
func TestVoltageShows(t *testing.T) {
	in := small()
	styles := runs(scene.Build(in, scene.Fit(in.Scheme, 280, 240), 280, 240))
	for _, r := range in.Scheme.Runs.All() {
		extra := r.Cable == "elv"
		if st := styles[string(r.ID)]; (st.Dash != nil) != extra || (st.Stroke == scene.Light().Extra) != extra {
			t.Errorf("%s (%s): style %+v", r.Tag, r.Cable, st)
		}
	}
}

// TestSkipAndLayers: what is dragged is left out, label and all, and hidden
// layers stay empty.
func TestSkipAndLayers(t *testing.T) {
	in := small()
	v := scene.Fit(in.Scheme, 280, 240)
	in.Skip = func(id doc.ID) bool { return id == "L3" || id == "R7" || id == "M1" || id == "A3" }
	for _, it := range scene.Build(in, v, 280, 240).Items {
		if in.Skip(doc.ID(it.Entity)) {
			t.Errorf("%s is drawn although skipped", it.Entity)
		}
	}
	in.Skip = nil
	for _, hidden := range []scene.Layer{scene.LayerGround, scene.LayerLines, scene.LayerRuns, scene.LayerPoints, scene.LayerDimensions, scene.LayerLabels, scene.LayerFinding, scene.LayerGrid} {
		in.Show = scene.AllLayers()
		delete(in.Show, hidden)
		layers := map[scene.Layer]int{}
		for _, it := range scene.Build(in, v, 280, 240).Items {
			layers[it.Layer]++
		}
		if layers[hidden] != 0 {
			t.Errorf("%d items of hidden layer %s", layers[hidden], hidden)
		}
		if len(layers) < 5 {
			t.Errorf("hiding %s leaves only %v", hidden, layers)
		}
	}
}

// TestBadges: three shapes, and hollow when overruled; an open finding
// outranks an overruled one.
func TestBadges(t *testing.T) {
	pal := scene.Light()
	corners := map[finding.Level]int{finding.Stop: 8, finding.Decide: 4, finding.Note: 1}
	for level, n := range corners {
		body := scene.Badge(level, false, scene.XY{}, pal)[0]
		if len(body.Points) != n || body.Style.Fill == pal.Paper {
			t.Errorf("%v: %+v", level, body)
		}
		if over := scene.Badge(level, true, scene.XY{}, pal)[0]; over.Style.Fill != pal.Paper {
			t.Errorf("%v overruled is not hollow", level)
		}
	}
	in := small()
	in.Findings = append(in.Findings, finding.Finding{Code: "X", Level: finding.Note, Subject: finding.Subject{ID: "L9"}})
	for _, it := range scene.Build(in, scene.Fit(in.Scheme, 280, 240), 280, 240).Items {
		if it.Layer == scene.LayerFinding && it.Entity == "L9" && it.Kind == scene.Polygon {
			t.Error("L9 has an open note and an overruled stop: want the note")
		}
	}
}

func TestFit(t *testing.T) {
	lawn := func(w, h float64) *doc.Scheme {
		return &doc.Scheme{Areas: doc.NewSet(&doc.Area{ID: "A1", Kind: "lawn", Ring: []geom.Point{geom.Pt(5, 5), geom.Pt(5+w, 5), geom.Pt(5+w, 5+h), geom.Pt(5, 5+h)}})}
	}
	// 16 mm of the 216 x 116 mm are margin: 200 x 100 mm are left.
	tests := []struct {
		w, h float64
		want int
		fits bool
	}{{4, 2, 20, true}, {4.01, 2, 25, true}, {10, 5, 50, true}, {10, 5.001, 100, true}, {40, 3, 200, true}, {200, 100, 1000, true}, {300, 1, 1000, false}}
	for _, test := range tests {
		s := lawn(test.w, test.h)
		d, fits := scene.ScaleFor(s, 216, 116)
		if d != test.want || fits != test.fits {
			t.Errorf("%g x %g m: 1:%d fits %v, want 1:%d %v", test.w, test.h, d, fits, test.want, test.fits)
		}
		c := scene.Fit(s, 216, 116).Paper(scene.Extent(s).Centre())
		if math.Hypot(c.X-108, c.Y-58) > 0.01 {
			t.Errorf("%g x %g m: centre drawn at %v", test.w, test.h, c)
		}
	}
	if d, ok := scene.ScaleFor(&doc.Scheme{}, 100, 100); d != 50 || !ok {
		t.Errorf("empty scheme: 1:%d %v", d, ok)
	}
}

// TestViewRoundTrip: paper and back is the same plan point to a micrometre.
func TestViewRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.Int64Range(-1e9, 1e9)
		v := scene.View{Denominator: float64(rapid.SampledFrom(scene.Scales).Draw(t, "scale")),
			Origin: geom.Point{X: geom.Length(at.Draw(t, "ox")), Y: geom.Length(at.Draw(t, "oy"))}}
		p := geom.Point{X: geom.Length(at.Draw(t, "x")), Y: geom.Length(at.Draw(t, "y"))}
		if d := geom.Distance(v.Plan(v.Paper(p)), p); d > 2 {
			t.Fatalf("%v comes back %d µm away", p, d)
		}
	})
}

// TestMovedViewSameDrawing: moving the view by whole hatch cells moves the
// ground with it and changes nothing else, so that panning does not swim.
func TestMovedViewSameDrawing(t *testing.T) {
	in := small()
	in.Show = map[scene.Layer]bool{scene.LayerGround: true, scene.LayerLines: true, scene.LayerRuns: true, scene.LayerPoints: true}
	v := scene.Fit(in.Scheme, 400, 400)
	a := scene.Build(in, v, 400, 400)
	v.Origin.X += 333 * geom.Millimetre
	b := scene.Build(in, v, 400, 400)
	if len(a.Items) != len(b.Items) {
		t.Fatalf("%d items, then %d", len(a.Items), len(b.Items))
	}
	dx := 333 / v.Denominator
	for i := range a.Items {
		p, q := a.Items[i].Points, b.Items[i].Points
		if len(p) != len(q) {
			t.Fatalf("%s %s: %d points, then %d", a.Items[i].Layer, a.Items[i].Entity, len(p), len(q))
		}
		for j := range p {
			if math.Abs(p[j].X-dx-q[j].X) > 1e-6 || math.Abs(p[j].Y-q[j].Y) > 1e-6 {
				t.Fatalf("%s %s: point %d at %v, then %v", a.Items[i].Layer, a.Items[i].Entity, j, p[j], q[j])
			}
		}
	}
}

// TestCulling: zoomed in on a corner of a large plan only a few items remain,
// and hatches stay within the sheet.
func TestCulling(t *testing.T) {
	in := scene.Input{Scheme: garden.Large(1000), Stock: garden.Stock()}
	l := scene.Build(in, scene.View{Denominator: 20, Origin: geom.Pt(3, 6)}, 100, 100)
	if n := len(l.Items); n == 0 || n > 120 {
		t.Errorf("%d items on a sheet that shows four lamps", n)
	}
	for _, it := range l.Items {
		if it.Kind == scene.Segments && it.Layer == scene.LayerGround {
			for _, p := range it.Points {
				if p.X < -20 || p.X > 120 || p.Y < -20 || p.Y > 120 {
					t.Fatalf("hatch of %s at %v", it.Entity, p)
				}
			}
		}
	}
}

// TestSymbols: every kind of stock has a symbol that stays in its box.
func TestSymbols(t *testing.T) {
	names := scene.SymbolNames()
	if len(names) < 30 {
		t.Errorf("only %d symbols", len(names))
	}
	for _, n := range names {
		items := scene.Symbol(n, scene.XY{X: 10, Y: 10}, scene.Light())
		for _, it := range items {
			for _, p := range it.Points {
				if math.Abs(p.X-10) > 4 || math.Abs(p.Y-10) > 4 {
					t.Errorf("%s reaches %v", n, p)
				}
			}
		}
	}
	if scene.Symbol("no such", scene.XY{}, scene.Light()) != nil {
		t.Error("a symbol for an unknown name")
	}
}

// TestLegend explains each kind that is drawn, once, inside its box.
func TestLegend(t *testing.T) {
	seen := map[string]bool{}
	for _, e := range scene.Legend(small()) {
		if seen[e.Group+e.Words] {
			t.Errorf("%s: %q twice", e.Group, e.Words)
		}
		seen[e.Group+e.Words] = true
		for _, it := range e.Sample {
			for _, p := range it.Points {
				if math.Abs(p.X) > scene.LegendWidth/2+0.8 || math.Abs(p.Y) > scene.LegendHeight/2+0.9 {
					t.Errorf("%q reaches %v", e.Words, p)
				}
			}
		}
	}
	for _, want := range []string{"SymbolsJunction box", "SymbolsLamp, pond, ELV", "SymbolsSupply, fused spur", "Cable runsRun, mains",
		"Cable runsBuried", "Cable runsEnd in the air", "ZonesZone 1 Terrace", "GroundPergola", "GroundWater", "GroundDoor",
		"FindingsStop: do not build (overruled)", "CablesArmoured 90 °C, 3 × 1.5 mm²: 9 runs, 27.5 m cut"} {
		if !seen[want] {
			t.Errorf("no entry %q", want)
		}
	}
}
