package edit

import (
	"fmt"
	"slices"

	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// Supports are the ways a leg can be carried, in words, by network.Support.
var Supports = []string{"clipped", "buried", "in duct", "on a structure", "in a tree", "indoors"}

// TurnLeg says how one leg of a run is carried, or with Leg -1 all of them,
// while its place on the plan stays. A leg that goes into the ground keeps the
// depth it has, if it has one, and gets Depth otherwise; one that comes out of it
// gets Height in the same way. The reference method follows the support again.
type TurnLeg struct {
	Run     doc.ID
	Leg     int // counted from 0; -1 for all
	Support network.Support
	Depth   geom.Length
	Height  geom.Length
}

// Name implements Operation.
func (o TurnLeg) Name() string { return "Turn leg " + o.word() }

func (o TurnLeg) word() string {
	if o.Support < 0 || int(o.Support) >= len(Supports) {
		return "?"
	}
	return Supports[o.Support]
}

func (o TurnLeg) title(s *doc.Scheme) string {
	if o.Leg < 0 {
		return fmt.Sprintf("Turn all legs of %s %s", doc.TagOf(s, o.Run), o.word())
	}
	return fmt.Sprintf("Turn leg %d of %s %s", o.Leg+1, doc.TagOf(s, o.Run), o.word())
}

// Apply implements Operation.
func (o TurnLeg) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	r, ok := s.Runs.Get(o.Run)
	if !ok {
		return nil, unknown(s, o.Run, "run")
	}
	if o.Leg < -1 || o.Leg >= len(r.Legs) {
		return nil, refuse("%s has no leg %d, it has %d", r.Tag, o.Leg+1, len(r.Legs))
	}
	c := *r
	c.Legs = slices.Clone(r.Legs)
	for i := range c.Legs {
		if l := &c.Legs[i]; (o.Leg < 0 || i == o.Leg) && l.Support != o.Support {
			o.turn(l)
		}
	}
	return replace(s, &c)
}

func (o TurnLeg) turn(l *doc.Leg) {
	l.Support, l.Method = o.Support, ""
	if o.Support == network.Buried || o.Support == network.InDuct {
		if l.Depth == 0 {
			l.Depth = o.Depth
		}
		l.Height = 0
		return
	}
	if l.Height == 0 {
		l.Height = o.Height
	}
	l.Depth = 0
}
