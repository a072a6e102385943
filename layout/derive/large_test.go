package derive

import (
	"fmt"
	"testing"

	"duskwire/layout/doc"
)

// TestLargeIsWhole: from 512 runs on the work is shared out by halves, and none of
// it may be left out. A chain of lamps whose gaps go round from 1.0 m to 1.6 m
// comes out run by run, branch by branch and leg by leg as it was drawn.
func TestLargeIsWhole(t *testing.T) {
	for _, n := range []int{100, 511, 512, 700, 1301} {
		s := doc.New("test")
		s.Supplies = doc.NewSet(supply("SP1", 0, 0, 0))
		var lamps []*doc.Lamp
		var runs []*doc.Run
		gap := func(i int) float64 { return 1 + float64(i%7)/10 }
		x, from := 0.0, "SP1"
		for i := range n {
			x += gap(i)
			id := fmt.Sprint("L", i)
			lamps = append(lamps, lamp(id, x, 0, 0, "wall230"))
			runs = append(runs, run(fmt.Sprint("R", i), "mains", from, id, dugLeg(0.6)))
			from = id
		}
		s.Lamps, s.Runs = doc.NewSet(lamps...), doc.NewSet(runs...)
		c := Scheme(s, stock(), siteRules, nil)
		if len(c.Lengths) != n || len(c.Circuits) != 1 {
			t.Fatalf("%d runs: %d lengths, %d circuits", n, len(c.Lengths), len(c.Circuits))
		}
		k := &c.Circuits[0]
		for i := range n {
			near(t, fmt.Sprintf("%d runs: plan length of run %d", n, i), float64(c.Lengths[i].Plan), gap(i))
			b, ok := k.Branch[runs[i].ID]
			if !ok {
				t.Fatalf("%d runs: run %d is no branch", n, i)
			}
			br := &k.Input.Net.Branches[b]
			near(t, fmt.Sprintf("%d runs: length of branch %d", n, i), float64(br.Length), float64(c.Lengths[i].Needed))
			at := &k.Input.Net.Nodes[br.To]
			if br.ID != string(runs[i].ID) || br.Cable == nil || len(br.Legs) == 0 || at.ID != string(lamps[i].ID) || len(at.Loads) != 1 || at.Fitting == nil {
				t.Fatalf("%d runs: branch %d is %+v to %+v", n, i, br, at)
			}
			if c.laid[i] == nil || c.laid[i].facts == nil {
				t.Fatalf("%d runs: nothing is known of the way of run %d", n, i)
			}
		}
	}
}
