package edit

import (
	"strconv"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// Paste adds a copy of a fragment: new ids and tags, nothing locked, runs
// without a measured length. What is joined inside the fragment is joined in
// the copy. An end of a run on something left behind is joined to it again
// when the scheme has the title of the one it was cut from and still has that
// thing, known by id, kind and tag; otherwise it is open. Lamps go into the zone
// of the scheme that has the id and name of theirs, else one of the same name,
// else into a new copy of the zone.
type Paste struct {
	Fragment *doc.Fragment
	By       geom.Point // how far from where it was cut
	// IDs are the new ids by the old; NewPaste makes them.
	IDs map[doc.ID]doc.ID
	// Verb of the step, "Paste" when empty.
	Verb string
}

// NewPaste returns the paste of a fragment with new ids made by newID.
func NewPaste(f *doc.Fragment, by geom.Point, newID func() doc.ID) Paste {
	o := Paste{Fragment: f, By: by, IDs: map[doc.ID]doc.ID{}}
	doc.Each(f.Scheme, func(e doc.Entity, _ doc.Kind) { o.IDs[e.Key()] = newID() })
	return o
}

// Name implements Operation.
func (o Paste) Name() string {
	if o.Verb == "" {
		return "Paste"
	}
	return o.Verb
}

func (o Paste) title(*doc.Scheme) string {
	if o.Fragment == nil {
		return o.Name()
	}
	var ids []doc.ID
	doc.Each(o.Fragment.Scheme, func(e doc.Entity, k doc.Kind) {
		if k != doc.ZoneKind {
			ids = append(ids, e.Key())
		}
	})
	return o.Name() + " " + counted(o.Fragment.Scheme, ids)
}

// Pasted returns the ids that the copy gets, in the order of the file, without
// those of zones.
func (o Paste) Pasted() []doc.ID {
	var out []doc.ID
	doc.Each(o.Fragment.Scheme, func(e doc.Entity, k doc.Kind) {
		if k != doc.ZoneKind {
			out = append(out, o.IDs[e.Key()])
		}
	})
	return out
}

// Apply implements Operation.
func (o Paste) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	if o.Fragment == nil {
		return nil, refuse("there is nothing to paste")
	}
	p := pasting{Paste: o, s: s, back: map[doc.ID]doc.Place{}}
	for _, left := range o.Fragment.Outside {
		e, kind := doc.Find(s, left.ID)
		if o.Fragment.Title == s.Title && kind == left.Kind && e.Label() == left.Tag {
			continue
		}
		p.back[left.ID] = left.At
	}
	p.zones()
	doc.Each(o.Fragment.Scheme, func(e doc.Entity, k doc.Kind) {
		if k != doc.ZoneKind {
			p.list = append(p.list, p.copied(e))
		}
	})
	if len(p.list) == 0 {
		return nil, refuse("there is nothing to paste")
	}
	return insert(s, p.list)
}

// pasting is one paste while it is worked out.
type pasting struct {
	Paste
	s    *doc.Scheme
	list []doc.Entity
	zone map[doc.ID]doc.ID
	back map[doc.ID]doc.Place // things left behind that are not here
}

// zones finds the zone of the scheme for each of the fragment, or adds a copy.
func (p *pasting) zones() {
	p.zone = map[doc.ID]doc.ID{}
	number := 0
	for _, z := range p.s.Zones.All() {
		number = max(number, z.Number)
	}
	for _, z := range p.Fragment.Scheme.Zones.All() {
		if here, ok := p.s.Zones.Get(z.ID); ok && here.Name == z.Name && here.Tag == z.Tag {
			p.zone[z.ID] = z.ID
			continue
		}
		for _, here := range p.s.Zones.All() {
			if here.Name == z.Name && z.Name != "" {
				p.zone[z.ID] = here.ID
				break
			}
		}
		if p.zone[z.ID] == "" {
			number++
			c := *doc.Copied(z).(*doc.Zone)
			c.ID, c.Tag, c.Number = p.IDs[z.ID], "", number
			c.Control = p.IDs[z.Control]
			p.zone[z.ID] = c.ID
			p.list = append(p.list, &c)
		}
	}
}

// copied returns the entity as it is pasted.
func (p *pasting) copied(e doc.Entity) doc.Entity {
	move := func(q geom.Point) geom.Point { return q.Add(p.By) }
	switch e := own(doc.Copied(e), "").(type) {
	case *doc.Supply:
		e.ID, e.Place.At = p.IDs[e.ID], move(e.Place.At)
		return e
	case *doc.Box:
		e.ID, e.Place.At = p.IDs[e.ID], move(e.Place.At)
		return e
	case *doc.Lamp:
		e.ID, e.Place.At, e.Zone = p.IDs[e.ID], move(e.Place.At), p.zone[e.Zone]
		return e
	case *doc.Gear:
		e.ID, e.Place.At = p.IDs[e.ID], move(e.Place.At)
		return e
	case *doc.Source:
		e.ID, e.Place.At = p.IDs[e.ID], move(e.Place.At)
		return e
	case *doc.Mark:
		e.ID, e.Place.At = p.IDs[e.ID], move(e.Place.At)
		return e
	case *doc.Area:
		e.ID, e.Ring = p.IDs[e.ID], mapped(e.Ring, move)
		return e
	case *doc.Line:
		e.ID, e.Path = p.IDs[e.ID], mapped(e.Path, move)
		return e
	case *doc.Dimension:
		e.ID = p.IDs[e.ID]
		for _, a := range []*doc.Anchor{&e.From, &e.To} {
			if a.On == "" {
				a.At = move(a.At)
			}
			a.On = p.IDs[a.On]
		}
		return e
	case *doc.Run:
		e.ID, e.With = p.IDs[e.ID], p.IDs[e.With]
		for i := 0; i+1 < len(e.Legs); i++ {
			e.Legs[i].To = move(e.Legs[i].To)
		}
		e.From, e.To = p.end(e.From), p.end(e.To)
		return e
	}
	panic("edit: paste of " + doc.KindOfEntity(e).String())
}

func (p *pasting) end(e doc.End) doc.End {
	if at, open := p.back[e.On]; open && e.On != "" {
		e = doc.OpenEnd(e, at)
	}
	if e.On == "" {
		e.At = e.At.Add(p.By)
	} else if id, in := p.IDs[e.On]; in {
		e.On = id
	}
	return e
}

// Cut takes entities out that were put on the clipboard; like Delete, but the
// step says so.
type Cut struct{ IDs []doc.ID }

// Name implements Operation.
func (o Cut) Name() string { return "Cut" }

func (o Cut) title(s *doc.Scheme) string { return "Cut " + counted(s, o.IDs) }

// Apply implements Operation.
func (o Cut) Apply(s *doc.Scheme) (*doc.Scheme, error) { return Delete(o).Apply(s) }

// Copies adds several copies of a fragment at equal steps, or about a centre.
type Copies struct {
	Pastes []Paste
	// About and Degrees turn copy k by k·Degrees; 0 turns nothing.
	About   geom.Point
	Degrees float64
}

// Name implements Operation.
func (o Copies) Name() string { return "Repeat" }

func (o Copies) title(s *doc.Scheme) string {
	if len(o.Pastes) == 0 {
		return o.Name()
	}
	what := o.Pastes[0].title(s)[len(o.Pastes[0].Name()):]
	return "Repeat" + what + " " + strconv.Itoa(len(o.Pastes)) + " times"
}

// MostCopied is how many things are copied in one step, as many as the
// clipboard takes.
const MostCopied = 5000

// Apply implements Operation.
func (o Copies) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	if len(o.Pastes) == 0 {
		return nil, refuse("there is nothing to repeat")
	}
	all := 0
	for _, p := range o.Pastes {
		all += len(p.IDs)
	}
	if all > MostCopied {
		return nil, refuse("%d copies would be %d things, expected at most %d", len(o.Pastes), all, MostCopied)
	}
	for k, p := range o.Pastes {
		n, err := p.Apply(s)
		if err == nil && o.Degrees != 0 {
			n, err = Rotate{p.Pasted(), o.About, o.Degrees * float64(k+1)}.Apply(n)
		}
		if err != nil {
			return nil, err
		}
		s = n
	}
	return s, nil
}
