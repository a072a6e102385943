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
	kinds []legKind // those that most legs have
	more  map[legKind]int
	legs  []way // per branch: its legs, those alike left out
	rated []rated
}

// way is the legs of one branch that differ from the leg before.
type way []wayLeg

// wayLeg is one leg by its number and the number of its kind.
type wayLeg struct{ leg, kind int32 }

// legKind is everything about a leg that its capacity depends on besides the
// cable.
type legKind struct {
	support   network.Support
	method    string
	depth     q.Metre
	insulated q.Metre
	group     int
}

// rated is the capacities of one cable by kind of leg and by whether it has to
// be protected against overload; nil where nobody has asked. A circuit has few
// cables, so a list of them is searched faster than a map.
type rated struct {
	cable *network.Cable
	list  [][2]*cable.Capacity
}

func newRater(c *check.Context) *rater {
	r := &rater{c: c, legs: make([]way, len(c.Net.Branches))}
	all := make([]wayLeg, 0, 2*len(c.Net.Branches))
	for b := range c.Net.Branches {
		legs, first := c.Net.Branches[b].Legs, len(all)
		for i := range legs {
			if i > 0 && alike(&legs[i-1], &legs[i]) {
				continue // a bend of the route changes nothing
			}
			all = append(all, wayLeg{int32(i), int32(r.kind(&legs[i]))})
		}
		r.legs[b] = way(all[first:len(all):len(all)])
	}
	return r
}

// listed is how many kinds of legs are searched one by one.
const listed = 8

// kind returns the number of a leg's kind.
func (r *rater) kind(l *network.Leg) int {
	key := legKind{l.Support, l.Method, l.Depth, l.Insulated, l.Group}
	for k := range r.kinds {
		if r.kinds[k] == key {
			return k
		}
	}
	if len(r.kinds) < listed {
		r.kinds = append(r.kinds, key)
		return len(r.kinds) - 1
	}
	k, ok := r.more[key]
	if !ok {
		if k = listed + len(r.more); r.more == nil {
			r.more = map[legKind]int{}
		}
		r.more[key] = k
	}
	return k
}

// fork returns a rater that keeps its own capacities, so that it may be asked
// beside the other.
func (r *rater) fork() *rater {
	out := *r
	out.rated = nil
	return &out
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
			worst, at = got, int(l.leg)
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
	at := 0
	for at < len(r.rated) && r.rated[at].cable != cb {
		at++
	}
	if at == len(r.rated) {
		r.rated = append(r.rated, rated{cb, make([][2]*cable.Capacity, len(r.kinds)+len(r.more))})
	}
	which := 0
	if overload {
		which = 1
	}
	kept := &r.rated[at].list[l.kind][which]
	if *kept == nil {
		got := cable.LegCapacity(cb, r.c.Net.Branches[b].Legs[l.leg], r.c.Net.Site, &r.c.Rules.Cable, overload)
		*kept = &got
	}
	return *kept
}
