package calc

import (
	"duskwire/calc/cable"
	"duskwire/calc/check"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// rater works out corrected capacities and keeps those of legs that are
// installed alike: a garden has a thousand legs and a handful of kinds.
type rater struct {
	c    *check.Context
	legs map[legKind]*cable.Capacity
}

// legKind is everything about a leg that its capacity depends on.
type legKind struct {
	cable     *network.Cable
	support   network.Support
	method    string
	depth     q.Metre
	insulated q.Metre
	group     int
	overload  bool
}

func newRater(c *check.Context) *rater {
	return &rater{c: c, legs: make(map[legKind]*cable.Capacity)}
}

// all returns the capacity of every branch, in branch order.
func (r *rater) all() []cable.Capacity {
	out := make([]cable.Capacity, len(r.c.Net.Branches))
	for b := range out {
		br := &r.c.Net.Branches[b]
		if br.Converter != nil {
			out[b] = cable.Capacity{Leg: -1}
			continue
		}
		out[b] = r.governing(br.Cable, b)
	}
	return out
}

// governing is cable.Governing over legs that are kept.
func (r *rater) governing(cb *network.Cable, b int) cable.Capacity {
	worst, at := r.worst(cb, b)
	if worst == nil {
		return cable.Governing(cb, nil, r.c.Net.Site, &r.c.Rules.Cable, false)
	}
	out := *worst
	out.Leg = at
	return out
}

// worst returns the capacity of the leg that governs and its index; nil
// without a cable or legs. It must not be changed.
func (r *rater) worst(cb *network.Cable, b int) (*cable.Capacity, int) {
	legs := r.c.Net.Branches[b].Legs
	if cb == nil {
		return nil, -1
	}
	overload := r.c.Overload(b)
	var worst *cable.Capacity
	at := -1
	for i := range legs {
		if i > 0 && alike(&legs[i-1], &legs[i]) {
			continue // a bend of the route changes nothing
		}
		got := r.leg(cb, &legs[i], overload)
		if worst == nil || !got.Known || got.Iz < worst.Iz {
			worst, at = got, i
		}
		if !got.Known {
			break
		}
	}
	return worst, at
}

// alike reports whether two legs have the same capacity whatever the cable.
func alike(a, b *network.Leg) bool {
	return a.Support == b.Support && a.Method == b.Method && a.Depth == b.Depth &&
		a.Insulated == b.Insulated && a.Group == b.Group
}

func (r *rater) leg(cb *network.Cable, leg *network.Leg, overload bool) *cable.Capacity {
	key := legKind{cb, leg.Support, leg.Method, leg.Depth, leg.Insulated, leg.Group, overload}
	if got, ok := r.legs[key]; ok {
		return got
	}
	got := cable.LegCapacity(cb, *leg, r.c.Net.Site, &r.c.Rules.Cable, overload)
	r.legs[key] = &got
	return &got
}
