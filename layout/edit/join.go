package edit

import (
	"slices"

	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// joinReach is how far apart two open ends may be to count as one place.
const joinReach = 50 * geom.Millimetre

// JoinRuns makes one run of two of the same cable that meet at a box, or whose
// open ends lie at one place. The box goes when nothing else is on it, and with
// it the decisions about it. The first run keeps id, tag and direction. Slacks
// add up; a measured length is no longer known, and a cutting allowance only
// when both have the same.
type JoinRuns struct{ A, B doc.ID }

// Name implements Operation.
func (o JoinRuns) Name() string { return "Join runs" }

func (o JoinRuns) title(s *doc.Scheme) string {
	return "Join " + doc.TagOf(s, o.A) + " and " + doc.TagOf(s, o.B)
}

// Apply implements Operation.
func (o JoinRuns) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	a, err := o.run(s, o.A)
	if err != nil {
		return nil, err
	}
	b, err := o.run(s, o.B)
	if err != nil {
		return nil, err
	}
	if a == b {
		return nil, refuse("joining takes two runs, found only %s", a.Tag)
	}
	if a.Cable != b.Cable {
		return nil, refuse("%s is %s and %s is %s; only runs of one cable can be joined", a.Tag, cableName(a), b.Tag, cableName(b))
	}
	m, err := meeting(s, a, b)
	if err != nil {
		return nil, err
	}
	joined := m.run(s, a, b)
	gone := []doc.ID{b.ID}
	if box, ok := s.Boxes.Get(m.box); ok && len(doc.RunsAt(s, m.box)) == 2 {
		if err := loose(box); err != nil {
			return nil, err
		}
		gone = append(gone, m.box)
	}
	// First the run, so that its end is not left in the air by the deletion.
	n, err := replace(s, joined)
	if err != nil {
		return nil, err
	}
	return Delete{IDs: gone}.Apply(n)
}

func (o JoinRuns) run(s *doc.Scheme, id doc.ID) (*doc.Run, error) {
	r, ok := s.Runs.Get(id)
	if !ok {
		return nil, unknown(s, id, "run")
	}
	if other := sharer(s, r); other != "" {
		return nil, refuse("%s shares its cable with %s; give each a cable of its own first", r.Tag, other)
	}
	return r, loose(r)
}

func cableName(r *doc.Run) string {
	if r.Cable == "" {
		return "without a cable chosen"
	}
	return r.Cable
}

// meet is which end of one run meets which end of the other.
type meet struct {
	aFrom, bFrom bool
	box          doc.ID // "" for open ends
}

// meeting finds where two runs meet: at a box before open ends.
func meeting(s *doc.Scheme, a, b *doc.Run) (meet, error) {
	var found []meet
	between, nearest := doc.ID(""), geom.Length(-1)
	for _, m := range []meet{{false, true, ""}, {false, false, ""}, {true, true, ""}, {true, false, ""}} {
		x, y := endOf(a, m.aFrom), endOf(b, m.bFrom)
		switch _, box := s.Boxes.Get(x.On); {
		case x.On != "" && x.On == y.On && box:
			m.box = x.On
			found = append(found, m)
		case x.On != "" && x.On == y.On:
			between = x.On
		case x.On == "" && y.On == "":
			d := geom.Distance(x.At, y.At)
			if d <= joinReach {
				found = append(found, m)
			}
			if nearest < 0 || d < nearest {
				nearest = d
			}
		}
	}
	for _, m := range found {
		// Not a pair of runs that would then end where it starts.
		far, other := endOf(a, !m.aFrom), endOf(b, !m.bFrom)
		if far.On == "" || far.On != other.On {
			return m, nil
		}
	}
	switch {
	case len(found) > 0:
		return meet{}, refuse("%s and %s together end where they start", a.Tag, b.Tag)
	case between != "":
		return meet{}, refuse("%s and %s meet at %s %s, which stays between them; only a box can be taken out", a.Tag, b.Tag, doc.KindOf(s, between), doc.TagOf(s, between))
	case nearest >= 0:
		return meet{}, refuse("the open ends of %s and %s are %s apart; drag one onto the other first", a.Tag, b.Tag, doc.Written(nearest/geom.Millimetre*geom.Millimetre))
	}
	return meet{}, refuse("%s and %s meet neither at a box nor at open ends", a.Tag, b.Tag)
}

func endOf(r *doc.Run, from bool) doc.End {
	if from {
		return r.From
	}
	return r.To
}

// run returns a with b added to the end where they meet.
func (m meet) run(s *doc.Scheme, a, b *doc.Run) *doc.Run {
	at := doc.EndPoint(s, endOf(a, m.aFrom))
	first, second := a, b
	if m.aFrom { // b comes before a
		first, second = b, a
		if m.bFrom {
			first = backwards(s, b)
		}
	} else if !m.bFrom {
		second = backwards(s, b)
	}
	c := *a
	c.From, c.To = first.From, second.To
	c.Legs = append(slices.Clone(first.Legs), second.Legs...)
	c.Legs[len(first.Legs)-1].To = at
	c.Slack = a.Slack + b.Slack
	c.Cut = q.Maybe[q.Metre]{}
	if a.Waste != b.Waste {
		c.Waste = q.Maybe[doc.Ratio]{}
	}
	return &c
}

// backwards returns the run drawn from its end to its start.
func backwards(s *doc.Scheme, r *doc.Run) *doc.Run {
	path := doc.RunPath(s, r)
	c := *r
	c.From, c.To = r.To, r.From
	c.Legs = slices.Clone(r.Legs)
	slices.Reverse(c.Legs)
	for i := range c.Legs {
		c.Legs[i].To = path[len(path)-2-i]
	}
	return tidy(&c)
}
