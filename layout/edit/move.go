package edit

import (
	"slices"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// MovePoints moves entities by a vector. Run ends that are joined to a moved
// entity follow; of a run in the list its corners and its ends in the air
// move. What is locked is not moved.
type MovePoints struct {
	IDs []doc.ID
	By  geom.Point
}

// Name implements Operation.
func (o MovePoints) Name() string { return "Move" }

// Apply implements Operation.
func (o MovePoints) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	if len(o.IDs) == 0 {
		return nil, refuse("nothing is selected to move")
	}
	if max(o.By.X, o.By.Y) > 2*doc.Far || min(o.By.X, o.By.Y) < -2*doc.Far {
		return nil, refuse("the move is further than a plan can be")
	}
	ids := make(map[doc.ID]bool, len(o.IDs))
	for _, id := range o.IDs {
		switch e, kind := doc.Find(s, id); {
		case kind == doc.NoKind:
			return nil, refuse("there is nothing with the id %q to move", id)
		case kind == doc.ZoneKind:
			return nil, refuse("zone %s has no place of its own; move its lamps", e.Label())
		default:
			if err := loose(e); err != nil {
				return nil, err
			}
		}
		ids[id] = true
	}
	if o.By == (geom.Point{}) {
		return s, nil
	}
	return checked(o.moved(s, ids), o.IDs...)
}

func (o MovePoints) moved(s *doc.Scheme, ids map[doc.ID]bool) *doc.Scheme {
	n := *s
	n.Supplies = moveAll(s.Supplies, ids, func(e *doc.Supply) { e.Place.At = e.Place.At.Add(o.By) })
	n.Boxes = moveAll(s.Boxes, ids, func(e *doc.Box) { e.Place.At = e.Place.At.Add(o.By) })
	n.Lamps = moveAll(s.Lamps, ids, func(e *doc.Lamp) { e.Place.At = e.Place.At.Add(o.By) })
	n.Gear = moveAll(s.Gear, ids, func(e *doc.Gear) { e.Place.At = e.Place.At.Add(o.By) })
	n.Sources = moveAll(s.Sources, ids, func(e *doc.Source) { e.Place.At = e.Place.At.Add(o.By) })
	n.Marks = moveAll(s.Marks, ids, func(e *doc.Mark) { e.Place.At = e.Place.At.Add(o.By) })
	n.Areas = moveAll(s.Areas, ids, func(e *doc.Area) { e.Ring = shifted(e.Ring, o.By) })
	n.Lines = moveAll(s.Lines, ids, func(e *doc.Line) { e.Path = shifted(e.Path, o.By) })
	n.Dimensions = moveAll(s.Dimensions, ids, func(e *doc.Dimension) { moveDimension(s, e, o.By, ids) })
	n.Runs = moveAll(s.Runs, ids, func(e *doc.Run) {
		e.Legs = slices.Clone(e.Legs)
		for i := 0; i+1 < len(e.Legs); i++ {
			e.Legs[i].To = e.Legs[i].To.Add(o.By)
		}
		for _, end := range []*doc.End{&e.From, &e.To} {
			if end.On == "" {
				end.At = end.At.Add(o.By)
			}
		}
	})
	return &n
}

// moveAll replaces the entities with the ids by copies that move has changed.
func moveAll[T any, E interface {
	*T
	doc.Entity
}](set doc.Set[E], ids map[doc.ID]bool, move func(E)) doc.Set[E] {
	return set.Map(func(e E) E {
		if !ids[e.Key()] {
			return e
		}
		c := *e
		move(&c)
		return &c
	})
}

func shifted(ps []geom.Point, by geom.Point) []geom.Point {
	out := make([]geom.Point, len(ps))
	for i, p := range ps {
		out[i] = p.Add(by)
	}
	return out
}
