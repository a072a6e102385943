package judge

import (
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// Outer is the external loop Ze at the board, or the resistance of the electrode.
// It has no limit of its own: what comes of it is judged by the rules, from the
// survey.
type Outer struct {
	Surveyed  q.Maybe[q.Ohm]
	Electrode bool
	// Declared is what distributors declare at most for the earthing, 0 for none
	// (from memory); for an electrode the guide above which it may not be stable.
	Declared q.Ohm
	Source   finding.Source
}

// Expected implements Ask.
func (o Outer) Expected(Day) string {
	if !o.Surveyed.Known {
		return ""
	}
	return ohms(float64(o.Surveyed.Value))
}

// Limit implements Ask.
func (o Outer) Limit() string { return "" }

// outerShare is how far a reading of the outer loop may lie from the survey's,
// with loopFloor: it moves with the load of the network. An electrode moves more,
// with the weather. Common practice, no source.
const outerShare, electrodeShare = 0.30, 0.50

// Judge implements Ask.
func (o Outer) Judge(v Value, _ Day) Judgement {
	j := Judgement{Verdict: Pass, Level: finding.Decide, Source: practice, Figure: figure(v.Bound, v.SI, ohms), Text: figure(v.Bound, v.SI, ohms)}
	var w lines
	switch {
	case v.Bound == Open:
		j.Verdict, j.Level, j.Source, j.Figure = Outside, finding.Stop, memory("643.7.3"), "over range"
		j.Text, j.Points = "no earth within the range of the meter", []string{"the means of earthing is not connected"}
		return j
	case v.Bound != Exact && !(v.Bound == Above && o.Declared > 0 && v.SI >= float64(o.Declared)):
		return unread(v, Ze, "near the survey")
	case o.Declared > 0 && (v.SI > float64(o.Declared)+1e-9 || v.Bound == Above):
		w.add("%s against %s", ohms(v.SI), ohms(float64(o.Declared)))
		j.Verdict, j.Source = Far, o.Source
		j.Text = j.Figure + " is more than the " + ohms(float64(o.Declared)) + " that is usually declared"
		j.Points = []string{"a poor connection of the means of earthing: ask the distributor"}
		if o.Electrode {
			j.Text = j.Figure + " is above the " + ohms(float64(o.Declared)) + " from which an electrode may not be stable"
			j.Points = []string{"dry ground: measure again in dry weather, or add a rod"}
		}
	case o.Surveyed.Known:
		share := outerShare
		if o.Electrode {
			share = electrodeShare
		}
		want := float64(o.Surveyed.Value)
		tol := loopFloor + share*want
		w.add("survey %s, near enough within %s (common practice, no source)", ohms(want), ohms(tol))
		j.Text += " against " + ohms(want) + " of the survey"
		if v.SI > want+tol || v.SI < want-tol {
			j.Verdict = Far
			j.Points = []string{"the survey's figure is no longer so: enter this one there, so that every loop is judged by it"}
			if v.SI < want {
				j.Points = append(j.Points, "bonding or other earths were still connected when it was measured")
			}
		}
	default:
		j.Verdict, j.Text = Unjudged, j.Text+"; the survey has no figure to compare it with"
	}
	j.Working = w.b.String()
	return j
}

// Fault is the prospective fault current at the board.
type Fault struct {
	Breaking q.Ampere // least breaking capacity of what stands there, 0 unknown
	Device   string
	Surveyed q.Maybe[q.Ampere]
}

func kiloamps(v float64) string { return fixed(v/1e3, 2) + " kA" }

// Expected implements Ask.
func (f Fault) Expected(Day) string {
	if !f.Surveyed.Known {
		return ""
	}
	return kiloamps(float64(f.Surveyed.Value))
}

// Limit implements Ask.
func (f Fault) Limit() string {
	if f.Breaking <= 0 {
		return ""
	}
	return "at most " + kiloamps(float64(f.Breaking))
}

// Judge implements Ask.
func (f Fault) Judge(v Value, _ Day) Judgement {
	j := Judgement{Verdict: Pass, Level: finding.Stop, Limit: f.Limit(), Source: memory("434.5.1"), Figure: figure(v.Bound, v.SI, kiloamps)}
	j.Text = j.Figure
	switch {
	case v.Bound == Open || f.Breaking > 0 && v.SI > float64(f.Breaking) && v.Bound != Below:
		j.Verdict = Outside
		j.Text += " is more than " + f.Device + " breaks"
		if v.Bound == Open {
			j.Figure, j.Text, j.Verdict, j.Level = "over range", "over the range of the meter", Unjudged, finding.Note
		}
		j.Points = []string{"a device of higher breaking capacity, or backup proved by the maker's figures"}
		return j
	case v.Bound == Below || v.Bound == Exact && v.SI == 0:
		j.Verdict, j.Text = Unjudged, j.Text+" is no fault current of a board: read it again"
		j.Points = []string{"no supply there, or a lead of the meter is open"}
		return j
	case v.Bound != Exact:
		return unread(v, FaultCurrent, f.Limit())
	case f.Surveyed.Known && (v.SI > 1.5*float64(f.Surveyed.Value) || v.SI < float64(f.Surveyed.Value)/1.5):
		j.Verdict, j.Source = Far, practice
		j.Text += " against " + kiloamps(float64(f.Surveyed.Value)) + " of the survey, half as much again or more apart (common practice, no source)"
		j.Points = []string{"enter the larger of line to neutral and line to earth in the survey", "measured behind a cable, or with another network switched"}
	case f.Breaking <= 0:
		j.Verdict, j.Text = Unjudged, j.Text+"; the breaking capacity is not known"
	}
	return j
}

// MainsVolts is the voltage at the supply point: 230 V + 10 %, - 6 %. Source: BS
// EN 50160 and the supply regulations of the UK (from memory).
type MainsVolts struct{ Nominal q.Volt }

const mainsMore, mainsLess = 0.10, 0.06

func (m MainsVolts) bounds() (low, high float64) {
	return float64(m.Nominal) * (1 - mainsLess), float64(m.Nominal) * (1 + mainsMore)
}

// Expected implements Ask.
func (m MainsVolts) Expected(Day) string { return m.Nominal.String() }

// Limit implements Ask.
func (m MainsVolts) Limit() string {
	low, high := m.bounds()
	return fixed(low, 0) + " to " + fixed(high, 0) + " V"
}

// Judge implements Ask.
func (m MainsVolts) Judge(v Value, _ Day) Judgement {
	j := Judgement{Verdict: Pass, Level: finding.Decide, Limit: m.Limit(), Figure: figure(v.Bound, v.SI, volts),
		Source: finding.Source{Standard: "BS EN 50160", Evidence: finding.Memory}}
	low, high := m.bounds()
	j.Text = j.Figure + " of " + m.Nominal.String()
	if v.Bound != Exact {
		return unread(v, Volts, "within "+m.Limit())
	}
	if v.SI < low-1e-9 || v.SI > high+1e-9 {
		j.Verdict, j.Text = Outside, j.Figure+" is outside "+m.Limit()
		j.Points = []string{"ask the distributor", "a poor neutral when it moves with the load"}
	}
	return j
}

// Clamp is the standing leakage, by clamp, against the share of the rated residual
// current that the rule set allows.
type Clamp struct {
	Most   q.Maybe[q.Ampere]
	Device string
	Source finding.Source
}

func milliamps(v float64) string { return fixed(v*1e3, 1) + " mA" }

// Expected implements Ask.
func (c Clamp) Expected(Day) string { return "" }

// Limit implements Ask.
func (c Clamp) Limit() string {
	if !c.Most.Known {
		return ""
	}
	return "at most " + milliamps(float64(c.Most.Value))
}

// Judge implements Ask.
func (c Clamp) Judge(v Value, _ Day) Judgement {
	j := Judgement{Verdict: Pass, Level: finding.Decide, Limit: c.Limit(), Source: c.Source, Figure: figure(v.Bound, v.SI, milliamps)}
	j.Text = j.Figure
	switch {
	case !c.Most.Known:
		if j.Verdict = Unjudged; v.Bound == Open {
			j.Figure = "over range"
		}
		j.Text = j.Figure + "; no residual device is known to compare it with"
	case v.Bound == Open || v.SI > float64(c.Most.Value)+1e-12 && v.Bound != Below:
		if v.Bound == Open {
			j.Figure, j.Text = "over range", "over the range of the meter"
		}
		j.Verdict, j.Text = Outside, j.Text+" is more than the share of "+c.Device+", "+c.Limit()
		j.Points = []string{"switch the zones off one after the other: the one with which it falls holds the damp lamp or the filter", "what was there before the garden: clamp with the garden off"}
	case v.Bound != Exact && v.SI > float64(c.Most.Value), v.Bound == Above:
		return unread(v, Leakage, c.Limit())
	}
	return j
}
