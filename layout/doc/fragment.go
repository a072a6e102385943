package doc

// Fragment is a part of a scheme on its way to another place, as the clipboard
// holds it. Its scheme has only the entities; ends of runs may be on things
// that were left behind, which Outside lists.
type Fragment struct {
	// Title is the title of the scheme it was cut from.
	Title   string
	Scheme  *Scheme
	Outside []Outside
}

// Outside is a thing that was left behind, with what is needed to know it
// again.
type Outside struct {
	ID   ID
	Tag  string
	Kind Kind
	At   Place
}

// FragmentOf returns the entities with the ids, in the order of the scheme, as
// a fragment. The zones of its lamps come along; a zone that is switched by
// gear left behind is switched by none, and a run whose cable is left behind
// has one of its own; an anchor of a dimension on what is left behind stands in
// the air there. Decisions stay: they are about what stands there. ok is false
// when none of the ids is an entity.
func FragmentOf(s *Scheme, ids []ID) (f *Fragment, ok bool) {
	in := make(map[ID]bool, len(ids))
	for _, id := range ids {
		in[id] = true
	}
	for _, l := range s.Lamps.All() {
		if in[l.ID] && l.Zone != "" {
			in[l.Zone] = true
		}
	}
	n := &Scheme{}
	n.Supplies = kept(s.Supplies, in)
	n.Boxes = kept(s.Boxes, in)
	n.Lamps = kept(s.Lamps, in)
	n.Gear = kept(s.Gear, in)
	n.Sources = kept(s.Sources, in)
	n.Runs = kept(s.Runs, in).Map(func(r *Run) *Run {
		if r.With == "" || in[r.With] {
			return r
		}
		return locked(*r, func(c *Run) { c.With = "" })
	})
	n.Zones = kept(s.Zones, in).Map(func(z *Zone) *Zone {
		if z.Control == "" || in[z.Control] {
			return z
		}
		return locked(*z, func(c *Zone) { c.Control = "" })
	})
	n.Areas = kept(s.Areas, in)
	n.Lines = kept(s.Lines, in)
	n.Marks = kept(s.Marks, in)
	n.Dimensions = kept(s.Dimensions, in).Map(func(d *Dimension) *Dimension { return freed(s, d, in) })
	f = &Fragment{Title: s.Title, Scheme: n}
	seen := map[ID]bool{}
	for _, r := range n.Runs.All() {
		for _, e := range []End{r.From, r.To} {
			if e.On == "" || in[e.On] || seen[e.On] {
				continue
			}
			seen[e.On] = true
			left, kind := Find(s, e.On)
			if p, ok := PlaceOf(left); ok {
				f.Outside = append(f.Outside, Outside{e.On, left.Label(), kind, p})
			}
		}
	}
	empty := true
	Each(n, func(Entity, Kind) { empty = false })
	return f, !empty
}

// freed returns the dimension with anchors on what is left behind in the air.
func freed(s *Scheme, d *Dimension, in map[ID]bool) *Dimension {
	c := *d
	for _, a := range []*Anchor{&c.From, &c.To} {
		if a.On != "" && !in[a.On] {
			*a = Anchor{At: AnchorPoint(s, *a)}
		}
	}
	if c == *d {
		return d
	}
	return &c
}

func kept[E Entity](s Set[E], in map[ID]bool) Set[E] {
	return s.Keep(func(e E) bool { return in[e.Key()] })
}

// Bare returns the fragment as a scheme that stands by itself: ends of runs on
// what was left behind are in the air where that stood.
func (f *Fragment) Bare() *Scheme {
	at := map[ID]Outside{}
	for _, o := range f.Outside {
		at[o.ID] = o
	}
	n := *f.Scheme
	n.Runs = n.Runs.Map(func(r *Run) *Run {
		c := *r
		for _, e := range []*End{&c.From, &c.To} {
			if o, ok := at[e.On]; ok {
				*e = OpenEnd(*e, o.At)
			}
		}
		if c.From == r.From && c.To == r.To {
			return r
		}
		return &c
	})
	return &n
}

// OpenEnd returns the end left in the air where the thing it was on stands.
func OpenEnd(e End, at Place) End { return End{At: at.At, Tail: e.Tail} }

// Copied returns the entity as a copy of it starts out: not locked, and a run
// without the length that was measured of another cable.
func Copied(e Entity) Entity {
	e = WithLock(e, false)
	if r, ok := e.(*Run); ok && r.Cut.Known {
		c := *r
		c.Cut.Known, c.Cut.Value = false, 0
		return &c
	}
	return e
}
