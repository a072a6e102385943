package derive

import (
	"duskwire/layout/geom"
)

// census counts the runs along every segment of route. Only stretches drawn
// between the same two points count as shared: cables that merely cross, or
// that run alongside for part of a leg, must be given their group by hand.
//
// A dragged lamp moves a few routes of a thousand, so the full count is kept and
// only what those change is counted anew.
type census struct {
	full   map[segment]int
	routes []*route // that full counts
	change map[segment]int
	area   geom.Rect // around all segments of change
}

// censusOf counts routes, starting from the count before when few differ.
func censusOf(routes []*route, before *census) *census {
	const few = 32
	if before == nil || len(before.routes) != len(routes) {
		return fullCensus(routes)
	}
	var moved []int
	for i, r := range routes {
		if r != before.routes[i] {
			if moved = append(moved, i); len(moved) > few {
				return fullCensus(routes)
			}
		}
	}
	c := &census{full: before.full, routes: before.routes, change: map[segment]int{}}
	for _, i := range moved {
		for _, m := range []struct {
			r  *route
			by int
		}{{before.routes[i], -1}, {routes[i], 1}} {
			m.r.segments(func(s segment) { c.change[s] += m.by })
			c.area = c.area.Union(m.r.around)
		}
	}
	return c
}

func fullCensus(routes []*route) *census {
	legs := 0
	for _, r := range routes {
		legs += len(r.run.Legs)
	}
	c := &census{full: make(map[segment]int, legs), routes: routes}
	for _, r := range routes {
		r.segments(func(s segment) { c.full[s]++ })
	}
	return c
}

// at returns the number of runs along a segment.
func (c *census) at(s segment) int { return c.full[s] + c.change[s] }

// differs reports whether a route may share its segments with other runs than
// in the count before.
func (c *census) differs(r *route, before *census) bool {
	if before == nil || len(before.routes) != len(c.routes) || len(c.routes) > 0 && &before.routes[0] != &c.routes[0] {
		return true
	}
	return c.area.Overlaps(r.around) || before.area.Overlaps(r.around)
}

// segments calls f with every segment of a route.
func (r *route) segments(f func(segment)) {
	for i := range r.run.Legs {
		f(segmentOf(r.path[i], r.path[i+1], r.run.Legs[i].Support))
	}
}
