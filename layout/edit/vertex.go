package edit

import (
	"slices"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// Corners are counted along the drawn path from 0. Of a run, corner 0 is its
// start and the last corner its end (see doc.RunPath); of an area or a line
// they are the points of its ring or path.

// MoveVertex moves one corner of a run, area or line. An end of a run that is
// joined to something is not moved by this.
type MoveVertex struct {
	ID    doc.ID
	Index int
	To    geom.Point
}

// Name implements Operation.
func (o MoveVertex) Name() string { return "Move corner" }

// Apply implements Operation.
func (o MoveVertex) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	return onPath(s, o.ID, func(r *doc.Run) error {
		n := len(r.Legs)
		if o.Index < 0 || o.Index > n {
			return noCorner(r.Tag, o.Index, n+1)
		}
		if end := endAt(r, o.Index); end != nil {
			if end.On != "" {
				return refuse("this end of %s is joined to %s; move that, or join the end to something else", r.Tag, doc.TagOf(s, end.On))
			}
			end.At = o.To
			return nil
		}
		r.Legs[o.Index-1].To = o.To
		return nil
	}, func(tag string, ps []geom.Point, least int) ([]geom.Point, error) {
		if o.Index < 0 || o.Index >= len(ps) {
			return nil, noCorner(tag, o.Index, len(ps))
		}
		ps[o.Index] = o.To
		return ps, nil
	})
}

// InsertVertex puts a new corner before the corner Index. In a run it splits
// a leg, so Index is from 1 to the number of legs; both halves are carried as
// the leg was. In a ring or path Index may also be the number of corners.
type InsertVertex struct {
	ID    doc.ID
	Index int
	At    geom.Point
}

// Name implements Operation.
func (o InsertVertex) Name() string { return "Add corner" }

// Apply implements Operation.
func (o InsertVertex) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	return onPath(s, o.ID, func(r *doc.Run) error {
		if o.Index < 1 || o.Index > len(r.Legs) {
			return refuse("%s has legs 1 to %d, there is no leg %d to put a corner in", r.Tag, len(r.Legs), o.Index)
		}
		half := r.Legs[o.Index-1]
		half.To = o.At
		r.Legs = slices.Insert(r.Legs, o.Index-1, half)
		return nil
	}, func(tag string, ps []geom.Point, least int) ([]geom.Point, error) {
		if o.Index < 0 || o.Index > len(ps) {
			return nil, noCorner(tag, o.Index, len(ps))
		}
		return slices.Insert(ps, o.Index, o.At), nil
	})
}

// DeleteVertex takes one corner out. In a run the two legs that met there
// become one, carried as the first was; an end in the air goes back to the
// corner next to it.
type DeleteVertex struct {
	ID    doc.ID
	Index int
}

// Name implements Operation.
func (o DeleteVertex) Name() string { return "Delete corner" }

// Apply implements Operation.
func (o DeleteVertex) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	return onPath(s, o.ID, func(r *doc.Run) error { return o.fromRun(s, r) },
		func(tag string, ps []geom.Point, least int) ([]geom.Point, error) {
			if o.Index < 0 || o.Index >= len(ps) {
				return nil, noCorner(tag, o.Index, len(ps))
			}
			if len(ps) <= least {
				return nil, refuse("%s has only %d corners and needs them", tag, len(ps))
			}
			return slices.Delete(ps, o.Index, o.Index+1), nil
		})
}

func (o DeleteVertex) fromRun(s *doc.Scheme, r *doc.Run) error {
	n := len(r.Legs)
	if o.Index < 0 || o.Index > n {
		return noCorner(r.Tag, o.Index, n+1)
	}
	end := endAt(r, o.Index)
	if end != nil && end.On != "" {
		return refuse("this end of %s is joined to %s; delete the run, or join the end to something else", r.Tag, doc.TagOf(s, end.On))
	}
	if n == 1 {
		return refuse("%s has only one leg; delete the run instead", r.Tag)
	}
	switch o.Index {
	case 0:
		r.From.At = r.Legs[0].To
		r.Legs = r.Legs[1:]
	case n:
		r.To.At = r.Legs[n-2].To
		r.Legs = r.Legs[:n-1]
	default:
		r.Legs[o.Index-1].To = r.Legs[o.Index].To
		r.Legs = slices.Delete(r.Legs, o.Index, o.Index+1)
	}
	return nil
}

// endAt returns the end of the run that is its corner i, nil for the others.
func endAt(r *doc.Run, i int) *doc.End {
	switch i {
	case 0:
		return &r.From
	case len(r.Legs):
		return &r.To
	}
	return nil
}

func noCorner(tag string, i, count int) error {
	return refuse("%s has no corner %d, it has %d", tag, i+1, count)
}

// onPath applies one of the two changes to a copy of the entity: to a run, or
// to the points of an area or line, of which at least least must stay.
func onPath(s *doc.Scheme, id doc.ID, run func(*doc.Run) error,
	points func(tag string, ps []geom.Point, least int) ([]geom.Point, error)) (*doc.Scheme, error) {
	e, kind := doc.Find(s, id)
	var err error
	switch e := e.(type) {
	case *doc.Run:
		c := *e
		c.Legs = slices.Clone(e.Legs)
		if err = run(&c); err == nil {
			return replace(s, &c)
		}
	case *doc.Area:
		c := *e
		if c.Ring, err = points(e.Tag, slices.Clone(e.Ring), 3); err == nil {
			return replace(s, &c)
		}
	case *doc.Line:
		c := *e
		if c.Path, err = points(e.Tag, slices.Clone(e.Path), 2); err == nil {
			return replace(s, &c)
		}
	default:
		if kind == doc.NoKind {
			return nil, refuse("there is nothing with the id %q", id)
		}
		return nil, refuse("%s %s has no corners", kind, e.Label())
	}
	return nil, err
}
