package layout_test

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
	"duskwire/layout/geom"
	"duskwire/layout/internal/garden"
)

// evenLamp is a scheme with one lamp at (0, 0), 3 m up, that shines 50 cd to all
// sides when new: 628.32 lm / 4π.
func evenLamp() *doc.Scheme {
	s := doc.New("uk-18")
	s.Stock.Lamps = []doc.LampStock{{Key: "even", Name: "Even lamp", Kind: "wall", Flux: 200 * math.Pi, Temperature: 2700, Beam: 180}}
	s.Lamps = doc.NewSet(&doc.Lamp{ID: "L1", Tag: "L1", Stock: "even", Place: doc.Place{Height: 3 * geom.Metre}})
	return s
}

// square is a ring about a point.
func square(x, y, side float64) []geom.Point {
	return []geom.Point{geom.Pt(x-side/2, y-side/2), geom.Pt(x+side/2, y-side/2), geom.Pt(x+side/2, y+side/2), geom.Pt(x-side/2, y+side/2)}
}

// litBy returns the findings of a code in a scheme.
func litBy(t *testing.T, s *doc.Scheme, code finding.Code) (out []finding.Finding) {
	t.Helper()
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range layout.NewDesk(stock, rules, s, "").Frame().Findings {
		if f.Code == code {
			out = append(out, f)
		}
	}
	return out
}

// figureOf is the figure of the only finding of a code, "" for none.
func figureOf(t *testing.T, s *doc.Scheme, code finding.Code) string {
	t.Helper()
	fs := litBy(t, s, code)
	if len(fs) == 0 {
		return ""
	}
	if len(fs) > 1 {
		t.Errorf("%s: %d findings, expected one", code, len(fs))
	}
	return fs[0].Figure
}

// TestLuxFigures: figures worked out by hand from E = MF·I·cos/d², MF 0.8, I 50 cd.
func TestLuxFigures(t *testing.T) {
	tree := func(change func(*doc.Mark)) func(*doc.Scheme) {
		return func(s *doc.Scheme) {
			m := &doc.Mark{ID: "M2", Tag: "M2", Kind: "tree", Place: doc.Place{At: geom.Pt(2, 0)}, Crown: geom.Metre, CrownTop: 5 * geom.Metre, CrownBase: 2 * geom.Metre, CrownPass: q.Some(doc.Ratio(0.5))}
			change(m)
			s.Marks = doc.NewSet(append(s.Marks.All(), m)...)
		}
	}
	window := func(s *doc.Scheme) {
		s.Survey.LightZone = "E1"
		s.Marks = doc.NewSet(&doc.Mark{ID: "M1", Tag: "M1", Kind: "window", Owner: "neighbour", Place: doc.Place{At: geom.Pt(4, 0), Height: 3 * geom.Metre}})
	}
	both := func(fs ...func(*doc.Scheme)) func(*doc.Scheme) {
		return func(s *doc.Scheme) {
			for _, f := range fs {
				f(s)
			}
		}
	}
	area := func(a doc.Area) func(*doc.Scheme) {
		a.ID, a.Tag = "A1", "A1"
		return func(s *doc.Scheme) { s.Areas = doc.NewSet(&a) }
	}
	for _, c := range []struct {
		name string
		with func(*doc.Scheme)
		code finding.Code
		want string // start of the figure
	}{
		// 0.8 × 50 / 3² = 4.44 straight below; the square is 10 cm wide.
		{"path below the lamp", area(doc.Area{Kind: "gravel", Ring: square(0, 0, 0.1)}), "LUX-01", "4.44 lx average, 4.44 lx least"},
		{"steps ask for more", area(doc.Area{Kind: "lawn", Use: "steps", Ring: square(0, 0, 0.1)}), "LUX-01", "4.44 lx average"},
		{"a deck lies 1 m up: 0.8 × 50 / 2²", area(doc.Area{Kind: "deck", Height: geom.Metre, Ring: square(0, 0, 0.1)}), "LUX-01", "9.99 lx average"},
		{"lawn asks for nothing", area(doc.Area{Kind: "lawn", Ring: square(0, 0, 0.1)}), "LUX-01", ""},
		{"meant to be dark", area(doc.Area{Kind: "gravel", Use: "none", Ring: square(0, 0, 0.1)}), "LUX-01", ""},
		{"covered by what was drawn later", func(s *doc.Scheme) {
			s.Areas = doc.NewSet(&doc.Area{ID: "A1", Tag: "A1", Kind: "gravel", Ring: square(0, 0, 0.1)}, &doc.Area{ID: "A2", Tag: "A2", Kind: "lawn", Ring: square(0, 0, 9)})
		}, "LUX-01", ""},
		// 0.8 × 50 × 3 / 5³ = 0.96 at 4 m aside.
		{"steps 4 m aside", func(s *doc.Scheme) {
			s.Lines = doc.NewSet(&doc.Line{ID: "N1", Tag: "N1", Kind: "step", Path: []geom.Point{geom.Pt(4, -0.01), geom.Pt(4, 0.01)}})
		}, "LUX-01", "0.96 lx average"},
		// 0.8 × 50 / 4² = 2.5, full on.
		{"window", window, "LUX-02", "2.5 lx upright"},
		{"window behind leaves that pass half", both(window, tree(func(*doc.Mark) {})), "LUX-02", "1.25 lx upright"},
		{"leaves of which it is not said pass 30 %", both(window, tree(func(m *doc.Mark) { m.CrownPass = q.Maybe[doc.Ratio]{} })), "LUX-02", "0.75 lx upright"},
		{"crown above the way of the light", both(window, tree(func(m *doc.Mark) { m.CrownBase = 3100 * geom.Millimetre })), "LUX-02", "2.5 lx upright"},
		{"crown of which the top is not said", both(window, tree(func(m *doc.Mark) { m.CrownTop = 0 })), "LUX-02", "2.5 lx upright"},
		{"own window", both(window, func(s *doc.Scheme) {
			m := *s.Marks.All()[0]
			m.Owner = "own"
			s.Marks = doc.NewSet(&m)
		}), "LUX-02", ""},
		// The plane stands 5 cm behind the line, at 4 m: 0.8 × 50 × 4.05 / (4.05² + 1²)^1.5.
		{"boundary 4 m off", func(s *doc.Scheme) {
			s.Lines = doc.NewSet(&doc.Line{ID: "N1", Tag: "N1", Kind: "boundary", Path: []geom.Point{geom.Pt(4, -0.01), geom.Pt(4, 0.01)}})
		}, "LUX-02", "2.23 lx upright"},
		{"behind a fence of 5 m", func(s *doc.Scheme) {
			s.Lines = doc.NewSet(&doc.Line{ID: "N1", Tag: "N1", Kind: "fence", Owner: "neighbour", Height: 5 * geom.Metre, Path: []geom.Point{geom.Pt(4, -1), geom.Pt(4, 1)}})
		}, "LUX-02", ""},
		{"half of an even lamp goes upward", func(*doc.Scheme) {}, "LUX-03", "50 % upward"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := evenLamp()
			c.with(s)
			if got := figureOf(t, s, c.code); c.want == "" && got != "" || !strings.HasPrefix(got, c.want) {
				t.Errorf("%s: found %q, expected %q", c.code, got, c.want)
			}
		})
	}
}

// TestGlareToldOnce: a beam that GLR-01 reports at a seat is not told by LUX-04
// again; a bright lamp whose beam misses the seat is.
func TestGlareToldOnce(t *testing.T) {
	for _, c := range []struct {
		tilt       float64
		glare, eye bool
	}{
		{0, true, false},  // 0° off the axis, half of the beam is 18°
		{25, false, true}, // beside the beam: GLR-01 is silent, some 270 cd are left
		{90, false, false},
	} {
		s := doc.New("uk-18")
		s.Stock.Lamps = []doc.LampStock{{Key: "spot", Name: "Spot", Kind: "spike", Flux: 400, Temperature: 2700, Beam: 36}}
		s.Lamps = doc.NewSet(&doc.Lamp{ID: "L1", Tag: "L1", Stock: "spot", Aim: 90, Tilt: c.tilt, Place: doc.Place{Height: 1200 * geom.Millimetre}})
		s.Marks = doc.NewSet(&doc.Mark{ID: "M1", Tag: "M1", Kind: "seat", Place: doc.Place{At: geom.Pt(3, 0)}})
		circuit(s)
		glare, eye := len(litBy(t, s, "GLR-01")) > 0, len(litBy(t, s, "LUX-04")) > 0
		if glare != c.glare || eye != c.eye {
			t.Errorf("tilt %g°: GLR-01 %v, LUX-04 %v; expected %v, %v", c.tilt, glare, eye, c.glare, c.eye)
		}
	}
}

// circuit joins the only lamp to a supply, so that the rules of circuits see it.
func circuit(s *doc.Scheme) {
	s.Stock.Lamps[0].Load.Nominal, s.Stock.Lamps[0].Load.Power, s.Stock.Lamps[0].Load.PowerFactor = 230, 5, 1
	s.Supplies = doc.NewSet(&doc.Supply{ID: "SP1", Tag: "SP1", Nominal: 230, Place: doc.Place{At: geom.Pt(0, -2)}})
	s.Runs = doc.NewSet(&doc.Run{ID: "R1", Tag: "R1", Cable: "swa-3x1.5", From: doc.End{On: "SP1"}, To: doc.End{On: "L1"}, Legs: []doc.Leg{{Support: network.Clipped}}})
}

// TestLightApart: with the rules of light in a worker, whatever comes between
// what, the frames say when those findings are of before, and once the worker has
// finished they are what a desk without one finds at once.
func TestLightApart(t *testing.T) {
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	first, err := file.LoadScheme("../assets/examples/townhouse.yaml", stock)
	if err != nil {
		t.Fatal(err)
	}
	behind := 0
	rapid.Check(t, func(t *rapid.T) {
		d := layout.NewDesk(stock, rules, first, "")
		w := &worker{}
		d.LightApart(w.run)
		d.Subscribe(func(f *layout.Frame) {
			if f.LightBehind {
				behind++
			} else if !f.Preview && !reflect.DeepEqual(layout.NewDesk(stock, rules, f.Scheme, "").Frame().Findings, f.Findings) {
				t.Fatal("a frame says that its findings of light are its own, and they are not")
			}
			for _, one := range f.Findings {
				if strings.HasPrefix(string(one.Code), "LUX-") && doc.KindOf(f.Scheme, doc.ID(one.Subject.ID)) == doc.NoKind {
					t.Fatalf("%s is about what is no longer drawn", one.Code)
				}
			}
		})
		for i := range rapid.IntRange(1, 8).Draw(t, "steps") {
			n := fmt.Sprint(i)
			if rapid.Bool().Draw(t, "work"+n) {
				w.step()
			} else {
				act(t, d, n)
			}
		}
		_ = d.Commit(edit.SetSurvey{Survey: doc.Survey{LightZone: rapid.SampledFrom(doc.LightZones).Draw(t, "zone")}})
		for w.step() {
		}
		f := d.Frame()
		full := layout.NewDesk(stock, rules, f.Scheme, "").Frame()
		if f.LightBehind || !reflect.DeepEqual(full.Findings, f.Findings) || full.Totals != f.Totals {
			t.Fatal("the worker has finished and the findings differ from those of a full evaluation")
		}
	})
	if behind == 0 {
		t.Error("no frame was ever behind: the law looked at nothing")
	}
}

// TestLightFollowsAGesture: while a lamp is dragged the findings of light follow it,
// and once they have come they are what a desk without a worker finds, on a large
// scheme as well.
func TestLightFollowsAGesture(t *testing.T) {
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	first, err := file.LoadScheme("../assets/examples/townhouse.yaml", stock)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name   string
		scheme *doc.Scheme
	}{{"town house", first}, {"large", garden.Large(200)}} {
		d := layout.NewDesk(stock, rules, c.scheme, "")
		w := &worker{}
		d.LightApart(w.run)
		was := d.Frame().Findings
		if err := d.Preview(edit.MovePoints{IDs: []doc.ID{c.scheme.Lamps.All()[0].ID}, By: geom.Pt(0, 3.3)}); err != nil {
			t.Fatal(err)
		}
		for w.step() {
		}
		f := d.Frame()
		if !f.Preview || f.LightBehind {
			t.Fatalf("%s: preview %v, behind %v", c.name, f.Preview, f.LightBehind)
		}
		want := layout.NewDesk(stock, rules, f.Scheme, "").Frame().Findings
		if !reflect.DeepEqual(f.Findings, want) {
			t.Errorf("%s: the findings under the hand are not those of what is drawn", c.name)
		}
		if c.scheme == first && reflect.DeepEqual(f.Findings, was) {
			t.Errorf("%s: nothing has changed: nothing is tried", c.name)
		}
		d.Cancel()
		for w.step() {
		}
		if f := d.Frame(); f.LightBehind || !reflect.DeepEqual(f.Findings, was) {
			t.Errorf("%s: after the gesture was dropped the findings are not those of before", c.name)
		}
	}
}

// TestLightOfTheGone: findings of light of before do not outlive what they are
// about, and what else they name goes from them too.
func TestLightOfTheGone(t *testing.T) {
	d := nightDesk(t)
	w := &worker{}
	d.LightApart(w.run)
	commit(t, d, edit.Delete{IDs: []doc.ID{"L13", "A7"}})
	if !d.Frame().LightBehind {
		t.Fatal("the frame does not say that its findings of light are of before")
	}
	told := 0
	for _, f := range d.Frame().Findings {
		if !strings.HasPrefix(string(f.Code), "LUX-") {
			continue
		}
		told++
		for _, s := range append(f.Also, f.Subject) {
			if s.ID == "L13" || s.ID == "A7" {
				t.Errorf("%s %s still names %s", f.Code, f.Subject.Label, s.ID)
			}
		}
	}
	if told == 0 {
		t.Error("nothing of before is left to look at")
	}
}
