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
	c     *check.Context
	kinds map[legKind]int
	legs  []way // per branch: its legs, those alike left out
	rated map[rating]*cable.Capacity
}

// way is the legs of one branch that differ from the leg before.
type way []wayLeg

// wayLeg is one leg by its number and the number of its kind.
type wayLeg struct{ leg, kind int }

// legKind is everything about a leg that its capacity depends on besides the
// cable.
type legKind struct {
	support   network.Support
	method    string
	depth     q.Metre
	insulated q.Metre
	group     int
}

// rating is one capacity: a cable in a kind of leg.
type rating struct {
	cable    *network.Cable
	kind     int
	overload bool
}

func newRater(c *check.Context) *rater {
	r := &rater{c: c, kinds: map[legKind]int{}, rated: map[rating]*cable.Capacity{}, legs: make([]way, len(c.Net.Branches))}
	all := make([]wayLeg, 0, 2*len(c.Net.Branches))
	for b := range c.Net.Branches {
		legs, first := c.Net.Branches[b].Legs, len(all)
		for i := range legs {
			if i > 0 && alike(&legs[i-1], &legs[i]) {
				continue // a bend of the route changes nothing
			}
			all = append(all, wayLeg{i, r.kind(&legs[i])})
		}
		r.legs[b] = way(all[first:len(all):len(all)])
	}
	return r
}

// kind returns the number of a leg's kind.
func (r *rater) kind(l *network.Leg) int {
	key := legKind{l.Support, l.Method, l.Depth, l.Insulated, l.Group}
	k, ok := r.kinds[key]
	if !ok {
		k = len(r.kinds)
		r.kinds[key] = k
	}
	return k
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
	if cb == nil {
		return nil, -1
	}
	overload := r.c.Overload(b)
	var worst *cable.Capacity
	at := -1
	for _, l := range r.legs[b] {
		got := r.leg(cb, b, l, overload)
		if worst == nil || !got.Known || got.Iz < worst.Iz {
			worst, at = got, l.leg
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

func (r *rater) leg(cb *network.Cable, b int, l wayLeg, overload bool) *cable.Capacity {
	key := rating{cb, l.kind, overload}
	if got, ok := r.rated[key]; ok {
		return got
	}
	got := cable.LegCapacity(cb, r.c.Net.Branches[b].Legs[l.leg], r.c.Net.Site, &r.c.Rules.Cable, overload)
	r.rated[key] = &got
	return &got
}
