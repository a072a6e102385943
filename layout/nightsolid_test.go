package layout_test

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"duskwire/calc/light"
	q "duskwire/calc/quantity"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// evenLux is the light of evenLamp on level ground at a height, by hand:
// 0.8 · 50 cd · h/(h² + r²)^1.5 with h = 3 m less the height.
func evenLux(x, y, z float64) float64 {
	h := 3 - z
	return 0.8 * 50 * h / math.Pow(h*h+x*x+y*y, 1.5)
}

// TestNightSolids: what stands up throws a shadow as wide and as long as it is, and
// the ground beside the shadow has all of its light. Shadows by hand: the lamp is 3 m
// up at the origin.
func TestNightSolids(t *testing.T) {
	house := func(h geom.Length) func(*doc.Scheme) {
		return func(s *doc.Scheme) {
			s.Areas = doc.NewSet(&doc.Area{ID: "A1", Tag: "A1", Kind: "building", Height: h, Ring: square(3, 0, 2)})
		}
	}
	tree := func(change func(*doc.Mark)) func(*doc.Scheme) {
		return func(s *doc.Scheme) {
			m := &doc.Mark{ID: "M1", Tag: "M1", Kind: "tree", Radius: 100 * geom.Millimetre, Place: doc.Place{At: geom.Pt(2, 0)}, Crown: geom.Metre}
			change(m)
			s.Marks = doc.NewSet(m)
		}
	}
	pergola := func(s *doc.Scheme) {
		s.Lines = doc.NewSet(&doc.Line{ID: "N1", Tag: "N1", Kind: "pergola", Path: []geom.Point{geom.Pt(2, 0), geom.Pt(2, 2), geom.Pt(2, 0)}, Height: 2300 * geom.Millimetre})
	}
	crowned := func(m *doc.Mark) { m.CrownTop, m.CrownBase = 2500*geom.Millimetre, 2200*geom.Millimetre }
	for _, c := range []struct {
		name    string
		with    func(*doc.Scheme)
		x, y, z float64
		pass    float64
	}{
		{"behind a house", house(5 * geom.Metre), 6, 0, 0, 0},
		{"behind a house of which no height is said: 5 m taken", house(0), 6, 0, 0, 0},
		{"before the house", house(5 * geom.Metre), 1.9, 0, 0, 1},
		{"beside the shadow of the house: its corner is seen at 1 m in 2 m", house(5 * geom.Metre), 6, 3.1, 0, 1},
		{"within the shadow", house(5 * geom.Metre), 6, 2.9, 0, 0},
		{"the shadow of a house of 1 m ends at 4·3/2 = 6 m", house(geom.Metre), 6.1, 0, 0, 1},
		{"before that", house(geom.Metre), 5.9, 0, 0, 0},
		{"above a house of 1 m", house(geom.Metre), 6, 0, 2, 1},
		{"behind a trunk, crown of 2.2 to 2.5 m", tree(crowned), 3, 0, 0, 0},
		{"beside its shadow, a tenth in 2 m", tree(crowned), 3, 0.2, 0, 1},
		{"a trunk of which no radius is said", tree(func(m *doc.Mark) { crowned(m); m.Radius = 0 }), 3, 0, 0, 1},
		{"a trunk of which no height is said: to 2.7 m, clear stem and crown", tree(func(*doc.Mark) {}), 3, 0, 0, 0},
		{"a crown of which no height is said throws none", tree(func(*doc.Mark) {}), 3, 0.9, 0, 1},
		{"a trunk that the lamp is drawn in does not hide it", tree(func(m *doc.Mark) {
			m.Place.At, m.CrownTop, m.CrownBase = geom.Pt(0, 0), 5*geom.Metre, 4900*geom.Millimetre
		}), 3, 0, 0, 1},
		{"behind a post of a pergola", pergola, 4, 0, 0, 0},
		{"beside it, a twentieth in 2 m", pergola, 4, 0.12, 0, 1},
		{"behind its second post", pergola, 4, 4, 0, 0},
		{"between its posts", pergola, 4, 2, 0, 1},
	} {
		s := evenLamp()
		c.with(s)
		n := nightOf(t, frameFrom(t, s))
		got, want := float64(n.Scene.At(light.Vec{X: c.x, Y: c.y, Z: c.z}, light.Up)), c.pass*evenLux(c.x, c.y, c.z)
		if math.Abs(got-want) > 1e-6*(1+want) {
			t.Errorf("%s: %g lx, expected %g", c.name, got, want)
		}
	}
	s := evenLamp()
	tree(func(*doc.Mark) {})(s)
	all := strings.Join(nightOf(t, frameFrom(t, s)).Assumed, "\n")
	for _, said := range []string{"M1: crown not known, throws no shadow", "M1: height of the trunk not known"} {
		if !strings.Contains(all, said) {
			t.Errorf("assumed %q, expected %q", all, said)
		}
	}
}

// TestNightDeck: a deck is lit at its own height, the same wherever it is asked: by
// probe, sheet, LUX-01 and scene. What is drawn over it owns its ground.
func TestNightDeck(t *testing.T) {
	s := evenLamp()
	s.Areas = doc.NewSet(&doc.Area{ID: "A1", Tag: "A1", Kind: "deck", Height: geom.Metre, Ring: square(0, 0, 0.1)},
		&doc.Area{ID: "A2", Tag: "A2", Kind: "deck", Height: 120 * geom.Millimetre, Ring: square(4, 0, 3)},
		&doc.Area{ID: "A3", Tag: "A3", Kind: "lawn", Ring: square(4.5, 0, 1)})
	f := frameFrom(t, s)
	n := nightOf(t, f)
	g := layout.NightGrid(layout.NightArea(s), 512*512)
	sheet, err := layout.FillSheet(context.Background(), n, g)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ x, y, z float64 }{{0.01, 0, 1}, {3, 0.5, 0.12}, {4.4, 0.2, 0}, {-2, 1, 0}, {5.3, -1, 0.12}} {
		x, y := int((c.x-g.X0)/g.Step), int((c.y-g.Y0)/g.Step)
		m := g.Middle(x, y)
		want := evenLux(m.X, m.Y, c.z)
		if p := n.Probe(geom.Pt(m.X, m.Y)); math.Abs(float64(p.Lux)-want) > 1e-4 {
			t.Errorf("probe at %g, %g: %v, expected %g lx", c.x, c.y, p.Lux, want)
		}
		if got := float64(sheet.Lux(x, y)); math.Abs(got-want) > 1e-4+light.LeftOut*0.01 {
			t.Errorf("plan at %g, %g: %g lx, expected %g", c.x, c.y, got, want)
		}
	}
	// Before a door on a deck of 1 m the light on its square of 1.5 m is that of the
	// deck: 0.8 · 50 · 2/(2² + r²)^1.5 on average.
	s.Areas = doc.NewSet(&doc.Area{ID: "A1", Tag: "A1", Kind: "deck", Use: "none", Height: geom.Metre, Ring: square(0, 0, 4)})
	s.Marks = doc.NewSet(&doc.Mark{ID: "M1", Tag: "M1", Kind: "door", Place: doc.Place{At: geom.Pt(0, 0)}})
	sum := 0.0
	for k := range 100 * 100 {
		sum += evenLux(1.5*(float64(k%100)+0.5)/100-0.75, 1.5*(float64(k/100)+0.5)/100-0.75, 1) / 1e4
	}
	average := 0.0
	if figure := figureOf(t, s, "LUX-01"); figure == "" {
		t.Error("no LUX-01 before the door")
	} else if _, err := fmt.Sscanf(figure, "%f lx average", &average); err != nil || math.Abs(average-sum) > 0.01*sum {
		t.Errorf("LUX-01 before the door: %q, expected %g lx on average", figure, sum)
	}
	beforeDoor(t, s)
	if p := n.Probe(geom.Pt(0, 0)); math.Abs(float64(p.Lux)-10) > 1e-9 {
		t.Errorf("in the middle of the deck: %v, expected 0.8 · 50 / 2² = 10 lx", p.Lux)
	}
}

// beforeDoor checks what LUX-01 says before the door of a deck beside its average: the
// light on faces is that of Night.Upright; new and clean the average is 1/0.8 of it,
// whatever a lamp let into the ground gives below the deck; and a lamp of 0.5 m is near
// at 2 m and not at 3 m.
func beforeDoor(t *testing.T, s *doc.Scheme) {
	t.Helper()
	n := nightOf(t, frameFrom(t, s))
	want := 0.0
	for k := range 20 * 20 {
		want += float64(n.Upright(geom.Pt(1.5*(float64(k%20)+0.5)/20-0.75, 1.5*(float64(k/20)+0.5)/20-0.75)).Lux) / 400
	}
	fs := litBy(t, s, "LUX-01")
	if len(fs) != 1 {
		t.Fatalf("found %+v", fs)
	}
	// Some of the points, turned to 8 sides where Upright turns to 72: up to 8 % less.
	faces := 0.0
	part := fs[0].Figure[strings.LastIndex(fs[0].Figure, ", ")+2:]
	if _, err := fmt.Sscanf(part, "%f lx on faces", &faces); err != nil || math.Abs(faces-want) > 0.1*want {
		t.Errorf("on faces: %q, expected about %g lx", fs[0].Figure, want)
	}
	if strings.Contains(fs[0].Working, "nearer than five times") {
		t.Errorf("a point is near:\n%s", fs[0].Working)
	}
	two := *s
	two.Stock.Lamps = append(slices.Clone(s.Stock.Lamps), doc.LampStock{Key: "low", Name: "Low", Kind: "recessed", Flux: 200 * math.Pi, Temperature: 2700, Beam: 180})
	two.Stock.Lamps[0].Kind, two.Stock.Lamps[0].Length = "strip", 1
	strip := *s.Lamps.All()[0]
	strip.Length = q.Some(q.Metre(0.5))
	low := &doc.Lamp{ID: "L2", Tag: "L2", Stock: "low", Place: doc.Place{At: geom.Pt(0.5, 0), Height: 900 * geom.Millimetre}}
	two.Lamps = doc.NewSet(&strip, low)
	two.Survey.MaintenanceGround = q.Some(doc.Ratio(0.4))
	if fs = litBy(t, &two, "LUX-01"); len(fs) != 1 {
		t.Fatalf("found %+v", fs)
	}
	average, fresh := 0.0, 0.0
	_, err := fmt.Sscanf(fs[0].Figure, "%f lx average", &average)
	_, part, _ = strings.Cut(fs[0].Working, "new and clean the average is ")
	if _, err2 := fmt.Sscanf(part, "%f lx", &fresh); err != nil || err2 != nil || math.Abs(fresh*0.8-average) > 0.02*average {
		t.Errorf("%g lx, new and clean %g lx, expected 1/0.8 of it", average, fresh)
	}
	if !strings.Contains(fs[0].Working, "L1: nearer than five times") {
		t.Errorf("2 m from 0.5 m are not near:\n%s", fs[0].Working)
	}
}

// TestDuskDeck: raising a deck makes the night picture anew.
func TestDuskDeck(t *testing.T) {
	s := evenLamp()
	deck := doc.Area{ID: "A1", Tag: "A1", Kind: "deck", Height: 200 * geom.Millimetre, Ring: square(0, 0, 4)}
	s.Areas = doc.NewSet(&deck)
	d := layout.SmallDusk()
	first, _ := settled(t, d, wish(frameFrom(t, s), layout.NightArea(s), ""))
	higher, again := *s, deck
	again.Height = 2 * geom.Metre
	higher.Areas = doc.NewSet(&again)
	area := layout.NightArea(s)
	second, _ := settled(t, d, wish(frameFrom(t, &higher), area, ""))
	want, _ := settled(t, layout.SmallDusk(), wish(frameFrom(t, &higher), area, ""))
	if string(first.Picture.Level(0).Pix) == string(second.Picture.Level(0).Pix) || string(second.Picture.Level(0).Pix) != string(want.Picture.Level(0).Pix) {
		t.Error("the picture does not follow the height of the deck")
	}
}

// TestEyesAndPanes: heights that nobody gave. Eyes of who walks are 1.5 m up (EN
// 13201-3, observer; from memory), who sits 1.2 m (EN 12464-1, seated observer; from
// memory), a window 1.5 m (common practice, no source).
func TestEyesAndPanes(t *testing.T) {
	// 400 lm of 36° have 2.3575 cd/lm in their axis (formulas page, derived): 943 cd
	// for eyes at the height of a level beam.
	look := func(height geom.Length, with func(*doc.Scheme)) string {
		s := doc.New("uk-18")
		s.Stock.Lamps = []doc.LampStock{{Key: "spot", Name: "Spot", Kind: "wall", Flux: 400, Temperature: 2700, Beam: 36}}
		s.Lamps = doc.NewSet(&doc.Lamp{ID: "L1", Tag: "L1", Stock: "spot", Aim: 90, Place: doc.Place{Height: height}})
		with(s)
		return figureOf(t, s, "LUX-04")
	}
	walk := func(s *doc.Scheme) {
		s.Lines = doc.NewSet(&doc.Line{ID: "N1", Tag: "N1", Kind: "step", Path: []geom.Point{geom.Pt(3, -0.01), geom.Pt(3, 0.01)}})
	}
	seat := func(s *doc.Scheme) {
		s.Marks = doc.NewSet(&doc.Mark{ID: "M1", Tag: "M1", Kind: "seat", Place: doc.Place{At: geom.Pt(3, 0)}})
	}
	for _, c := range []struct {
		name   string
		height geom.Length
		with   func(*doc.Scheme)
		want   string
	}{
		{"walks, level with the beam", 1500 * geom.Millimetre, walk, "943 cd by L1"},
		{"walks, 10° under it: 943 · cos(10°)^13.813", 1500*geom.Millimetre + geom.Metres(3*math.Tan(10*math.Pi/180)), walk, "763 cd by L1"},
		{"sits, level with the beam", 1200 * geom.Millimetre, seat, "943 cd by L1"},
	} {
		if got := look(c.height, c.with); got != c.want {
			t.Errorf("%s: found %q, expected %q", c.name, got, c.want)
		}
	}
	s := evenLamp()
	s.Survey.LightZone = "E1"
	s.Marks = doc.NewSet(&doc.Mark{ID: "M1", Tag: "M1", Kind: "window", Owner: "neighbour", Place: doc.Place{At: geom.Pt(4, 0)}})
	// 0.8 · 50 · 4/(4² + 1.5²)^1.5 = 2.05 lx, the lamp 1.5 m above the middle of the window.
	if got := figureOf(t, s, "LUX-02"); got != "2.05 lx upright" {
		t.Errorf("window of no height: found %q, expected 2.05 lx", got)
	}
	if fs := litBy(t, s, "LUX-02"); len(fs) == 0 || !strings.Contains(strings.Join(fs[0].Assumed, "\n"), "height of M1 not drawn: 1.5 m taken") {
		t.Errorf("the height that was taken is not said: %+v", fs)
	}
}

// TestWaterHabitat: which lamps reach water, by hand from E = MF·I/d².
func TestWaterHabitat(t *testing.T) {
	for _, c := range []struct {
		name   string
		at     geom.Point
		height geom.Length
		white  q.Kelvin
		want   string // of the working, "" for no finding
		level  string
	}{
		{"3 m above: 0.8 · 50 / 3²", geom.Pt(0, 0), 3 * geom.Metre, 4000, "L1: 4.44 lx level on the water of A1", "Decide"},
		{"less warm", geom.Pt(0, 0), 3 * geom.Metre, 3000, "L1: 4.44 lx level on the water of A1", "Note"},
		{"warm", geom.Pt(0, 0), 3 * geom.Metre, 2700, "", ""},
		{"in the water, through its face: 0.8 · 50 / 0.5²", geom.Pt(0, 0), -500 * geom.Millimetre, 4000, "L1: 160 lx level on the water of A1", "Decide"},
		{"far off: 0.8 · 50 · 3/(3² + 8.3²)^1.5 = 0.174 lx, below 0.2", geom.Pt(8.3, 0), 3 * geom.Metre, 4000, "", ""},
		{"nearer: at 7.5 m 0.228 lx", geom.Pt(7.5, 0), 3 * geom.Metre, 4000, "L1: 0.23 lx level on the water of A1", "Decide"},
	} {
		s := evenLamp()
		s.Stock.Lamps[0].Temperature = c.white
		s.Lamps = doc.NewSet(&doc.Lamp{ID: "L1", Tag: "L1", Stock: "even", Place: doc.Place{At: c.at, Height: c.height}})
		s.Areas = doc.NewSet(&doc.Area{ID: "A1", Tag: "A1", Kind: "water", Ring: square(0, 0, 0.02)})
		fs := litBy(t, s, "LUX-05")
		switch {
		case c.want == "" && len(fs) > 0:
			t.Errorf("%s: found %s", c.name, fs[0].Working)
		case c.want != "" && (len(fs) != 1 || !strings.Contains(fs[0].Working, c.want) || fs[0].Level.String() != c.level):
			t.Errorf("%s: found %+v, expected %s, %q", c.name, fs, c.level, c.want)
		}
	}
}
