package edit

import (
	"fmt"
	"slices"
	"strconv"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// counted names entities by number and kind: "L7", "4 lamps", "5 items".
func counted(s *doc.Scheme, ids []doc.ID) string {
	if len(ids) == 1 {
		return doc.TagOf(s, ids[0])
	}
	kind := doc.NoKind
	for i, id := range ids {
		k := doc.KindOf(s, id)
		if i > 0 && k != kind {
			return strconv.Itoa(len(ids)) + " items"
		}
		kind = k
	}
	return strconv.Itoa(len(ids)) + " " + plural(kind)
}

// plural returns the word for several entities of a kind.
func plural(k doc.Kind) string {
	switch k {
	case doc.BoxKind:
		return "boxes"
	case doc.GearKind:
		return "pieces of gear"
	case doc.NoKind:
		return "items"
	}
	return k.String() + "s"
}

// Together returns the ids with the runs that have both ends on one of them,
// so that a group goes with its cables.
func Together(s *doc.Scheme, ids []doc.ID) []doc.ID {
	in := make(map[doc.ID]bool, len(ids))
	for _, id := range ids {
		in[id] = true
	}
	out := slices.Clone(ids)
	for _, r := range s.Runs.All() {
		if in[r.From.On] && in[r.To.On] && !in[r.ID] {
			out = append(out, r.ID)
		}
	}
	return out
}

// change is how one entity is drawn anew: where its points go, and how its
// lamps turn.
type change struct {
	point func(geom.Point) geom.Point
	turn  func(*doc.Lamp) // nil: as it was
	swap  bool            // across the sheet becomes up the sheet, and back
}

// reshape redraws the entities of the changes. Locked ones and those without a
// place are refused, verb says what was asked for: "move".
func reshape(s *doc.Scheme, ids []doc.ID, verb string, of func(doc.ID) change) (*doc.Scheme, error) {
	if len(ids) == 0 {
		return nil, refuse("nothing is selected to %s", verb)
	}
	in := make(map[doc.ID]bool, len(ids))
	for _, id := range ids {
		e, kind := doc.Find(s, id)
		switch kind {
		case doc.NoKind:
			return nil, refuse("there is nothing with the id %q to %s", id, verb)
		case doc.ZoneKind:
			return nil, refuse("zone %s has no place of its own; %s its lamps", e.Label(), verb)
		}
		if err := loose(e); err != nil {
			return nil, err
		}
		in[id] = true
	}
	n := redrawn(s, in, of)
	if n == s {
		return s, nil
	}
	return checked(n, ids...)
}

func redrawn(s *doc.Scheme, in map[doc.ID]bool, of func(doc.ID) change) *doc.Scheme {
	n := *s
	n.Supplies = redraw(s.Supplies, in, of, func(e *doc.Supply, c change) { e.Place.At = c.point(e.Place.At) })
	n.Boxes = redraw(s.Boxes, in, of, func(e *doc.Box, c change) { e.Place.At = c.point(e.Place.At) })
	n.Lamps = redraw(s.Lamps, in, of, func(e *doc.Lamp, c change) {
		e.Place.At = c.point(e.Place.At)
		if c.turn != nil {
			c.turn(e)
		}
	})
	n.Gear = redraw(s.Gear, in, of, func(e *doc.Gear, c change) {
		e.Place.At = c.point(e.Place.At)
		if c.turn != nil && e.Aim != 0 {
			as := doc.Lamp{Aim: e.Aim} // a lamp with the same aim turns alike
			c.turn(&as)
			e.Aim = as.Aim
		}
	})
	n.Sources = redraw(s.Sources, in, of, func(e *doc.Source, c change) { e.Place.At = c.point(e.Place.At) })
	n.Marks = redraw(s.Marks, in, of, func(e *doc.Mark, c change) { e.Place.At = c.point(e.Place.At) })
	n.Areas = redraw(s.Areas, in, of, func(e *doc.Area, c change) { e.Ring = mapped(e.Ring, c.point) })
	n.Lines = redraw(s.Lines, in, of, func(e *doc.Line, c change) { e.Path = mapped(e.Path, c.point) })
	n.Runs = redraw(s.Runs, in, of, func(e *doc.Run, c change) {
		e.Legs = slices.Clone(e.Legs)
		for i := 0; i+1 < len(e.Legs); i++ {
			e.Legs[i].To = c.point(e.Legs[i].To)
		}
		for _, end := range []*doc.End{&e.From, &e.To} {
			if end.On == "" {
				end.At = c.point(end.At)
			}
		}
	})
	n.Dimensions = s.Dimensions.Map(func(d *doc.Dimension) *doc.Dimension {
		if !in[d.ID] {
			return d
		}
		return redrawnDimension(s, &n, d, of(d.ID))
	})
	if doc.Diff(s, &n).Empty() {
		return s
	}
	return &n
}

// redrawnDimension returns the dimension with its own points redrawn, and its
// line where the old line goes, unless only one of the things it is on goes
// along; n is the scheme with those things.
func redrawnDimension(s, n *doc.Scheme, d *doc.Dimension, c change) *doc.Dimension {
	line := doc.ShapeOf(s, d).A
	e := *d
	for _, a := range []*doc.Anchor{&e.From, &e.To} {
		if a.On == "" {
			a.At = c.point(a.At)
		}
	}
	from, to := doc.AnchorPoint(n, e.From), doc.AnchorPoint(n, e.To)
	whole := from == c.point(doc.AnchorPoint(s, d.From)) && to == c.point(doc.AnchorPoint(s, d.To))
	switch {
	case !whole:
	case c.swap && e.Kind == doc.Horizontal:
		e.Kind = doc.Vertical
	case c.swap && e.Kind == doc.Vertical:
		e.Kind = doc.Horizontal
	}
	if whole && from != to { // between two equal places there is no direction to stand off
		e.Offset = doc.OffsetAt(e.Kind, from, to, c.point(line))
	}
	if near := nearer(e.Offset, d.Offset, -d.Offset); max(e.Offset-near, near-e.Offset) <= 2 {
		e.Offset = near // not to drift by rounding
	}
	if e == *d {
		return d
	}
	return &e
}

// nearer returns which of two lengths l is nearer to, the first when to both.
func nearer(l, a, b geom.Length) geom.Length {
	if max(l-a, a-l) <= max(l-b, b-l) {
		return a
	}
	return b
}

// redraw replaces the entities by changed copies; one that comes out as it was
// is shared.
func redraw[T any, E interface {
	*T
	doc.Entity
}](set doc.Set[E], in map[doc.ID]bool, of func(doc.ID) change, f func(E, change)) doc.Set[E] {
	return set.Map(func(e E) E {
		if !in[e.Key()] {
			return e
		}
		c := *e
		f(&c, of(e.Key()))
		if sameShape(e, E(&c)) && sameTurn(e, E(&c)) {
			return e
		}
		return &c
	})
}

func sameTurn(a, b doc.Entity) bool {
	if g, ok := a.(*doc.Gear); ok {
		return g.Aim == b.(*doc.Gear).Aim
	}
	l, ok := a.(*doc.Lamp)
	if !ok {
		return true
	}
	m := b.(*doc.Lamp)
	return l.Aim == m.Aim && l.Tilt == m.Tilt && l.Spin == m.Spin
}

func mapped(ps []geom.Point, f func(geom.Point) geom.Point) []geom.Point {
	out := make([]geom.Point, len(ps))
	for i, p := range ps {
		out[i] = f(p)
	}
	return out
}

// shift moves everything of an entity by a vector.
func shift(by geom.Point) change {
	return change{point: func(p geom.Point) geom.Point { return p.Add(by) }}
}

// thing is one entity that is lined up with others: its rectangle, of a point
// entity its place.
type thing struct {
	id  doc.ID
	box geom.Rect
}

// things returns what of a selection can be lined up: runs and dimensions are
// left out, since they follow what they are on. Fewer than least are refused.
func things(s *doc.Scheme, ids []doc.ID, least int, verb string) ([]thing, error) {
	var out []thing
	for _, id := range ids {
		e, kind := doc.Find(s, id)
		switch {
		case kind == doc.NoKind:
			return nil, refuse("there is nothing with the id %q to %s", id, verb)
		case kind == doc.RunKind || kind == doc.ZoneKind || kind == doc.DimensionKind:
			continue
		}
		box := doc.BoundsOf(s, e)
		if p, ok := doc.PlaceOf(e); ok {
			box = geom.Around(p.At)
		}
		out = append(out, thing{id, box})
	}
	if len(out) < least {
		return nil, refuse("to %s, select at least %d things that stand by themselves; found %d (runs and dimensions follow what they are on)", verb, least, len(out))
	}
	return out, nil
}

func idsOf(ts []thing) []doc.ID {
	out := make([]doc.ID, len(ts))
	for i, t := range ts {
		out[i] = t.id
	}
	return out
}

// countedThings names the part of a selection that is lined up.
func countedThings(s *doc.Scheme, ids []doc.ID) string {
	ts, err := things(s, ids, 0, "")
	if err != nil {
		return fmt.Sprintf("%d items", len(ids))
	}
	return counted(s, idsOf(ts))
}

// shiftEach moves every thing by the vector of its id.
func shiftEach(s *doc.Scheme, ts []thing, verb string, by map[doc.ID]geom.Point) (*doc.Scheme, error) {
	return reshape(s, idsOf(ts), verb, func(id doc.ID) change { return shift(by[id]) })
}
