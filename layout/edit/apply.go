package edit

import (
	"fmt"
	"reflect"
	"slices"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// Refused is why an operation was not done.
type Refused struct{ Reason string }

// Error implements error.
func (r *Refused) Error() string { return r.Reason }

func refuse(format string, args ...any) error {
	return &Refused{fmt.Sprintf(format, args...)}
}

// unknown refuses an id that is not in the scheme as something of the kind.
func unknown(s *doc.Scheme, id doc.ID, wanted string) error {
	if k := doc.KindOf(s, id); k != doc.NoKind {
		return refuse("%s is a %s, expected a %s", doc.TagOf(s, id), k, wanted)
	}
	return refuse("there is no %s with the id %q", wanted, id)
}

// put returns the scheme with e added, or in the place of the entity with
// its id. It checks nothing.
func put(s *doc.Scheme, e doc.Entity) *doc.Scheme {
	n := *s
	switch e := e.(type) {
	case *doc.Supply:
		n.Supplies = s.Supplies.With(e)
	case *doc.Box:
		n.Boxes = s.Boxes.With(e)
	case *doc.Lamp:
		n.Lamps = s.Lamps.With(e)
	case *doc.Gear:
		n.Gear = s.Gear.With(e)
	case *doc.Source:
		n.Sources = s.Sources.With(e)
	case *doc.Run:
		n.Runs = s.Runs.With(e)
	case *doc.Zone:
		n.Zones = s.Zones.With(e)
	case *doc.Area:
		n.Areas = s.Areas.With(e)
	case *doc.Line:
		n.Lines = s.Lines.With(e)
	case *doc.Mark:
		n.Marks = s.Marks.With(e)
	case *doc.Dimension:
		n.Dimensions = s.Dimensions.With(e)
		return &n
	default:
		panic(fmt.Sprintf("edit: put of %T", e))
	}
	n.Dimensions = reanchored(s, &n, e)
	return &n
}

// putEach puts entities in the place of those with their ids, as put does one, but
// copies each set once. Their corners must be those of before.
func putEach(s *doc.Scheme, by map[doc.ID]doc.Entity) *doc.Scheme {
	if len(by) == 0 {
		return s
	}
	n := *s
	n.Supplies, n.Boxes, n.Lamps = swapped(s.Supplies, by), swapped(s.Boxes, by), swapped(s.Lamps, by)
	n.Gear, n.Sources, n.Runs = swapped(s.Gear, by), swapped(s.Sources, by), swapped(s.Runs, by)
	n.Zones, n.Areas, n.Lines = swapped(s.Zones, by), swapped(s.Areas, by), swapped(s.Lines, by)
	n.Marks, n.Dimensions = swapped(s.Marks, by), swapped(s.Dimensions, by)
	return &n
}

// swapped returns the set with the entities of by in the place of its own.
func swapped[E doc.Entity](set doc.Set[E], by map[doc.ID]doc.Entity) doc.Set[E] {
	return set.Map(func(e E) E {
		if n, ok := by[e.Key()]; ok {
			return n.(E)
		}
		return e
	})
}

// own returns a copy of e that shares no memory with it and has nothing in
// fields that mean nothing, with the tag given.
func own(e doc.Entity, tag string) doc.Entity {
	switch e := e.(type) {
	case *doc.Supply:
		c := *e
		c.Tag = tag
		return &c
	case *doc.Box:
		c := *e
		c.Tag = tag
		return &c
	case *doc.Lamp:
		c := *e
		c.Tag = tag
		return &c
	case *doc.Gear:
		c := *e
		c.Tag = tag
		return &c
	case *doc.Source:
		c := *e
		c.Tag = tag
		return &c
	case *doc.Run:
		c := *e
		c.Tag, c.Legs = tag, slices.Clone(e.Legs)
		return tidy(&c)
	case *doc.Zone:
		c := *e
		c.Tag = tag
		return &c
	case *doc.Area:
		c := *e
		c.Tag, c.Ring = tag, slices.Clone(e.Ring)
		return &c
	case *doc.Line:
		c := *e
		c.Tag, c.Path = tag, slices.Clone(e.Path)
		return &c
	case *doc.Mark:
		c := *e
		c.Tag = tag
		return &c
	case *doc.Dimension:
		c := *e
		c.Tag = tag
		return tidyAnchors(&c)
	}
	panic(fmt.Sprintf("edit: own of %T", e))
}

// tidy clears what is ignored in a run of our own: the corner of the last
// leg, and the point of an end that is on an entity.
func tidy(r *doc.Run) *doc.Run {
	if n := len(r.Legs); n > 0 {
		r.Legs[n-1].To = geom.Point{}
	}
	for _, e := range []*doc.End{&r.From, &r.To} {
		if e.On != "" {
			e.At = geom.Point{}
		} else {
			e.Side = doc.AnySide
		}
	}
	return r
}

// missing reports an operation that was built without its entity.
func missing(e doc.Entity) bool {
	return e == nil || reflect.ValueOf(e).IsNil()
}

// add puts a new entity into the scheme; an empty tag gets the next free one.
func add(s *doc.Scheme, e doc.Entity) (*doc.Scheme, error) {
	if missing(e) {
		return nil, refuse("there is nothing to add")
	}
	if k := doc.KindOf(s, e.Key()); k != doc.NoKind {
		return nil, refuse("the id %q is taken by %s %s", e.Key(), k, doc.TagOf(s, e.Key()))
	}
	tag := e.Label()
	if tag == "" {
		tag = doc.FreeTag(s, doc.KindOfEntity(e))
	} else if other := doc.WithTag(s, tag); other != nil {
		return nil, refuse("the tag %s is taken by another %s", tag, doc.KindOfEntity(other))
	}
	return checked(put(s, own(e, tag)), e.Key())
}

// replace puts a changed copy of an entity in its place. An equal one gives
// the scheme itself, so that nothing is recorded for nothing.
func replace(s *doc.Scheme, e doc.Entity) (*doc.Scheme, error) {
	if missing(e) {
		return nil, refuse("there is nothing to change")
	}
	old, kind := doc.Find(s, e.Key())
	if old == nil || kind != doc.KindOfEntity(e) {
		return nil, unknown(s, e.Key(), doc.KindOfEntity(e).String())
	}
	tag := e.Label()
	if tag == "" {
		tag = old.Label()
	}
	if tag != old.Label() {
		if other := doc.WithTag(s, tag); other != nil {
			return nil, refuse("the tag %s is taken by another %s", tag, doc.KindOfEntity(other))
		}
	}
	e = own(e, tag)
	if reflect.DeepEqual(old, e) {
		return s, nil
	}
	if err := stays(s, old, e); err != nil {
		return nil, err
	}
	return checked(put(s, e), e.Key())
}

// checked returns the scheme if the entities with the ids are right in it.
func checked(s *doc.Scheme, ids ...doc.ID) (*doc.Scheme, error) {
	for _, id := range ids {
		e, _ := doc.Find(s, id)
		if list := doc.Check(s, e); len(list) > 0 {
			return nil, &Refused{list[0].Error()}
		}
	}
	return s, nil
}
