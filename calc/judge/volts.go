package judge

import (
	"math"

	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// LampVolts is the voltage at a point of extra-low voltage with everything on.
// Limits are those of the lamp's maker; more than 0.2 V off what is expected
// points to a bad joint, a wrong cable or a wrong tap (common practice, no
// source).
type LampVolts struct {
	Expect    q.Maybe[q.Volt]
	Low, High q.Volt   // of the lamp, 0 unknown
	Through   q.Ampere // current through the point
	Output    bool     // of the source itself
	Source    string   // label of the source that feeds it
	Across    bool     // a lamp of a constant-current string: volts across it
	DC        bool
	// Before is what was read at the point before, and what is expected there; Via
	// is the run between and Flow the current in it.
	Before struct {
		Label        string
		Read, Expect q.Maybe[q.Volt]
		Via          string
		Flow         q.Ampere
	}
	// Start is by how much the source itself read too much; unknown where it was
	// not read.
	Start q.Maybe[q.Volt]
}

const (
	nearVolts = 0.2
	nearShare = 0.10 // of the volts across a lamp of a string, whose makers' figures spread
)

func volts(v float64) string { return fixed(v, 2) + " V" }

// Expected implements Ask.
func (l LampVolts) Expected(Day) string {
	if !l.Expect.Known {
		return ""
	}
	return volts(float64(l.Expect.Value))
}

// Limit implements Ask.
func (l LampVolts) Limit() string {
	switch {
	case l.Low > 0 && l.High > 0:
		return volts(float64(l.Low)) + " to " + volts(float64(l.High))
	case l.Low > 0:
		return "at least " + volts(float64(l.Low))
	case l.High > 0:
		return "at most " + volts(float64(l.High))
	}
	return ""
}

var makerSource = finding.Source{Clause: "the lamp's maker"}

// Judge implements Ask.
func (l LampVolts) Judge(v Value, _ Day) Judgement {
	j := Judgement{Verdict: Pass, Level: finding.Stop, Limit: l.Limit(), Source: makerSource, Figure: figure(v.Bound, v.SI, volts)}
	var w lines
	j.Text = j.Figure
	if v.Bound != Exact {
		return unread(v, Volts, "what is expected")
	}
	if l.DC && v.SI < -nearVolts {
		j.Verdict, j.Source = Outside, finding.Source{Clause: "polarity of direct current", Evidence: finding.Practice}
		j.Text = j.Figure + ": plus and minus are reversed here"
		j.Points = []string{"the cores are swapped at this point or in the box before it: it may not light, or be damaged"}
		return j
	}
	low := l.Low > 0 && v.SI < float64(l.Low)-1e-9
	if high := l.High > 0 && v.SI > float64(l.High)+1e-9; low || high {
		w.add("%s against %s", volts(v.SI), l.Limit())
		j.Verdict, j.Text = Outside, j.Figure+" is outside what the lamp's maker allows, "+l.Limit()
		j.Points = l.points(v.SI)
		j.Working = l.working(&w)
		return j
	}
	if !l.Expect.Known {
		j.Text += "; what is expected is not known"
		if l.Limit() == "" {
			j.Verdict = Unjudged
		}
		return j
	}
	want := float64(l.Expect.Value)
	tol := nearVolts
	if l.Across {
		tol = math.Max(tol, nearShare*want)
	}
	w.add("expected %s, near enough within %s (common practice, no source)", volts(want), volts(tol))
	j.Text += " against " + volts(want) + " expected"
	if math.Abs(v.SI-want) > tol+1e-9 {
		j.Verdict, j.Source, j.Points = Far, practice, l.points(v.SI)
	}
	j.Working = l.working(&w)
	return j
}

// working adds what the run before it loses.
func (l LampVolts) working(w *lines) string {
	if b := &l.Before; b.Read.Known && b.Expect.Known {
		w.add("at %s before it: read %s, expected %s", b.Label, volts(float64(b.Read.Value)), volts(float64(b.Expect.Value)))
	}
	return w.b.String()
}

func (l LampVolts) points(r float64) (out []string) {
	if math.Abs(r) < 1 {
		return []string{"no volts: an open conductor or connector before it, or a fuse of the source"}
	}
	if !l.Expect.Known {
		return []string{"the source's tap, or the cable to here"}
	}
	off := r - float64(l.Expect.Value)
	switch {
	case l.Output && off < 0:
		return []string{"the source gives less: a wrong tap, more load than drawn, or low mains", "a regulated source gives way when it is overloaded"}
	case l.Output:
		return []string{"the source gives more: not every lamp is on, or a wrong tap"}
	case l.Across && off < 0:
		return []string{"another lamp than drawn, or some of its diodes are shorted"}
	case l.Across:
		return []string{"another lamp than drawn, or a poor contact inside it"}
	case off > 0 && !l.Start.Known:
		return []string{"not every lamp was on, or a wrong tap: read " + l.from() + " itself", "thicker or shorter cable than drawn"}
	case off > 0 && float64(l.Start.Value) > off/2:
		return []string{l.from() + " itself reads too much: not every lamp on, or a wrong tap"}
	case off > 0:
		return []string{"not every lamp beyond was on, or thicker or shorter cable than drawn"}
	}
	if l.Start.Known && -float64(l.Start.Value) > -off/2 {
		return []string{l.from() + " itself reads too little by " + volts(-float64(l.Start.Value)) + ": its tap, its load or the mains"}
	}
	if b := &l.Before; b.Read.Known && b.Expect.Known {
		before := float64(b.Read.Value - b.Expect.Value)
		here := off - before
		if here > off/2 {
			return []string{b.Label + " before it is low as well: look nearer the source"}
		}
		s := b.Label + " before it is nearly right, so " + b.Via + " loses " + volts(-here) + " too much"
		if b.Flow > 0 {
			s += ", about " + ohms(-here/float64(b.Flow)) + " at " + b.Flow.String()
		}
		return []string{s + ": a poor joint at one of its ends", "or thinner or longer cable than drawn there"}
	}
	return []string{"a poor joint on the way, or thinner or longer cable than drawn", "read the point before it: where the step is, there is the fault"}
}

func (l LampVolts) from() string {
	if l.Source == "" {
		return "the source"
	}
	return l.Source
}
