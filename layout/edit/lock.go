package edit

import (
	"slices"

	"duskwire/layout/doc"
)

// SetLock locks entities where they are, or unlocks them; see doc.Locked.
type SetLock struct {
	IDs []doc.ID
	On  bool
}

// Name implements Operation.
func (o SetLock) Name() string {
	if o.On {
		return "Lock"
	}
	return "Unlock"
}

func (o SetLock) title(s *doc.Scheme) string { return o.Name() + " " + counted(s, o.IDs) }

// Apply implements Operation.
func (o SetLock) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	if len(o.IDs) == 0 {
		return nil, refuse("nothing is selected to lock or unlock")
	}
	by := make(map[doc.ID]doc.Entity, len(o.IDs))
	for _, id := range o.IDs {
		e, kind := doc.Find(s, id)
		if kind == doc.NoKind {
			return nil, refuse("there is nothing with the id %q to lock", id)
		}
		if c := doc.WithLock(e, o.On); c != e {
			by[id] = c
		}
	}
	return putEach(s, by), nil
}

// loose refuses when one of the entities is locked.
func loose(es ...doc.Entity) error {
	for _, e := range es {
		if !missing(e) && doc.Locked(e) {
			return refuse("%s is locked in its place; unlock it first (Ctrl+L)", e.Label())
		}
	}
	return nil
}

// stays refuses a changed copy of a locked entity that is drawn otherwise, and
// a lamp that joins or leaves a locked zone. Taking the lock off in the same
// step is no way round.
func stays(s *doc.Scheme, old, e doc.Entity) error {
	if l, ok := e.(*doc.Lamp); ok {
		was, now := old.(*doc.Lamp).Zone, l.Zone
		for _, id := range []doc.ID{was, now} {
			if z, ok := s.Zones.Get(id); ok && z.Lock && was != now {
				return refuse("zone %s is locked: no lamp joins or leaves it; unlock it first (Ctrl+L)", z.Tag)
			}
		}
	}
	if doc.Locked(old) && !sameShape(old, e) {
		return loose(old)
	}
	return nil
}

// sameShape reports whether two versions of an entity are drawn on the same
// place of the plan.
func sameShape(a, b doc.Entity) bool {
	if p, ok := doc.PlaceOf(a); ok {
		q, _ := doc.PlaceOf(b)
		return p.At == q.At
	}
	switch a := a.(type) {
	case *doc.Run:
		b := b.(*doc.Run)
		return sameEnd(a.From, b.From) && sameEnd(a.To, b.To) && slices.EqualFunc(a.Legs, b.Legs, func(x, y doc.Leg) bool { return x.To == y.To })
	case *doc.Area:
		return slices.Equal(a.Ring, b.(*doc.Area).Ring)
	case *doc.Line:
		return slices.Equal(a.Path, b.(*doc.Line).Path)
	case *doc.Dimension:
		b := b.(*doc.Dimension)
		return a.From == b.From && a.To == b.To && a.Offset == b.Offset
	}
	return true
}

func sameEnd(a, b doc.End) bool {
	if a.On != "" || b.On != "" {
		return a.On == b.On && a.Side == b.Side
	}
	return a.At == b.At
}
