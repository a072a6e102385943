package judge

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// Verdict is what a reading comes to.
type Verdict int

// A reading that is not there has no verdict. Unjudged is one that nothing can
// be compared with.
const (
	Unjudged Verdict = iota
	Pass             // meets its limit and is near what was expected
	Far              // meets its limit, but is far from what was expected
	Outside          // does not meet its limit
)

// String returns the words shown to people.
func (v Verdict) String() string {
	return [...]string{"not judged", "pass", "far from expected", "outside the limit"}[v]
}

// Judgement is a verdict with what led to it.
type Judgement struct {
	Verdict Verdict
	Level   finding.Level // of the finding when it is outside its limit
	// Text is one sentence; Points are what it points to, the nearest first.
	Text    string
	Points  []string
	Figure  string // what was read, corrected, with its unit
	Limit   string // with its unit; "" without one
	Source  finding.Source
	Working string
	Assumed []string
}

// Day is under what conditions a reading was taken.
type Day struct {
	Temperature q.Kelvin // of the conductors
	Said        bool     // the temperature was measured, not taken
	// Leads is the resistance of the test leads that the reading still holds;
	// unknown where they were zeroed or nobody said.
	Leads q.Maybe[q.Ohm]
}

// Ask is one test of one thing with the facts that it is judged by.
type Ask interface {
	// Expected is what a meter should show on that day, "" where nothing follows.
	Expected(Day) string
	// Limit is what it must not pass, "" without one.
	Limit() string
	// Judge compares a value with both.
	Judge(Value, Day) Judgement
}

// practice is the source of what the trade does without writing it down.
var practice = finding.Source{Evidence: finding.Practice}

func memory(clause string) finding.Source {
	return finding.Source{Standard: "BS 7671:2018", Clause: clause, Evidence: finding.Memory}
}

// lines collects the working.
type lines struct{ b strings.Builder }

func (l *lines) add(format string, a ...any) { fmt.Fprintf(&l.b, format+"\n", a...) }

func fixed(v float64, digits int) string {
	s := strconv.FormatFloat(v, 'f', digits, 64)
	if strings.HasPrefix(s, "-") && strings.Trim(s, "-0.") == "" {
		s = s[1:]
	}
	return strings.Replace(s, "-", "−", 1)
}

func ohms(v float64) string { return fixed(v, 2) + " Ω" }

// figure writes a corrected reading with its bound.
func figure(b Bound, v float64, write func(float64) string) string {
	return [...]string{"", "more than ", "less than ", ""}[b] + write(v)
}

// unread says that the bound that a meter showed does not settle the matter.
func unread(v Value, t Test, against string) Judgement {
	return Judgement{Verdict: Unjudged, Figure: v.Text(t),
		Text: v.Text(t) + " does not tell whether it is " + against + ": read it again in another range"}
}

// band is how far a reading of ohms may lie from what is expected:
//
//	expected·(1 - less) - floor ... expected·(1 + more) + floor + joints
//
// Common practice, no source: lengths as laid differ from the drawing, cable reads
// less than the largest resistance of its standard, and a meter shows hundredths.
type band struct{ expected, low, high float64 }

const (
	floorOhm = 0.05 // a few hundredths that a meter and its leads are off
	moreOhm  = 0.10
	lessOhm  = 0.15
	jointOhm = 0.02 // each, the upper of 0.01 to 0.02 Ω
)

func bandOf(expected float64, joints int) band {
	return band{expected, math.Max(0, expected*(1-lessOhm)-floorOhm), expected*(1+moreOhm) + floorOhm + jointOhm*float64(joints)}
}

// place says where v lies: -1 below the band, 1 above, 0 within; ok is false when
// the bound does not tell.
func (b band) place(v float64, bound Bound) (int, bool) {
	switch bound {
	case Open:
		return 1, true
	case Above:
		return 1, v >= b.high
	case Below:
		if v <= b.low {
			return -1, true
		}
		return 0, v <= b.high // somewhere from 0: not high, and a meter shows no less
	}
	switch {
	case v > b.high:
		return 1, true
	case v < b.low:
		return -1, true
	}
	return 0, true
}

// less takes the leads off a reading of ohms.
func (d Day) less(v Value, w *lines) float64 {
	r := v.SI
	if d.Leads.Known && v.Bound != Open {
		r = math.Max(0, r-float64(d.Leads.Value))
		w.add("read %s, less the leads %s = %s", ohms(v.SI), ohms(float64(d.Leads.Value)), ohms(r))
	}
	return r
}

// taken tells an assumed temperature.
func (d Day) taken() []string {
	if d.Said {
		return nil
	}
	return []string{"temperature of the conductors taken as " + d.Temperature.String()}
}
