package check

import (
	"math"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	"duskwire/calc/protect"
	q "duskwire/calc/quantity"
)

// ShortRoom is by how many ohms the impedances of a run may change before what
// is proved of its short circuit (ADI-01 to ADI-03, and CAP-02 where it rests on
// ADI-01, see Omitted) is not proved any more; +Inf for any change, and for what
// is not proved now. Code is of the part that binds.
type ShortRoom struct {
	Far, Near, Less             float64 // Ω more at the far end, more and less at the near end
	FarCode, NearCode, LessCode finding.Code
}

// ShortRoom works it out. Between two tabulated currents of a device the bound
// of its energy falls with the current, so that only those currents count on the
// way down; on the way up a breaker lets through more and more, a fuse does not.
// Derived here from Stress. Faults to earth on TT, which the residual device
// clears in 0.3 s at most, are left out.
func (c *Context) ShortRoom(b int) ShortRoom {
	out := ShortRoom{Far: math.Inf(1), Near: math.Inf(1), Less: math.Inf(1)}
	far := c.Far(b)
	if !c.Ours(b) || c.Net.Nodes[far].System != 0 || c.Zone(far).Over == nil {
		return out
	}
	_, carries := overCapacity(c, b)
	omitted := c.Capacity[b].Known && !carries && c.Omitted(b).Allowed
	for p := LineCore; p <= Armour; p++ {
		e, _, _, _, ok := c.Withstand(c.Net.Branches[b].Cable, p)
		if !ok || e <= 0 || c.Spared(b, p, e) || p != LineCore && c.Net.Supply.Earthing == network.TT {
			continue
		}
		c.shortNear(b, p, e, omitted && p == LineCore, &out)
		c.shortFar(b, p, e, &out)
	}
	return out
}

// shortNear takes in the near end; an energy that is not known is no proof
// where one is needed.
func (c *Context) shortNear(b int, p Part, e q.AmpereSquaredSecond, needed bool, out *ShortRoom) {
	z := c.Zone(c.Far(b))
	t, uo := &c.Rules.Protect, c.Net.Supply.Nominal
	i, known := c.largest(c.Near(b), p)
	fails := func(i q.Ampere) bool {
		most, _, ok := protect.LetThrough(*z.Over, i, uo, t)
		return ok && !within(float64(most), float64(e)) || !ok && needed
	}
	if !known || fails(i) {
		return
	}
	u := float64(uo) * t.Cmax
	if more := stepDown(*z.Over, i, uo, t, u, fails); more < out.Near {
		out.Near, out.NearCode = more, partCodes[p]
	}
	low, high := 0.0, u/float64(i)
	for range 40 {
		if mid := (low + high) / 2; fails(q.Ampere(u / (u/float64(i) - mid))) {
			high = mid
		} else {
			low = mid
		}
	}
	if high < u/float64(i) && low < out.Less {
		out.Less, out.LessCode = low, partCodes[p]
	}
}

// shortFar takes in the far end, where an energy that is not known counts for
// nothing.
func (c *Context) shortFar(b int, p Part, e q.AmpereSquaredSecond, out *ShortRoom) {
	z := c.Zone(c.Far(b))
	t, uo := &c.Rules.Protect, c.Net.Supply.Nominal
	i, known := c.smallest(c.Far(b), p)
	fails := func(i q.Ampere) bool {
		s := Stress{FarI: i}
		c.passedFar(z, &s)
		return !within(float64(s.Far), float64(e))
	}
	if !known || fails(i) {
		return
	}
	if more := stepDown(*z.Over, i, uo, t, float64(uo)*t.Cmin, fails); more < out.Far {
		out.Far, out.FarCode = more, partCodes[p]
	}
}

// stepDown is the impedance that may be added until the current, now i, falls
// below the first tabulated one under which fails is true.
func stepDown(d network.Device, i q.Ampere, uo q.Volt, t *protect.Tables, u float64, fails func(q.Ampere) bool) float64 {
	more := math.Inf(1)
	for _, at := range protect.Steps(d, uo, t) {
		if at <= i && fails(at*(1-1e-9)) {
			more = math.Min(more, math.Max(0, u/float64(at)-u/float64(i)))
		}
	}
	return more
}
