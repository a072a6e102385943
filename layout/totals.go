package layout

import (
	"slices"

	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
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

// stockCache keeps the stock book of the last scheme, so that an edit that
// does not touch it hands out the same pointer.
type stockCache struct {
	of     *doc.Scheme
	lights []*Light // that its lamps shine by
	out    *doc.Stock
}

// over returns the shipped stock with the scheme's own items before it. Lamps with a
// good photometric file know its beam.
func (c *stockCache) over(shipped doc.Stock, s *doc.Scheme, lights *Lights) *doc.Stock {
	var good []*Light
	if lights != nil {
		for _, l := range lights.list {
			if l.Good() {
				good = append(good, l)
			}
		}
	}
	if c.out == nil || !sameStock(c.of.Stock, s.Stock) || !slices.Equal(c.lights, good) {
		merged := shipped.Over(s.Stock)
		merged.Lamps = filed(merged.Lamps, good)
		c.out, c.lights = &merged, good
	}
	c.of = s
	return c.out
}

// filed returns the lamps with what their photometric files say, and with what their
// peak makes.
func filed(lamps []doc.LampStock, good []*Light) []doc.LampStock {
	lamps = slices.Clone(lamps)
	for i := range lamps {
		lamps[i].Makes = made(&lamps[i])
		for _, l := range good {
			if l.Of.Lamp == lamps[i].Key {
				times, _ := l.Relamped(&lamps[i])
				peak, _, _ := l.Dist.Peak()
				lamps[i].Filed = &doc.FiledLight{Edge: l.Edge, Peak: q.Candela(times) * peak, Opening: l.Opening}
				break
			}
		}
	}
	return lamps
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
