package doc

import (
	"strconv"

	"duskwire/calc/judge"
	q "duskwire/calc/quantity"
	"duskwire/layout/geom"
)

// Visit is one day of testing with what was read. The readings of a later visit
// take the place of earlier ones of the same thing; those stay as they were
// taken.
type Visit struct {
	On, By string
	// Temperature is that of the conductors on the day.
	Temperature q.Maybe[q.Kelvin]
	// Leads is the resistance of the test leads where the readings still hold it;
	// unknown where they were zeroed.
	Leads      q.Maybe[q.Ohm]
	Instrument string // with its number
	Remark     string
	Readings   []Reading
}

// Reading is what a meter showed. What was not measured has none: 0 is a reading.
type Reading struct {
	Asked
	Value  judge.Value
	Remark string
}

// Asked names what one reading is of: a test of an entity, and which part of it
// where it has several, the stock key of a device or "far end" of a strip.
type Asked struct {
	On   ID
	Test judge.Test
	Part string
}

// FarPart is the part that names the far end of a strip.
const FarPart = "far end"

// Head returns the visit without its readings.
func (v Visit) Head() Visit {
	v.Readings = nil
	return v
}

// Latest returns the last reading of everything that was read, with the number of
// its visit.
func Latest(s *Scheme) map[Asked]Taken {
	n := 0
	for i := range s.Visits {
		n += len(s.Visits[i].Readings)
	}
	if n == 0 {
		return nil
	}
	out := make(map[Asked]Taken, n)
	for i := range s.Visits {
		for k := range s.Visits[i].Readings {
			r := &s.Visits[i].Readings[k]
			out[r.Asked] = Taken{r, i}
		}
	}
	return out
}

// Taken is a reading with the number of its visit.
type Taken struct {
	*Reading
	Visit int
}

// Issue is the design as it was handed to the site: what is as built is compared
// with it. Scheme holds survey and circuit as they were and nothing else.
type Issue struct {
	On, By string
	Scheme *Scheme
}

// Issued returns the part of a scheme that an Issue keeps.
func Issued(s *Scheme) *Scheme {
	return &Scheme{
		Title: s.Title, Rules: s.Rules, Survey: s.Survey, Plan: New("").Plan,
		Supplies: s.Supplies, Boxes: s.Boxes, Lamps: s.Lamps, Gear: s.Gear, Sources: s.Sources, Runs: s.Runs, Zones: s.Zones,
	}
}

// Limits on what a file may hold of it.
const (
	ManyVisits   = 200
	ManyReadings = 100000 // of one visit
)

// checkVisits returns what must not be about the readings.
func checkVisits(s *Scheme) []*Problem {
	r := &report{s: s}
	if n := len(s.Visits); n > ManyVisits {
		r.name = "tests"
		r.add("", strconv.Itoa(n)+" visits", "at most "+strconv.Itoa(ManyVisits))
		return r.list
	}
	for i := range s.Visits {
		r.list = append(r.list, CheckVisit(s, i)...)
	}
	return r.list
}

// CheckVisit returns what is wrong with one visit and its readings.
func CheckVisit(s *Scheme, i int) []*Problem {
	v := &s.Visits[i]
	r := &report{s: s, name: visitName(i)}
	r.text("on", v.On)
	r.text("by", v.By)
	temperature(r, "temperature", v.Temperature, -50, 100)
	known(r, "leads", v.Leads, 0, 100, " ohm")
	r.text("instrument", v.Instrument)
	r.text("remark", v.Remark)
	if len(v.Readings) > ManyReadings {
		r.add("readings", strconv.Itoa(len(v.Readings)), "at most "+strconv.Itoa(ManyReadings))
		return r.list
	}
	seen := make(map[Asked]bool, len(v.Readings))
	r.part = "readings"
	for k := range v.Readings {
		r.nth = k + 1
		r.reading(&v.Readings[k], seen)
	}
	return r.list
}

func visitName(i int) string { return "visit " + strconv.Itoa(i+1) }

func (r *report) reading(e *Reading, seen map[Asked]bool) {
	switch kind := KindOf(r.s, e.On); {
	case e.Test == judge.Armour && kind != RunKind:
		r.add("of", strconv.Quote(string(e.On)), "the id of a run")
	case e.Test != judge.Armour && !kind.Joinable():
		r.add("of", strconv.Quote(string(e.On)), "the id of a supply point, box, lamp, gear or source")
	}
	if e.Test <= judge.NoTest || e.Test.Key() == "" {
		r.add("test", strconv.Itoa(int(e.Test)), "a test")
		return
	}
	if want := e.Value.Wrong(e.Test); want != "" {
		r.add("reads", strconv.Quote(e.Value.Text(e.Test)), want)
	}
	if seen[e.Asked] {
		r.add("test", strconv.Quote(e.Test.Key()), "one reading of it a visit")
	}
	seen[e.Asked] = true
	r.text("part", e.Part)
	r.text("remark", e.Remark)
}

// checkIssue returns what must not be about the design as issued.
func checkIssue(s *Scheme) []*Problem {
	if s.Issue == nil {
		return nil
	}
	r := &report{s: s, name: "issued"}
	r.text("on", s.Issue.On)
	r.text("by", s.Issue.By)
	if s.Issue.Scheme == nil {
		r.add("", "no design", "the design as it was")
		return r.list
	}
	was := *s.Issue.Scheme
	was.Rules, was.Plan, was.Issue, was.Visits = "issued", New("").Plan, nil, nil
	for _, p := range Problems(&was) {
		r.list = append(r.list, &Problem{Entity: "issued", Field: p.Entity + " " + p.Field, Found: p.Found, Expected: p.Expected})
		break
	}
	return r.list
}

// farMoved is how far a thing may stand from where it was designed before it
// counts as moved: what setting out with a tape gives.
const farMoved = 100 * geom.Millimetre

// Moved reports whether a place differs from the designed one by more than 0.1 m
// on the plan or in height, and by how much on the plan.
func Moved(was, is Place) (by geom.Length, moved bool) {
	by = geom.Distance(was.At, is.At)
	up := is.Height - was.Height
	return by, by > farMoved || up > farMoved || up < -farMoved
}
