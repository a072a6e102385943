package edit

import (
	"fmt"
	"slices"

	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// LayLeg says how deep or how high one leg of a run lies. Level is above the
// ground: of a leg that is buried or in duct the depth becomes -Level.
type LayLeg struct {
	Run   doc.ID
	Leg   int // counted from 0
	Level geom.Length
}

// Name implements Operation.
func (o LayLeg) Name() string { return "Lay leg" }

func (o LayLeg) title(s *doc.Scheme) string {
	r, ok := s.Runs.Get(o.Run)
	if !ok || o.Leg < 0 || o.Leg >= len(r.Legs) {
		return o.Name()
	}
	if InGround(r.Legs[o.Leg].Support) {
		return fmt.Sprintf("Lay leg %d of %s %s deep", o.Leg+1, r.Tag, doc.Written(-o.Level))
	}
	return fmt.Sprintf("Carry leg %d of %s at %s", o.Leg+1, r.Tag, doc.Written(o.Level))
}

// InGround reports whether a leg with the support has a depth, not a height.
func InGround(s network.Support) bool { return s == network.Buried || s == network.InDuct }

// Apply implements Operation.
func (o LayLeg) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	r, ok := s.Runs.Get(o.Run)
	if !ok {
		return nil, unknown(s, o.Run, "run")
	}
	if o.Leg < 0 || o.Leg >= len(r.Legs) {
		return nil, refuse("%s has no leg %d, it has %d", r.Tag, o.Leg+1, len(r.Legs))
	}
	c := *r
	c.Legs = slices.Clone(r.Legs)
	if l := &c.Legs[o.Leg]; InGround(l.Support) {
		l.Depth = -o.Level
	} else {
		l.Height = o.Level
	}
	return replace(s, &c)
}

// SetHeight says how high above the ground a point entity stands.
type SetHeight struct {
	ID     doc.ID
	Height geom.Length
}

// Name implements Operation.
func (o SetHeight) Name() string { return "Set height" }

func (o SetHeight) title(s *doc.Scheme) string {
	return fmt.Sprintf("Set %s at %s above ground", doc.TagOf(s, o.ID), doc.Written(o.Height))
}

// Apply implements Operation.
func (o SetHeight) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	old, _ := doc.Find(s, o.ID)
	var c doc.Entity
	switch e := old.(type) {
	case *doc.Supply:
		n := *e
		n.Place.Height, c = o.Height, &n
	case *doc.Box:
		n := *e
		n.Place.Height, c = o.Height, &n
	case *doc.Lamp:
		n := *e
		n.Place.Height, c = o.Height, &n
	case *doc.Gear:
		n := *e
		n.Place.Height, c = o.Height, &n
	case *doc.Source:
		n := *e
		n.Place.Height, c = o.Height, &n
	case *doc.Mark:
		n := *e
		n.Place.Height, c = o.Height, &n
	default:
		return nil, unknown(s, o.ID, "thing that stands at one place")
	}
	return replace(s, c)
}
