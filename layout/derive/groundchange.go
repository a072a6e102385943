package derive

import (
	"math"

	"duskwire/calc/check"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// changes are the parts of the plan where the facts of the ground may differ
// between two schemes: around every area, line and mark that came, went or
// changed, as far as facts about it reach. Elsewhere facts are taken over.
type changes struct {
	all    bool        // nothing can be taken over
	places []geom.Rect // facts of places
	ways   []geom.Rect // facts of ways
}

// changesOf compares the ground with the one before, nil for none.
func (g *ground) changesOf(old *ground, rules *check.Rules) *changes {
	c := &changes{}
	if old == nil {
		c.all = true
		return c
	}
	c.all = !differ(old.areas, g.areas, func(a *doc.Area) { c.area(a, rules) }) ||
		!differ(old.lines, g.lines, func(l *doc.Line) { c.line(l, rules) }) ||
		!differ(old.marks, g.marks, func(m *doc.Mark) { c.mark(m, rules) })
	return c
}

// differ calls f with every value that only one of two lists holds. It returns
// false when the values that stay, told by their keys, stand in another order:
// of areas the last one owns the ground.
func differ[E interface {
	comparable
	doc.Entity
}](before, after []E, f func(E)) bool {
	was, is := make(map[doc.ID]E, len(before)), make(map[doc.ID]E, len(after))
	for _, e := range before {
		was[e.Key()] = e
	}
	i := 0
	for _, e := range after {
		is[e.Key()] = e
	}
	for _, e := range after {
		old, stays := was[e.Key()]
		if !stays {
			f(e)
			continue
		}
		for i < len(before) {
			if _, here := is[before[i].Key()]; here {
				break
			}
			i++
		}
		if i == len(before) || before[i] != old {
			return false
		}
		if i++; old != e {
			f(old)
			f(e)
		}
	}
	for _, e := range before {
		if _, stays := is[e.Key()]; !stays {
			f(e)
		}
	}
	return true
}

// nearReach is how far at least a change is taken to reach, further than any
// fact that is not named below does. A fact that reaches further has to be named.
const nearReach = metalReach

func (c *changes) area(a *doc.Area, rules *check.Rules) {
	near := nearReach
	if a.Kind == "water" {
		near = farReach
	}
	c.add(geom.Around(a.Ring...), near, max(nearReach, reach(rules.Site.MownReach.Value)))
}

func (c *changes) line(l *doc.Line, rules *check.Rules) {
	near := nearReach
	if l.Kind == "boundary" {
		near = farReach
	}
	s := &rules.Site
	c.add(geom.Around(l.Path...), near, max(nearReach, reach(s.ServiceClear.Value), reach(s.PostReach.Value), reach(s.FenceReach.Value)))
}

func (c *changes) mark(m *doc.Mark, rules *check.Rules) {
	box, near := geom.Around(m.Place.At), m.Radius+nearReach
	switch m.Kind {
	case "tree":
		c.add(box, near, max(near, rootReach(m, rules)))
	case "window", "seat":
		c.add(box, m.Radius+farReach, near)
	default:
		c.add(box, near, near)
	}
}

// add enters a box with how far facts of places and of ways reach from it. A
// millimetre more is for the rounding of distances.
func (c *changes) add(box geom.Rect, places, ways geom.Length) {
	c.places = append(c.places, box.Grow(places+geom.Millimetre))
	c.ways = append(c.ways, box.Grow(ways+geom.Millimetre))
}

// place reports whether facts about a place may have changed.
func (c *changes) place(p geom.Point) bool {
	if c.all {
		return true
	}
	for _, r := range c.places {
		if r.Contains(p) {
			return true
		}
	}
	return false
}

// way reports whether facts about a way within a box may have changed.
func (c *changes) way(box geom.Rect) bool {
	if c.all {
		return true
	}
	for _, r := range c.ways {
		if r.Overlaps(box) {
			return true
		}
	}
	return false
}

// rootReach is how far from the middle of a trunk the roots of a tree are told.
func rootReach(m *doc.Mark, rules *check.Rules) geom.Length {
	zone := treeReach
	if girth := girthOf(m); girth > 0 {
		zone = max(reach(rules.Site.HandDig.Value*float64(girth)), reach(rules.Site.RootClear.Value))
	}
	return zone + m.Radius
}

// girthOf is the girth of a trunk, 2·π·r, 0 when it was not measured.
func girthOf(m *doc.Mark) q.Metre { return q.Metre(2 * math.Pi * m.Radius.Metres()) }
