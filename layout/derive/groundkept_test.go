package derive

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// TestGroundKeptIsAsFromScratch draws, moves and takes away areas, lines and
// marks step by step and compares the facts that were taken over with those made
// from nothing. The lamps stand up to 80 m apart, further than any fact reaches.
func TestGroundKeptIsAsFromScratch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := func() geom.Point {
			return geom.Pt(float64(rapid.IntRange(-2, 82).Draw(t, "x")), float64(rapid.IntRange(-3, 3).Draw(t, "y")))
		}
		st := stock()
		s := &doc.Scheme{Supplies: doc.NewSet(supply("SP1", 0, 0, 0))}
		last := "SP1"
		for i := range 6 {
			l := lamp(fmt.Sprint("L", i), 16*float64(i), float64(i%2), 0, "wall230")
			l.Aim, l.Tilt = 90, 10
			leg := dugLeg(0.6)
			if i%3 == 2 {
				leg = doc.Leg{} // on the surface
			}
			s.Lamps, s.Runs = s.Lamps.With(l), s.Runs.With(run(fmt.Sprint("R", i), "mains", last, string(l.ID), leg))
			last = string(l.ID)
		}
		kept := Scheme(s, st, siteRules, nil)
		for range rapid.IntRange(1, 12).Draw(t, "edits") {
			next := *s
			n := rapid.IntRange(0, 3).Draw(t, "which")
			a, b := at(), at()
			switch id := fmt.Sprint("X", n); rapid.IntRange(0, 6).Draw(t, "edit") {
			case 0, 1:
				area := rect(id+"A", rapid.SampledFrom(doc.AreaKinds).Draw(t, "kind"), a.X.Metres(), a.Y.Metres(), b.X.Metres(), b.Y.Metres())
				area.Low = n == 0
				next.Areas = s.Areas.With(area)
			case 2:
				next.Lines = s.Lines.With(line(id+"N", rapid.SampledFrom(doc.LineKinds).Draw(t, "kind"), "", a, b))
			case 3, 4:
				m := mark(id+"M", rapid.SampledFrom(doc.MarkKinds).Draw(t, "kind"), a.X.Metres(), a.Y.Metres(), 0.3*float64(n%2))
				next.Marks = s.Marks.With(m)
			case 5:
				next.Areas, next.Lines = s.Areas.Without(doc.ID(id+"A")), s.Lines.Without(doc.ID(id+"N"))
			case 6: // drawn last comes first
				all := s.Areas.All()
				if len(all) > 1 {
					next.Areas = doc.NewSet(append([]*doc.Area{all[len(all)-1]}, all[:len(all)-1]...)...)
				}
			}
			s = &next
			kept = Scheme(s, st, siteRules, kept)
			if d := cmp.Diff(nets(Scheme(s, st, siteRules, nil)), nets(kept)); d != "" {
				t.Fatalf("kept differs from new (-new +kept):\n%s", d)
			}
		}
	})
}

// TestFarGroundKept: what lies far from a change keeps its facts, and with them the
// circuit its net.
func TestFarGroundKept(t *testing.T) {
	s := plot(dugLeg(0.6))
	s.Areas = doc.NewSet(rect("A1", "lawn", -1, -1, 5, 1), rect("A2", "lawn", 50, 50, 60, 60))
	before := Scheme(s, stock(), siteRules, nil)
	next := *s
	next.Areas = s.Areas.With(rect("A2", "water", 51, 50, 60, 60))
	st := before.site.stock
	after := Scheme(&next, st, siteRules, before)
	if after.Circuits[0].Input.Net != before.Circuits[0].Input.Net {
		t.Error("the circuit was made anew for a change 50 m away")
	}
	if after.laid[0].alone != before.laid[0].alone {
		t.Error("the way was looked at again")
	}
	next.Areas = s.Areas.With(rect("A1", "paving", -1, -1, 5, 1))
	if after = Scheme(&next, st, siteRules, before); after.Circuits[0].Input.Net == before.Circuits[0].Input.Net {
		t.Error("the circuit was kept although the ground under it changed")
	}
}
