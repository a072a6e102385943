package layout

import (
	"duskwire/calc/check"
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
)

// totals sums up a frame for the bottom line.
func totals(f *Frame) Totals {
	t := Totals{
		Lamps: f.Scheme.Lamps.Len(),
		Stop:  finding.Count(f.Findings, finding.Stop), Decide: finding.Count(f.Findings, finding.Decide),
		Note: finding.Count(f.Findings, finding.Note),
	}
	for _, l := range f.Circuits.Lengths {
		t.Cable += l.Cut
	}
	worst := 0.0
	for _, r := range f.Results {
		t.Load += r.Totals.Load
		t.Standby += r.Totals.Standby
		t.Unsaid += r.Totals.Unsaid
		if r.Totals.WorstDrop > t.WorstDrop {
			t.WorstDrop, t.DropAt = r.Totals.WorstDrop, r.Totals.WorstAt
		}
		if r.Totals.WorstLoop > worst {
			worst, t.WorstLoop, t.LoopAt = r.Totals.WorstLoop, r.Totals.LoopOhm, r.Totals.LoopAt
		}
	}
	return t
}

// drumSizes are the lengths that cable is commonly sold in (trade.md: 25, 50
// and 100 m; common practice, no source).
var drumSizes = []q.Metre{25, 50, 100}

// drums asks, cable by cable, whether the cut list leaves anything spare on
// the smallest drum that holds it. More than the largest drum is a matter of
// packing, which this does not judge.
func drums(lengths []derive.Length, rules *check.Rules) []finding.Finding {
	at := map[string]int{}
	var uses []check.DrumUse
	for _, l := range lengths {
		if l.Name == "" {
			continue
		}
		i, seen := at[l.Cable]
		if !seen {
			i = len(uses)
			at[l.Cable] = i
			uses = append(uses, check.DrumUse{Cable: l.Name})
		}
		uses[i].Cut += l.Cut
		uses[i].Runs = append(uses[i].Runs, finding.Subject{ID: string(l.Run), Label: l.Tag})
	}
	for i := range uses {
		for _, size := range drumSizes {
			if uses[i].Drum == 0 && size >= uses[i].Cut-1e-9 {
				uses[i].Drum = size
			}
		}
	}
	return check.Drums(uses, rules.Limits)
}

// stockCache keeps the stock book of the last scheme, so that an edit that
// does not touch it hands out the same pointer.
type stockCache struct {
	of  *doc.Scheme
	out *doc.Stock
}

// over returns the shipped stock with the scheme's own items before it.
func (c *stockCache) over(shipped doc.Stock, s *doc.Scheme) *doc.Stock {
	if c.out == nil || !sameStock(c.of.Stock, s.Stock) {
		merged := shipped.Over(s.Stock)
		c.out = &merged
	}
	c.of = s
	return c.out
}

// sameStock reports whether two schemes share their own stock items; schemes
// that descend from one another share the slices.
func sameStock(a, b doc.Stock) bool {
	return same(a.Lamps, b.Lamps) && same(a.Boxes, b.Boxes) && same(a.Sources, b.Sources) &&
		same(a.Gear, b.Gear) && same(a.Devices, b.Devices) && same(a.Cables, b.Cables)
}

func same[T any](a, b []T) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0])
}
