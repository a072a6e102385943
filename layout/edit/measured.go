package edit

import (
	"slices"

	"duskwire/layout/doc"
)

// SetReading writes down what was read on a visit; it takes the place of what that
// visit read of the same thing before. A Visit of one more than there are begins
// a new one with the head New.
type SetReading struct {
	Visit   int
	New     doc.Visit
	Reading doc.Reading
}

// Name implements Operation.
func (o SetReading) Name() string { return "Enter reading" }

func (o SetReading) title(s *doc.Scheme) string {
	return "Enter " + o.Reading.Test.String() + " of " + doc.TagOf(s, o.Reading.On)
}

// Apply implements Operation.
func (o SetReading) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	if o.Visit < 0 || o.Visit > len(s.Visits) {
		return nil, refuse("there is no visit %d, there are %d", o.Visit+1, len(s.Visits))
	}
	visits := slices.Clone(s.Visits)
	if o.Visit == len(visits) {
		visits = append(visits, o.New.Head())
	}
	v := &visits[o.Visit]
	at := readingAt(v, o.Reading.Asked)
	if at >= 0 && v.Readings[at] == o.Reading {
		return s, nil
	}
	v.Readings = slices.Clone(v.Readings)
	if at >= 0 {
		v.Readings[at] = o.Reading
	} else {
		v.Readings = append(v.Readings, o.Reading)
	}
	return setVisits(s, visits, o.Visit)
}

// setVisits puts the visits into the scheme if the one that changed is right.
func setVisits(s *doc.Scheme, visits []doc.Visit, changed int) (*doc.Scheme, error) {
	n := *s
	n.Visits = visits
	if list := doc.CheckVisit(&n, changed); len(list) > 0 {
		return nil, &Refused{list[0].Error()}
	}
	return &n, nil
}

func readingAt(v *doc.Visit, a doc.Asked) int {
	return slices.IndexFunc(v.Readings, func(r doc.Reading) bool { return r.Asked == a })
}

// ClearReading takes a reading of a visit out: it was not measured.
type ClearReading struct {
	Visit int
	Asked doc.Asked
}

// Name implements Operation.
func (o ClearReading) Name() string { return "Clear reading" }

func (o ClearReading) title(s *doc.Scheme) string {
	return "Clear " + o.Asked.Test.String() + " of " + doc.TagOf(s, o.Asked.On)
}

// Apply implements Operation.
func (o ClearReading) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	if o.Visit < 0 || o.Visit >= len(s.Visits) {
		return nil, refuse("there is no visit %d, there are %d", o.Visit+1, len(s.Visits))
	}
	at := readingAt(&s.Visits[o.Visit], o.Asked)
	if at < 0 {
		return nil, refuse("%s of %s was not read on that visit", o.Asked.Test, doc.TagOf(s, o.Asked.On))
	}
	visits := slices.Clone(s.Visits)
	v := &visits[o.Visit]
	v.Readings = slices.Delete(slices.Clone(v.Readings), at, at+1)
	return setHead(s, func(n *doc.Scheme) { n.Visits = visits })
}

// SetVisit changes what is said of a visit: date, hand, temperature, leads,
// instrument. The readings stay. One more than there are begins a new visit.
type SetVisit struct {
	Visit int
	Head  doc.Visit
}

// Name implements Operation.
func (o SetVisit) Name() string { return "Change day of testing" }

// Apply implements Operation.
func (o SetVisit) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	if o.Visit < 0 || o.Visit > len(s.Visits) {
		return nil, refuse("there is no visit %d, there are %d", o.Visit+1, len(s.Visits))
	}
	visits := slices.Clone(s.Visits)
	next := o.Head.Head()
	if o.Visit == len(visits) {
		visits = append(visits, next)
	} else {
		next.Readings = visits[o.Visit].Readings
		if sameHead(next, visits[o.Visit]) {
			return s, nil
		}
		visits[o.Visit] = next
	}
	return setVisits(s, visits, o.Visit)
}

func sameHead(a, b doc.Visit) bool {
	return a.On == b.On && a.By == b.By && a.Temperature == b.Temperature && a.Leads == b.Leads && a.Instrument == b.Instrument && a.Remark == b.Remark
}

// DropVisit takes a visit out with all its readings.
type DropVisit struct{ Visit int }

// Name implements Operation.
func (o DropVisit) Name() string { return "Remove day of testing" }

// Apply implements Operation.
func (o DropVisit) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	if o.Visit < 0 || o.Visit >= len(s.Visits) {
		return nil, refuse("there is no visit %d, there are %d", o.Visit+1, len(s.Visits))
	}
	return setHead(s, func(n *doc.Scheme) { n.Visits = slices.Delete(slices.Clone(s.Visits), o.Visit, o.Visit+1) })
}

// MarkIssued keeps the design as it is now as the one that was handed to the
// site. It takes the place of an earlier one.
type MarkIssued struct{ On, By string }

// Name implements Operation.
func (o MarkIssued) Name() string { return "Mark as issued for site" }

// Apply implements Operation.
func (o MarkIssued) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	return setHead(s, func(n *doc.Scheme) { n.Issue = &doc.Issue{On: o.On, By: o.By, Scheme: doc.Issued(s)} })
}

// TakeBackIssue forgets the design as issued.
type TakeBackIssue struct{}

// Name implements Operation.
func (o TakeBackIssue) Name() string { return "Take the mark of issue back" }

// Apply implements Operation.
func (o TakeBackIssue) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	if s.Issue == nil {
		return nil, refuse("the design was not marked as issued")
	}
	return setHead(s, func(n *doc.Scheme) { n.Issue = nil })
}

// unread returns the visits without the readings of what goes, and whether any
// went.
func unread(visits []doc.Visit, gone map[doc.ID]bool) ([]doc.Visit, bool) {
	of := func(r doc.Reading) bool { return gone[r.On] }
	var out []doc.Visit
	for i := range visits {
		if !slices.ContainsFunc(visits[i].Readings, of) {
			continue
		}
		if out == nil {
			out = slices.Clone(visits)
		}
		out[i].Readings = slices.DeleteFunc(slices.Clone(visits[i].Readings), of)
	}
	return out, out != nil
}
