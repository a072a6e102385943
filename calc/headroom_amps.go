package calc

import (
	"math"

	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// amperes returns the headroom of a point: how much more current it may give.
func (r *roomer) amperes(i int) Headroom { return r.amps[i] }

// more works out the amperes and lamps left at a node. A current A more at the
// node costs A·Ω at everything up to where the ways part; lamps of constant
// power answer with currents within ρ of the present ones, which costs
// (ρ-1)·D more at most:
//
//	U/(U - (ρ-1)·D - A·R) = ρ
//	A·Ω + (ρ-1)·D <= volts left,  A + (ρ-1)·I <= amperes left
func (r *roomer) more(i int) Headroom {
	c, l := r.c, &r.lead[i]
	if !c.Trusted() || (c.Tree.Parent[i] < 0 && i != c.Net.Root) || c.OnRing(i) {
		return Headroom{}
	}
	if c.Driven(i) {
		return r.moreInString(i)
	}
	top := math.Min(l.perOhm.slack, l.amps.slack)
	if math.IsInf(top, 1) {
		return Headroom{}
	}
	binds := l.perOhm.code
	if l.amps.slack <= l.perOhm.slack {
		binds = l.amps.code
	}
	if top <= 0 {
		return r.room(i, 0, binds)
	}
	sys := c.Net.Nodes[i].System
	s := &r.sys[sys]
	a, why := largest(top, func(a float64) (bool, finding.Code) {
		rho := s.grown(a*r.spot[i].ohm*(1+cover), false)
		if rho == 1 {
			return true, ""
		}
		g := (rho - 1) * s.most
		if g > l.volts.slack || a > l.perOhm.slack*(1-g/l.volts.slack) {
			return false, l.volts.code
		}
		if rho-1 > s.grow.slack {
			return false, s.grow.code
		}
		if a+(rho-1)*s.flow > l.amps.slack {
			return false, l.amps.code
		}
		return true, ""
	})
	if why != "" {
		binds = why
	}
	return r.room(i, a, binds)
}

// room is amperes left, counted in lamps too.
func (r *roomer) room(i int, a float64, binds finding.Code) Headroom {
	h := Headroom{Amperes: q.Some(q.Ampere(a)), AmperesBinds: binds}
	h.Lamps, h.LampsBinds = r.lamps(i, a), binds
	if l := r.lead[i].leak; h.Lamps.Known && l.Known && l.Value < h.Lamps.Value && r.c.Net.Nodes[i].System == 0 {
		h.Lamps, h.LampsBinds = l, "LEK-01"
	}
	if m := r.median[r.c.Net.Nodes[i].System]; h.Lamps.Known && m.Power > 0 {
		on := r.surges.Room(i, m.Power)
		h.Missing = on.Missing
		if on.Lamps.Known && on.Lamps.Value < h.Lamps.Value {
			h.Lamps, h.LampsBinds = on.Lamps, on.Binds
		}
	}
	return h
}

// lamps counts amperes in median lamps. A lamp draws at most its rated power
// at the lowest voltage that is still allowed here.
func (r *roomer) lamps(i int, a float64) q.Maybe[q.Count] {
	m := r.median[r.c.Net.Nodes[i].System]
	un := float64(r.p.nominal(i))
	if m.Current <= 0 || un <= 0 {
		return q.Maybe[q.Count]{}
	}
	least := float64(r.c.Volts(i))
	if v := r.lead[i].volts; v.node >= 0 {
		least -= math.Max(v.slack, 0)
	}
	if least <= 0 {
		return q.Some(q.Count(0))
	}
	each := float64(m.Current) * math.Max(un/least, 1)
	return q.Some(q.Count(math.Floor(a/each + 1e-9)))
}
