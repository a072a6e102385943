package layout_test

import (
	"strings"
	"testing"

	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// TestFiguresFollowAges: the factor of the scheme is in every figure of light, and the
// working has it beside the average of new and clean lamps. By hand: 50 cd 3 m up are
// 5.56 lx new, × 0.5 2.78 lx; 0.9 m up 61.7 lx, let into the ground × 0.4.
func TestFiguresFollowAges(t *testing.T) {
	path := func(s *doc.Scheme) {
		s.Areas = doc.NewSet(&doc.Area{ID: "A1", Tag: "A1", Kind: "gravel", Ring: square(0, 0, 0.02)})
	}
	for _, c := range []struct {
		name          string
		lamps, ground q.Maybe[doc.Ratio]
		kind          string
		height        geom.Length
		figure, ages  string
		fresh         string
	}{
		{"as it is", q.Maybe[doc.Ratio]{}, q.Maybe[doc.Ratio]{}, "wall", 3 * geom.Metre, "4.44 lx", "× 0.8 for", "5.56 lx"},
		{"said", q.Some(doc.Ratio(0.5)), q.Maybe[doc.Ratio]{}, "wall", 3 * geom.Metre, "2.78 lx", "× 0.5 for", "5.56 lx"},
		{"recessed high up is not in the ground", q.Some(doc.Ratio(0.5)), q.Some(doc.Ratio(0.4)), "recessed", 3 * geom.Metre, "2.78 lx", "× 0.5 for", "5.56 lx"},
		{"in the ground", q.Some(doc.Ratio(0.5)), q.Some(doc.Ratio(0.4)), "recessed", 900 * geom.Millimetre, "24.7 lx", "× 0.5, 0.4 for L1 in the ground for", "61.7 lx"},
	} {
		s := evenLamp()
		path(s)
		s.Stock.Lamps[0].Kind = c.kind
		l := *s.Lamps.All()[0]
		l.Place.Height = c.height
		s.Lamps = doc.NewSet(&l)
		s.Survey.Maintenance, s.Survey.MaintenanceGround = c.lamps, c.ground
		fs := litBy(t, s, "LUX-01")
		if len(fs) != 1 || !strings.HasPrefix(fs[0].Figure, c.figure) {
			t.Errorf("%s: %+v, expected %s", c.name, fs, c.figure)
			continue
		}
		for _, want := range []string{c.ages + " age and dirt", "new and clean the average is " + c.fresh} {
			if !strings.Contains(fs[0].Working, want) {
				t.Errorf("%s: %q lacks %q", c.name, fs[0].Working, want)
			}
		}
	}
	// A crown that begins 2 m up is looked at 1 cm below its leaves: 50 cd from 1.99 m
	// are 12.6 lx new and clean.
	for factor, want := range map[float64]string{0.8: "10.1 lx", 0.4: "5.05 lx"} {
		s := evenLamp()
		s.Stock.Lamps[0].Temperature = 6000
		l := *s.Lamps.All()[0]
		l.Place.Height = 0
		s.Lamps = doc.NewSet(&l)
		s.Survey.Maintenance = q.Some(doc.Ratio(factor))
		s.Marks = doc.NewSet(&doc.Mark{ID: "M1", Tag: "M1", Kind: "tree", Crown: geom.Metre, CrownBase: 2 * geom.Metre, CrownTop: 4 * geom.Metre})
		found := false
		for _, f := range litBy(t, s, "LUX-05") {
			found = found || strings.Contains(f.Text+f.Figure+f.Working, want)
		}
		if !found {
			t.Errorf("× %g: %+v, expected %s at the crown", factor, litBy(t, s, "LUX-05"), want)
		}
	}
}

// TestNearInWorking: ground nearer to what shines than five times its size says so.
func TestNearInWorking(t *testing.T) {
	for _, side := range []float64{0.1, 0.02} {
		s := evenLamp()
		s.Stock.Lamps[0].Kind, s.Stock.Lamps[0].Length = "strip", 1
		s.Areas = doc.NewSet(&doc.Area{ID: "A1", Tag: "A1", Kind: "gravel", Ring: square(0, 0, side)})
		l := *s.Lamps.All()[0]
		for height, near := range map[geom.Length]bool{3 * geom.Metre: true, 4900 * geom.Millimetre: true, 5100 * geom.Millimetre: false, 6 * geom.Metre: false} { // 5 · 1 m
			l.Place.Height = height
			s.Lamps = doc.NewSet(&l)
			fs := litBy(t, s, "LUX-01")
			if len(fs) != 1 || strings.Contains(fs[0].Working, "nearer than five times the size of what shines") != near {
				t.Errorf("%v up: %+v, expected near %v", height, fs, near)
			}
		}
	}
}
