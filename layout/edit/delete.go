package edit

import (
	"slices"

	"duskwire/layout/doc"
)

// Delete takes entities out. A run that was joined to one of them ends in the
// air at its place, and so does a dimension that measured it; the lamps of a zone keep no zone, and a zone whose gear goes
// is switched by none; decisions about what goes, and readings of it, go with it. What is locked is
// not deleted.
type Delete struct{ IDs []doc.ID }

// Name implements Operation.
func (o Delete) Name() string { return "Delete" }

// Apply implements Operation.
func (o Delete) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	if len(o.IDs) == 0 {
		return nil, refuse("nothing is selected to delete")
	}
	gone := make(map[doc.ID]bool, len(o.IDs))
	for _, id := range o.IDs {
		e, kind := doc.Find(s, id)
		if kind == doc.NoKind {
			return nil, refuse("there is nothing with the id %q to delete", id)
		}
		if err := loose(e); err != nil {
			return nil, err
		}
		gone[id] = true
	}
	n := *s
	n.Supplies = without(s.Supplies, gone)
	n.Boxes = without(s.Boxes, gone)
	n.Gear = without(s.Gear, gone)
	n.Sources = without(s.Sources, gone)
	n.Zones = without(s.Zones, gone).Map(func(z *doc.Zone) *doc.Zone {
		if !gone[z.Control] {
			return z
		}
		c := *z
		c.Control = ""
		return &c
	})
	n.Areas = without(s.Areas, gone)
	n.Lines = without(s.Lines, gone)
	n.Marks = without(s.Marks, gone)
	n.Dimensions = unanchored(s, gone)
	n.Lamps = without(s.Lamps, gone).Map(func(l *doc.Lamp) *doc.Lamp {
		if !gone[l.Zone] {
			return l
		}
		c := *l
		c.Zone = ""
		return &c
	})
	n.Runs = without(s.Runs, gone).Map(func(r *doc.Run) *doc.Run { return loosened(s, r, gone) })
	if slices.ContainsFunc(s.Decisions, func(d doc.Decision) bool { return gone[d.Subject] }) {
		n.Decisions = slices.DeleteFunc(slices.Clone(s.Decisions), func(d doc.Decision) bool { return gone[d.Subject] })
	}
	if left, some := unread(s.Visits, gone); some {
		n.Visits = left
	}
	return &n, nil
}

func without[E doc.Entity](set doc.Set[E], gone map[doc.ID]bool) doc.Set[E] {
	return set.Keep(func(e E) bool { return !gone[e.Key()] })
}

// loosened returns the run with its ends on deleted entities left in the air,
// and with a cable of its own when the one that it shared goes.
func loosened(s *doc.Scheme, r *doc.Run, gone map[doc.ID]bool) *doc.Run {
	if !gone[r.From.On] && !gone[r.To.On] && !gone[r.With] {
		return r
	}
	c := *r
	if gone[c.With] {
		c.With = ""
	}
	for _, end := range []*doc.End{&c.From, &c.To} {
		if gone[end.On] {
			*end = doc.End{At: doc.EndPoint(s, *end), Tail: end.Tail}
		}
	}
	return &c
}
