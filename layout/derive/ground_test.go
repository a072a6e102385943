package derive

import (
	"fmt"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"duskwire/calc/check"
	"duskwire/calc/light"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// siteRules has the limits that the facts of the ground depend on.
var siteRules = &check.Rules{Key: "test", Site: check.SiteLimits{
	RootClear: check.Limit{Value: 1}, HandDig: check.Limit{Value: 4}, ServiceClear: check.Limit{Value: 0.5},
	FenceReach: check.Limit{Value: 0.15}, PostReach: check.Limit{Value: 0.2}, MownReach: check.Limit{Value: 0.2},
}}

func rect(id, kind string, x0, y0, x1, y1 float64) *doc.Area {
	return &doc.Area{ID: doc.ID(id), Tag: id, Kind: kind, Ring: []geom.Point{geom.Pt(x0, y0), geom.Pt(x1, y0), geom.Pt(x1, y1), geom.Pt(x0, y1)}}
}

func line(id, kind, owner string, p ...geom.Point) *doc.Line {
	return &doc.Line{ID: doc.ID(id), Tag: id, Kind: kind, Owner: owner, Path: p}
}

func mark(id, kind string, x, y, r float64) *doc.Mark {
	return &doc.Mark{ID: doc.ID(id), Tag: id, Kind: kind, Place: place(x, y, 0), Radius: geom.Metres(r)}
}

func dugLeg(depth float64, to ...geom.Point) doc.Leg {
	l := doc.Leg{Support: network.Buried, Depth: geom.Metres(depth)}
	if len(to) > 0 {
		l.To = to[0]
	}
	return l
}

// route derives a scheme and returns the way of a run.
func routeOf(t *testing.T, s *doc.Scheme, run string) *network.Route {
	t.Helper()
	c := Scheme(s, stock(), siteRules, nil)
	for i := range c.Circuits {
		if b, ok := c.Circuits[i].Branch[doc.ID(run)]; ok {
			return c.Circuits[i].Input.Net.Branches[b].Route
		}
	}
	t.Fatalf("no branch %s", run)
	return nil
}

// plot is a supply at the origin and a lamp 10 m east of it.
func plot(legs ...doc.Leg) *doc.Scheme {
	return &doc.Scheme{
		Supplies: doc.NewSet(supply("SP1", 0, 0, 0)), Lamps: doc.NewSet(lamp("L1", 10, 0, 0, "wall230")),
		Runs: doc.NewSet(run("R1", "mains", "SP1", "L1", legs...)),
	}
}

// TestStretches: by hand; a bend at 4 m north, over lawn, a pond drawn on it,
// and ground that nobody drew.
func TestStretches(t *testing.T) {
	s := plot(dugLeg(0.6, geom.Pt(0, 4)), dugLeg(0.5))
	lawn := rect("A1", "lawn", -1, 1, 11, 5)
	lawn.DigDepth = geom.Metres(0.1)
	s.Areas = doc.NewSet(lawn, rect("A2", "water", 2, 2, 4, 5))
	s.Lamps = doc.NewSet(lamp("L1", 10, 4, 0, "wall230"))
	want := []network.Stretch{
		{Leg: 0, Length: 1}, {Leg: 0, Ground: "lawn", Length: 3, Dig: 0.1},
		{Leg: 1, Ground: "lawn", Length: 2, Dig: 0.1}, {Leg: 1, Ground: "water", Length: 2}, {Leg: 1, Ground: "lawn", Length: 6, Dig: 0.1},
	}
	got := routeOf(t, s, "R1").Stretches
	if len(got) != len(want) {
		t.Fatalf("got %v, want %v", got, want)
	}
	for i, w := range want {
		g := got[i]
		near(t, fmt.Sprint("length of stretch ", i), float64(g.Length), float64(w.Length))
		if g.Leg != w.Leg || g.Ground != w.Ground || g.Dig != w.Dig {
			t.Errorf("stretch %d: got %+v, want %+v", i, g, w)
		}
	}
}

// TestRootsFact: trunk of 0.6 m across 1.3 m beside the trench: 1.0 m of bark,
// girth π·0.6 = 1.885 m (trade notes, scenario 7), hand digging within 4 girths
// and the radius of the centre, so over 2·√(7.84² - 1.3²) of an endless trench.
func TestRootsFact(t *testing.T) {
	s := plot(dugLeg(0.6))
	s.Supplies, s.Lamps = doc.NewSet(supply("SP1", -20, 0, 0)), doc.NewSet(lamp("L1", 20, 0, 0, "wall230"))
	s.Marks = doc.NewSet(mark("M1", "tree", 0, 1.3, 0.3), mark("M2", "tree", 0, 60, 0.3), mark("M3", "tree", 0, 9, 0))
	got := routeOf(t, s, "R1").Roots
	if len(got) != 2 {
		t.Fatalf("%d trees, want M1 and the unmeasured M3: %v", len(got), got)
	}
	near(t, "bark", float64(got[0].Bark), 1.0)
	near(t, "girth", float64(got[0].Girth), math.Pi*0.6)
	zone := 4*math.Pi*0.6 + 0.3
	if want := 2 * math.Sqrt(zone*zone-1.3*1.3); math.Abs(float64(got[0].Length)-want) > 1e-5 {
		t.Errorf("length %v, want %v", got[0].Length, want)
	}
	if got[1].Girth != 0 || got[1].Bark != 9 {
		t.Errorf("unmeasured tree: %+v", got[1])
	}
	clipped := plot()
	clipped.Marks = s.Marks
	if r := routeOf(t, clipped, "R1").Roots; len(r) != 0 {
		t.Errorf("a run on the surface has roots: %v", r)
	}
}

// TestCrossingsFact: services, walls, other runs.
func TestCrossingsFact(t *testing.T) {
	s := plot(dugLeg(0.6))
	s.Lines = doc.NewSet(
		line("N1", "buried service", "", geom.Pt(3, -1), geom.Pt(3, 1)), line("N2", "buried service", "", geom.Pt(0, 0.4), geom.Pt(5, 0.4)),
		line("N3", "buried service", "", geom.Pt(0, 0.6), geom.Pt(5, 0.6)), line("N4", "wall", "own", geom.Pt(4, -1), geom.Pt(4, 1)))
	s.Lamps = s.Lamps.With(lamp("L2", 6, 3, 0, "wall230"))
	s.Boxes = doc.NewSet(&doc.Box{ID: "B1", Tag: "B1", Stock: "box", Place: place(6, -3, 0)})
	s.Runs = s.Runs.With(run("R2", "mains", "L1", "B1", dugLeg(0.4))).With(run("R3", "elv", "B1", "L2", dugLeg(0.3)))
	got := routeOf(t, s, "R1").Crossings
	if len(got) != 3 || got[0].Subject.ID != "N1" || got[0].Distance != 0 || got[1].Subject.ID != "N2" || math.Abs(float64(got[1].Distance)-0.4) > 1e-6 {
		t.Fatalf("services: %+v, want N1 crossed and N2 at 0.4 m", got)
	}
	if x := got[2]; x.Kind != network.CrossRun || x.Subject.ID != "R3" || x.Mains || x.Depth != 0.3 {
		t.Errorf("other run: %+v, want R3 at 0.3 m", x)
	}
	if x := routeOf(t, s, "R3").Crossings; len(x) != 1 || x[0].Subject.ID != "R1" || !x[0].Mains {
		t.Errorf("seen from R3: %+v", x)
	}
	if x := routeOf(t, s, "R2").Crossings; len(x) != 0 {
		t.Errorf("R2 only meets the others at its ends: %+v", x)
	}
	wall := plot()
	wall.Lines, wall.Areas = s.Lines, doc.NewSet(rect("A1", "building", -1, -1, 1, 1))
	x := routeOf(t, wall, "R1").Crossings
	if len(x) != 2 || !x[0].House || x[0].Subject.ID != "A1" || x[1].House || x[1].Subject.ID != "N4" {
		t.Errorf("clipped through two walls: %+v", x)
	}
}

// TestBesideFact: a run 0.1 m from a fence over 5 of its 10 m, 0.1 m from the
// edge of a lawn over 4 m, then on another lawn.
func TestBesideFact(t *testing.T) {
	s := plot()
	s.Lines = doc.NewSet(line("N1", "fence", "neighbour", geom.Pt(0, 0.1), geom.Pt(5, 0.1)), line("N2", "fence", "", geom.Pt(0, 0.2), geom.Pt(5, 0.2)),
		line("N3", "boundary", "", geom.Pt(0, 0), geom.Pt(9, 0)))
	s.Areas = doc.NewSet(rect("A1", "lawn", 0, -5, 4, -0.1), rect("A2", "lawn", 7, -1, 20, 1))
	got := routeOf(t, s, "R1").Beside
	if len(got) != 3 {
		t.Fatalf("%+v, want N1, A1, A2", got)
	}
	for i, w := range []struct {
		id               string
		length, distance float64
	}{{"N1", 5 + math.Sqrt(0.15*0.15-0.1*0.1), 0.1}, {"A1", 4 + math.Sqrt(0.2*0.2-0.1*0.1), 0.1}, {"A2", 3 + 0.2, 0}} {
		g := got[i]
		if g.Subject.ID != w.id || math.Abs(float64(g.Distance)-w.distance) > 1e-6 {
			t.Errorf("%+v, want %s at %v", g, w.id, w.distance)
		}
		if math.Abs(float64(g.Length)-w.length) > 1e-5 {
			t.Errorf("%s: %v long, want %v", w.id, g.Length, w.length)
		}
	}
}

// TestPostsFact: a leg in the ground lies beside the posts of a fence within
// reach, not beside a wall, and is not fixed to either.
func TestPostsFact(t *testing.T) {
	s := plot()
	s.Lines = doc.NewSet(line("N1", "fence", "own", geom.Pt(0, 0.1), geom.Pt(5, 0.1)), line("N2", "wall", "own", geom.Pt(0, 0.1), geom.Pt(5, 0.1)),
		line("N3", "fence", "own", geom.Pt(0, 0.3), geom.Pt(5, 0.3)))
	r, _ := s.Runs.Get("R1")
	dug := *r
	dug.Legs = append([]doc.Leg(nil), r.Legs...)
	for i := range dug.Legs {
		dug.Legs[i].Support, dug.Legs[i].Depth = network.Buried, geom.Metres(0.45)
	}
	s.Runs = s.Runs.With(&dug)
	got := routeOf(t, s, "R1").Beside
	if len(got) != 1 || got[0].Kind != network.BesidePosts || got[0].Subject.ID != "N1" {
		t.Fatalf("%+v, want the posts of N1 alone", got)
	}
}

// TestPlaces: what stands where.
func TestPlaces(t *testing.T) {
	s := plot()
	s.Areas = doc.NewSet(rect("A1", "lawn", 5, -5, 15, 5), rect("A2", "water", 12, -1, 14, 1), rect("A3", "gravel", 9, -1, 10.5, 1))
	hollow := rect("A4", "border", 20, 0, 22, 2)
	hollow.Low = true
	s.Areas = s.Areas.With(hollow)
	s.Lines = doc.NewSet(line("N1", "boundary", "neighbour", geom.Pt(0, 8), geom.Pt(20, 8)))
	s.Marks = doc.NewSet(mark("M1", "metalwork", 10, 3, 0.5), mark("M2", "metalwork", 10, -2, 0), mark("M3", "window", 4, 0, 0), mark("M4", "metalwork", 10, -9, 0))
	s.Lamps = s.Lamps.With(lamp("L2", 13, 0, -0.3, "wall230")).With(lamp("L3", 13, 0, 0.4, "wall230")).With(lamp("L4", 21, 1, 0, "wall230"))
	s.Runs = s.Runs.With(run("R2", "mains", "L1", "L2")).With(run("R3", "mains", "L2", "L3")).With(run("R4", "mains", "L3", "L4"))
	c := Scheme(s, stock(), siteRules, nil).Circuits[0]
	at := func(id string) *network.Place { return c.Input.Net.Nodes[c.Node[doc.ID(id)]].Place }
	p := at("L1")
	if p.Ground != "gravel" || p.InWater || p.Low || p.Water == nil || p.Water.Distance != 2 || p.Water.Subject.ID != "A2" {
		t.Errorf("L1: %+v %+v", p, p.Water)
	}
	if len(p.Metals) != 2 || p.Metals[0].Subject.ID != "M2" || p.Metals[0].Distance != 2 || p.Metals[1].Subject.ID != "M1" || p.Metals[1].Distance != 2.5 {
		t.Errorf("L1: metalwork %+v, want M2 at 2 m, then M1, 2.5 m to its side; M4 is 9 m off", p.Metals)
	}
	if p.Boundary == nil || p.Boundary.Distance != 8 || p.Boundary.Owner != "neighbour" || p.Window == nil || p.Window.Distance != 6 {
		t.Errorf("L1: boundary %+v, window %+v", p.Boundary, p.Window)
	}
	if !at("L2").InWater || at("L3").InWater || at("L3").Water.Distance != 0 || !at("L4").Low || len(at("L4").Metals) > 0 {
		t.Errorf("L2 %+v, L3 %+v, L4 %+v", at("L2"), at("L3"), at("L4"))
	}
}

// TestEyes: aim is clockwise from up the sheet, tilt above the horizon. A seat
// 3 m east at 1.2 m, seen from a lamp on the ground, stands atan(1.2/3) = 21.8°
// high; aimed east and flat the beam passes 21.8° below it, aimed north 90°
// beside it at least.
func TestEyes(t *testing.T) {
	g := &ground{marks: []*doc.Mark{mark("M1", "seat", 3, 0, 0), mark("M2", "window", 0, 4, 0), mark("M3", "seat", 40, 0, 0), mark("M4", "tree", 3, 0, 0)}}
	look := func(aim, tilt float64) []network.Eye {
		l := lamp("L1", 0, 0, 0, "wall230")
		l.Aim, l.Tilt = aim, tilt
		return g.eyes(l, &doc.LampStock{Beam: 36})
	}
	for _, c := range []struct{ aim, tilt, seat, window float64 }{
		{90, 0, 21.801, 90}, {90, 21.801, 0, 0}, {450, 21.801, 0, 0}, {360, 0, 90, 20.556}, {0, 90, 68.199, 69.444}, {270, 0, 158.199, 90},
	} {
		e := look(c.aim, c.tilt)
		if len(e) != 2 || e[0].Window || !e[1].Window || !e[1].Assumed {
			t.Fatalf("aim %v: %+v, want seat M1 and window M2", c.aim, e)
		}
		if math.Abs(e[0].Off-c.seat) > 0.001 || c.window != 0 && math.Abs(e[1].Off-c.window) > 0.001 {
			t.Errorf("aim %v tilt %v: seat %.3f°, window %.3f°, want %v and %v", c.aim, c.tilt, e[0].Off, e[1].Off, c.seat, c.window)
		}
	}
	if look(0, 0) != nil || g.eyes(lamp("L1", 0, 0, 0, ""), &doc.LampStock{Beam: 36}) != nil {
		t.Error("a lamp that is not aimed has eyes")
	}
	aimed := lamp("L1", 0, 0, 0, "")
	aimed.Aim = 90
	if g.eyes(aimed, &doc.LampStock{}) != nil || g.eyes(aimed, &doc.LampStock{Beam: 36, Filed: &doc.FiledLight{}}) != nil {
		t.Error("a lamp whose beam is not known, or that has none by its file, has eyes")
	}
	// A beam of 20° upright and 60° across, aimed east and level: the seat stands
	// above the axis, the window to the left of it. A quarter of spin changes the two.
	oval := &doc.LampStock{Beam: 20, Across: 60}
	for spin, want := range map[float64]float64{0: 10, 90: 30, 180: 10, -90: 30} {
		aimed.Spin = spin
		if e := g.eyes(aimed, oval); math.Abs(e[0].Half-want) > 1e-9 {
			t.Errorf("spin %g°: the beam ends at %g° towards the seat, want %g", spin, e[0].Half, want)
		}
	}
	aimed.Spin = 0
	level := &ground{marks: []*doc.Mark{mark("M2", "window", 3, 1, 0)}}
	aimed.Place.Height = 1500 * geom.Millimetre // that of a window that has none
	if e := level.eyes(aimed, oval); math.Abs(e[0].Off-18.435) > 1e-3 || math.Abs(e[0].Half-30) > 1e-9 {
		t.Errorf("to the side: %+v, want 18.435° off and 30°", e)
	}
	// By a file, whatever the stock book says.
	if e := level.eyes(aimed, &doc.LampStock{Beam: 36, Filed: &doc.FiledLight{Edge: light.EdgeOf(80, 50)}}); math.Abs(e[0].Half-25) > 1e-9 {
		t.Errorf("by its file: %+v, want 25°", e)
	}
	// A strip lies square to its aim. Where its file has the long side on X it is
	// turned by a quarter, so that C0 is what lies beside it.
	for _, c := range []struct {
		name    string
		opening light.Opening
		length  q.Metre
		want    float64
	}{
		{"strip with its long side on X", light.Opening{X: 1, Y: 0.1}, 1, 40},
		{"strip with its long side on Y", light.Opening{X: 0.1, Y: 1}, 1, 25},
		{"no strip", light.Opening{X: 1, Y: 0.1}, 0, 25},
	} {
		item := &doc.LampStock{Length: c.length, Filed: &doc.FiledLight{Edge: light.EdgeOf(80, 50), Opening: c.opening}}
		if e := level.eyes(aimed, item); math.Abs(e[0].Half-c.want) > 1e-9 {
			t.Errorf("%s: the beam ends at %g°, want %g°", c.name, e[0].Half, c.want)
		}
	}
}

// TestGroundKept: facts of what an edit did not touch are the same pointers,
// and a circuit that it did not touch is taken over.
func TestGroundKept(t *testing.T) {
	s := plot(dugLeg(0.6))
	s.Supplies = s.Supplies.With(supply("SP2", 0, 50, 0))
	s.Lamps = s.Lamps.With(lamp("L2", 10, 50, 0, "wall230"))
	s.Runs = s.Runs.With(run("R2", "mains", "SP2", "L2", dugLeg(0.6)))
	s.Areas = doc.NewSet(rect("A1", "lawn", 5, -1, 20, 1))
	st := stock()
	a := Scheme(s, st, siteRules, nil)
	moved := *s
	moved.Areas = s.Areas.With(rect("A1", "lawn", 6, -1, 20, 1))
	b := Scheme(&moved, st, siteRules, a)
	if a.Circuits[0].Input.Net == b.Circuits[0].Input.Net {
		t.Error("the lawn moved over R1, but its circuit was taken over")
	}
	if a.Circuits[1].Input.Net != b.Circuits[1].Input.Net {
		t.Error("the lawn is nowhere near R2, but its circuit was built again")
	}
	same := *s
	same.Title = "other"
	if c := Scheme(&same, st, siteRules, a); c.ground != a.ground || c.Circuits[0].Input.Net != a.Circuits[0].Input.Net {
		t.Error("nothing was drawn, but facts were made again")
	}
}

// TestGroundLaw: after any sequence of edits the facts are those of a
// derivation from scratch.
func TestGroundLaw(t *testing.T) {
	st := stock()
	rapid.Check(t, func(t *rapid.T) {
		s := plot(dugLeg(0.6))
		at := func(name string) geom.Point {
			v := rapid.IntRange(-12, 12)
			return geom.Pt(float64(v.Draw(t, name+"x")), float64(v.Draw(t, name+"y")))
		}
		prev := Scheme(s, st, siteRules, nil)
		for step := range rapid.IntRange(1, 12).Draw(t, "steps") {
			next := *s
			id := rapid.IntRange(1, 4).Draw(t, "id")
			p := at("p")
			switch rapid.IntRange(0, 6).Draw(t, "edit") {
			case 0:
				next.Areas = s.Areas.With(rect(fmt.Sprint("A", id), doc.AreaKinds[rapid.IntRange(0, 8).Draw(t, "kind")], p.X.Metres(), p.Y.Metres(), p.X.Metres()+5, p.Y.Metres()+5))
			case 1:
				next.Lines = s.Lines.With(line(fmt.Sprint("N", id), doc.LineKinds[rapid.IntRange(0, 3).Draw(t, "kind")], "", p, at("q")))
			case 2:
				next.Marks = s.Marks.With(mark(fmt.Sprint("M", id), doc.MarkKinds[rapid.IntRange(0, 4).Draw(t, "kind")], p.X.Metres(), p.Y.Metres(), 0.3))
			case 3:
				next.Lamps = s.Lamps.With(lamp(fmt.Sprint("L", id), p.X.Metres(), p.Y.Metres(), 0, "wall230"))
			case 4:
				r := run(fmt.Sprint("R", id), "mains", "SP1", fmt.Sprint("L", rapid.IntRange(1, 4).Draw(t, "lamp")), dugLeg(0.6, p), dugLeg(0.3))
				next.Runs = s.Runs.With(r)
			case 5:
				next.Runs = s.Runs.Without(doc.ID(fmt.Sprint("R", id)))
			case 6:
				next.Areas, next.Lines = s.Areas.Without("A1"), s.Lines.Without("N1")
			}
			s = &next
			got, want := Scheme(s, st, siteRules, prev), Scheme(s, st, siteRules, nil)
			if d := cmp.Diff(facts(want), facts(got)); d != "" {
				t.Fatalf("step %d: %s", step, d)
			}
			prev = got
		}
	})
}

// facts collects all facts of the ground in the order of the circuits.
func facts(c *Circuits) (out []any) {
	for i := range c.Circuits {
		n := c.Circuits[i].Input.Net
		for k := range n.Nodes {
			out = append(out, n.Nodes[k].Label, n.Nodes[k].Place)
		}
		for k := range n.Branches {
			out = append(out, n.Branches[k].Label, n.Branches[k].Route)
		}
	}
	return out
}

// TestManyNewRoutes: the sweep over many new routes finds what comparing every
// pair finds. Twenty trenches north, twenty east, cross each other once each.
func TestManyNewRoutes(t *testing.T) {
	s := plot()
	var legs []doc.Leg
	at := func(x, y int) geom.Point { return geom.Pt(float64(x), float64(y)) }
	for i := range 20 {
		x := 2*i + 1
		legs = append(legs, dugLeg(0.6, at(x, -1)), dugLeg(0.6, at(x, 41)))
	}
	for i := range 20 {
		r := run(fmt.Sprint("A", i), "mains", "SP1", "", doc.Leg{Support: network.Clipped, To: legs[2*i].To}, dugLeg(0.6))
		r.To = doc.End{At: legs[2*i+1].To}
		e := run(fmt.Sprint("E", i), "mains", "SP1", "", doc.Leg{Support: network.Clipped, To: at(-1, 2*i)}, dugLeg(0.6))
		e.To = doc.End{At: at(45, 2*i)}
		s.Runs = s.Runs.With(r).With(e)
	}
	c := Scheme(s, stock(), siteRules, nil)
	for i, l := range c.laid {
		if id, want := s.Runs.All()[i].ID, 20; id != "R1" && len(l.met) != want {
			t.Errorf("%s meets %d others, want %d", id, len(l.met), want)
		}
	}
}

// wayIn returns what is known about the way of a run.
func wayIn(c *Circuits, run doc.ID) *network.Route {
	i, _ := c.points.scheme.Runs.Index(run)
	return c.laid[i].facts
}

// TestMeetingForgotten: a run that is taken away, or moved, crosses no more;
// one that is laid crosses both ways.
func TestMeetingForgotten(t *testing.T) {
	s := plot(dugLeg(0.6))
	cross := func(x float64) *doc.Run {
		r := run("R2", "elv", "SP1", "", doc.Leg{Support: network.Clipped, To: geom.Pt(x, -3)}, dugLeg(0.3))
		r.To = doc.End{At: geom.Pt(x, 3)}
		return r
	}
	st := stock()
	count := func(c *Circuits) int { return len(wayIn(c, "R1").Crossings) }
	without := Scheme(s, st, siteRules, nil)
	with := *s
	with.Runs = s.Runs.With(cross(4))
	laid := Scheme(&with, st, siteRules, without)
	away := with
	away.Runs = with.Runs.With(cross(14))
	moved := Scheme(&away, st, siteRules, laid)
	gone := Scheme(s, st, siteRules, laid)
	if got := [4]int{count(without), count(laid), count(moved), count(gone)}; got != [4]int{0, 1, 0, 0} {
		t.Errorf("crossings %v, want none, one, none, none", got)
	}
	if got := len(wayIn(laid, "R2").Crossings); got != 1 {
		t.Errorf("R2 crosses %d runs, want one", got)
	}
}
