package derive

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// TestKeptIsAsFromScratch edits a plot of runs that share stretches and cross,
// step by step, and compares what is derived with the scheme before at hand with
// what is derived from nothing: lengths, groups, crossings, nodes and flaws.
func TestKeptIsAsFromScratch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// Corners of three small squares far apart, so that many runs share a
		// stretch while others are nowhere near.
		square := 0.0
		spot := func() geom.Point {
			return geom.Pt(square+float64(rapid.IntRange(0, 1).Draw(t, "x")), float64(rapid.IntRange(0, 1).Draw(t, "y")))
		}
		stand := func(id string) *doc.Lamp {
			at := spot()
			return lamp(id, at.X.Metres(), at.Y.Metres(), 0, "wall230")
		}
		wire := func(id string) *doc.Run {
			square = 20 * float64(rapid.IntRange(0, 2).Draw(t, "square"))
			ends := []string{"", "", "", "SP1", "L0", "L1", "L2", "L3"}
			r := run(id, "mains", "", "", dugLeg(0.6, spot()), dugLeg(0.6, spot()), dugLeg(0.6))
			for _, e := range []*doc.End{&r.From, &r.To} {
				if e.On = doc.ID(rapid.SampledFrom(ends).Draw(t, "end")); e.On == "" {
					e.At = spot()
				}
			}
			return r
		}
		st := stock()
		s := plot(dugLeg(0.6))
		kept := Scheme(s, st, siteRules, nil)
		for range rapid.IntRange(1, 12).Draw(t, "edits") {
			next := *s
			switch rapid.IntRange(0, 3).Draw(t, "edit") {
			case 0:
				next.Lamps = s.Lamps.With(stand(fmt.Sprint("L", rapid.IntRange(0, 3).Draw(t, "lamp"))))
			case 1, 2:
				next.Runs = s.Runs.With(wire(fmt.Sprint("W", rapid.IntRange(0, 5).Draw(t, "run"))))
			case 3:
				k := rapid.IntRange(0, 3).Draw(t, "gone")
				next.Runs, next.Lamps = s.Runs.Without(doc.ID(fmt.Sprint("W", k))), s.Lamps.Without(doc.ID(fmt.Sprint("L", k)))
			}
			s = &next
			kept = Scheme(s, st, siteRules, kept)
			want := Scheme(s, st, siteRules, nil)
			if d := cmp.Diff(nets(want), nets(kept)); d != "" {
				t.Fatalf("kept differs from new (-new +kept):\n%s", d)
			}
		}
	})
}

// nets is everything of a derivation that others see, and the legs and ways of
// runs that no circuit has reached yet.
func nets(c *Circuits) (out []any) {
	for i := range c.Circuits {
		k := &c.Circuits[i]
		out = append(out, k.Supply, k.Input.Net, k.Node, k.Output, k.Branch)
	}
	for i, m := range c.measured {
		out = append(out, m.Legs, c.laid[i].facts)
	}
	return append(out, c.Lengths, c.Loose.Net)
}
