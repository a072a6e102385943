package edit

import (
	"reflect"
	"slices"

	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// changeAll applies change to copies of the entities with the ids and checks
// the result. Ids of another kind are refused. change leaves corners and tag as
// they are.
func changeAll[T any, E interface {
	*T
	doc.Entity
}](s *doc.Scheme, ids []doc.ID, get func(doc.ID) (E, bool), wanted string, change func(E)) (*doc.Scheme, error) {
	if len(ids) == 0 {
		return nil, refuse("no %s is selected", wanted)
	}
	by := make(map[doc.ID]doc.Entity, len(ids))
	var changed []doc.ID
	for _, id := range ids {
		old, ok := get(id)
		if !ok {
			return nil, unknown(s, id, wanted)
		}
		c := *old
		change(&c)
		e := own(E(&c), old.Label())
		if reflect.DeepEqual(doc.Entity(old), e) {
			continue
		}
		if err := stays(s, old, e); err != nil {
			return nil, err
		}
		by[id], changed = e, append(changed, id)
	}
	return checked(putEach(s, by), changed...)
}

// SetCable gives runs a cable; "" takes the choice back.
type SetCable struct {
	Runs  []doc.ID
	Cable string
}

// Name implements Operation.
func (o SetCable) Name() string { return "Change cable" }

// Apply implements Operation.
func (o SetCable) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	return changeAll(s, o.Runs, s.Runs.Get, "run", func(r *doc.Run) { r.Cable = o.Cable })
}

// SetZone puts lamps into a zone; "" takes them out of any.
type SetZone struct {
	Lamps []doc.ID
	Zone  doc.ID
}

// Name implements Operation.
func (o SetZone) Name() string { return "Change zone" }

// Apply implements Operation.
func (o SetZone) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	return changeAll(s, o.Lamps, s.Lamps.Get, "lamp", func(l *doc.Lamp) { l.Zone = o.Zone })
}

// SetLeg changes one leg of a run, counted from 0. Its corner stays where it
// is; MoveVertex moves that.
type SetLeg struct {
	Run   doc.ID
	Index int
	Leg   doc.Leg
}

// Name implements Operation.
func (o SetLeg) Name() string { return "Change leg" }

// Apply implements Operation.
func (o SetLeg) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	r, ok := s.Runs.Get(o.Run)
	if !ok {
		return nil, unknown(s, o.Run, "run")
	}
	if o.Index < 0 || o.Index >= len(r.Legs) {
		return nil, refuse("%s has no leg %d, it has %d", r.Tag, o.Index+1, len(r.Legs))
	}
	c := *r
	c.Legs = slices.Clone(r.Legs)
	to := c.Legs[o.Index].To
	c.Legs[o.Index] = o.Leg
	c.Legs[o.Index].To = to
	return replace(s, &c)
}

// SetLegSupport says how legs of a run are carried: the legs counted from 0,
// or all when Legs is nil. The reference method follows the support again.
type SetLegSupport struct {
	Run     doc.ID
	Legs    []int
	Support network.Support
	Depth   geom.Length // for buried and ducted legs
	Height  geom.Length // for the others
}

// Name implements Operation.
func (o SetLegSupport) Name() string { return "Change support" }

// Apply implements Operation.
func (o SetLegSupport) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	r, ok := s.Runs.Get(o.Run)
	if !ok {
		return nil, unknown(s, o.Run, "run")
	}
	legs := o.Legs
	if legs == nil {
		for i := range r.Legs {
			legs = append(legs, i)
		}
	}
	c := *r
	c.Legs = slices.Clone(r.Legs)
	for _, i := range legs {
		if i < 0 || i >= len(c.Legs) {
			return nil, refuse("%s has no leg %d, it has %d", r.Tag, i+1, len(c.Legs))
		}
		c.Legs[i].Support, c.Legs[i].Depth, c.Legs[i].Height, c.Legs[i].Method = o.Support, o.Depth, o.Height, ""
	}
	return replace(s, &c)
}

// SetEnd joins one end of a run to something, or leaves it in the air.
type SetEnd struct {
	Run  doc.ID
	From bool // the start of the run, otherwise its end
	End  doc.End
}

// Name implements Operation.
func (o SetEnd) Name() string { return "Join end of run" }

// Apply implements Operation.
func (o SetEnd) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	return changeAll(s, []doc.ID{o.Run}, s.Runs.Get, "run", func(r *doc.Run) {
		if o.From {
			r.From = o.End
		} else {
			r.To = o.End
		}
	})
}
