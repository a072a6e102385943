package edit

import (
	"slices"

	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// SplitRun cuts a run in two at a point of one of its legs and puts a box
// there, to which both halves are joined. The first half, from the start, keeps
// id and tag. Slack stays with the half that ends on the lamp it was left for,
// else with the first; a measured length is no longer known, since the cable is
// another now. Box and the new half must have ids of their own; their tags are
// the next free ones.
type SplitRun struct {
	Run doc.ID
	Leg int        // counted from 0
	At  geom.Point // on the leg; the box stands here
	Box *doc.Box   // its place on the plan is At
	New doc.ID     // of the second half
}

// Name implements Operation.
func (o SplitRun) Name() string { return "Split run" }

func (o SplitRun) title(s *doc.Scheme) string {
	return "Split " + doc.TagOf(s, o.Run) + " at " + doc.FreeTag(s, doc.BoxKind)
}

// Apply implements Operation.
func (o SplitRun) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	r, ok := s.Runs.Get(o.Run)
	if !ok {
		return nil, unknown(s, o.Run, "run")
	}
	if err := loose(r); err != nil {
		return nil, err
	}
	if other := sharer(s, r); other != "" {
		return nil, refuse("%s shares its cable with %s; give each a cable of its own first", r.Tag, other)
	}
	if o.Leg < 0 || o.Leg >= len(r.Legs) {
		return nil, refuse("%s has no leg %d, it has %d", r.Tag, o.Leg+1, len(r.Legs))
	}
	if o.Box == nil {
		return nil, refuse("splitting %s takes a box from the stock book", r.Tag)
	}
	path := doc.RunPath(s, r)
	if o.At == path[0] || o.At == path[len(path)-1] {
		return nil, refuse("%s ends there; split it somewhere between its ends", r.Tag)
	}
	box := *o.Box
	box.Place.At, box.Tag = o.At, ""
	s, err := add(s, &box)
	if err != nil {
		return nil, err
	}
	first, second := o.halves(s, r, path)
	if s, err = replace(s, first); err != nil {
		return nil, err
	}
	return add(s, second)
}

func (o SplitRun) halves(s *doc.Scheme, r *doc.Run, path []geom.Point) (first, second *doc.Run) {
	before, after := *r, *r
	legs := slices.Clone(r.Legs)
	switch o.At {
	case path[o.Leg]: // on the corner where the leg starts
		before.Legs, after.Legs = legs[:o.Leg], legs[o.Leg:]
	case path[o.Leg+1]:
		before.Legs, after.Legs = legs[:o.Leg+1], legs[o.Leg+1:]
	default:
		before.Legs, after.Legs = slices.Clone(legs[:o.Leg+1]), legs[o.Leg:]
	}
	after.ID, after.Tag = o.New, ""
	before.To, after.From = doc.End{On: o.Box.ID}, doc.End{On: o.Box.ID}
	before.Cut, after.Cut = q.Maybe[q.Metre]{}, q.Maybe[q.Metre]{}
	if _, ok := s.Lamps.Get(r.To.On); ok {
		before.Slack = 0
	} else {
		after.Slack = 0
	}
	return &before, &after
}

// sharer returns the tag of a run that has its cores in one cable with r, ""
// for none.
func sharer(s *doc.Scheme, r *doc.Run) string {
	if r.With != "" {
		return doc.TagOf(s, r.With)
	}
	for _, other := range s.Runs.All() {
		if other.With == r.ID {
			return other.Tag
		}
	}
	return ""
}
