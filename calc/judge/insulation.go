package judge

import (
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// Insulation is an insulation resistance at its test voltage. Limits: BS 7671
// Table 64; below 2 MΩ the cause is looked for and new cable reads over 200 MΩ
// (common practice, no source).
type Insulation struct {
	At        q.Volt
	Least     q.Ohm
	Between   string // "L and N", "the live conductors and earth", ...
	Live      bool   // between live conductors: what is connected shows
	Low       bool   // at half the voltage, with electronics left in
	Source    finding.Source
	Connected string // what has to be disconnected: "lamps L1 to L4; G1"
	Halfway   string // a box or lamp to split the circuit at, "" for none
	// Others are the other insulation readings of the same part, in Ω; unknown
	// where they were not taken.
	LiveReads, EarthReads, LowReads q.Maybe[q.Ohm]
}

const (
	lookInto = 2e6   // Ω, below it the cause is looked for
	healthy  = 200e6 // Ω, what new garden cable reads at least
)

func megohms(v float64) string {
	if v >= 1e7 {
		return fixed(v/1e6, 0) + " MΩ"
	}
	return fixed(v/1e6, 2) + " MΩ"
}

// Expected implements Ask.
func (i Insulation) Expected(Day) string { return "over " + megohms(healthy) }

// Limit implements Ask.
func (i Insulation) Limit() string { return "at least " + fixed(float64(i.Least)/1e6, 1) + " MΩ" }

// Judge implements Ask.
func (i Insulation) Judge(v Value, _ Day) Judgement {
	j := Judgement{Verdict: Pass, Level: finding.Stop, Limit: i.Limit(), Source: i.Source, Figure: figure(v.Bound, v.SI, megohms)}
	var w lines
	w.add("%s at %s: %s", i.Between, i.At, v.Text(InsulationEarth))
	w.add("limit %s; the cause is looked for below %s, new cable reads over %s (common practice, no source)", i.Limit(), megohms(lookInto), megohms(healthy))
	j.Working = w.b.String()
	least := float64(i.Least)
	switch {
	case v.Bound == Open:
		j.Figure, j.Text = "over range", "over the range of the meter at "+i.At.String()
	case v.Bound == Above && v.SI < least:
		return unread(v, InsulationEarth, i.Limit())
	case v.SI < least || v.Bound == Below && v.SI <= least:
		j.Verdict = Outside
		j.Text = j.Figure + " between " + i.Between + "; " + i.Limit() + " is asked for"
		j.Points = i.points(v.SI)
	case v.Bound == Below:
		return unread(v, InsulationEarth, i.Limit())
	case v.SI < lookInto && v.Bound == Exact:
		j.Verdict, j.Source = Far, practice
		j.Text = j.Figure + " between " + i.Between + " meets its limit, but is far below what new cable reads"
		j.Points = i.points(v.SI)
	case v.SI < healthy && v.Bound == Exact:
		j.Text = j.Figure + " meets its limit; new cable reads over " + megohms(healthy)
		j.Points = []string{"damp in a gland or box, or something left connected"}
	default:
		j.Text = j.Figure + " at " + i.At.String()
	}
	return j
}

func (i Insulation) points(v float64) (out []string) {
	good := func(m q.Maybe[q.Ohm]) bool { return m.Known && float64(m.Value) >= lookInto }
	switch {
	case i.Live && good(i.EarthReads):
		out = append(out, "good to earth, so the cable is dry: something between line and neutral is left in")
	case !i.Live && !i.Low && good(i.LowReads):
		out = append(out, "good at 250 V: electronics with a filter to earth are left in, rather than damp")
	case !i.Live && good(i.LiveReads):
		out = append(out, "good between the live conductors: one core to earth, so a nicked core or a wet gland rather than a flooded box")
	case !i.Live && i.LiveReads.Known:
		out = append(out, "low both ways: water in a box or a joint")
	}
	if i.Connected != "" && i.Connected != "nothing" && !i.Low {
		out = append(out, "still connected? "+i.Connected)
	}
	if v < 1e4 {
		out = append(out, "next to nothing: a core on metal, a screw or a nail through the cable")
	} else if !i.Live {
		out = append(out, "damp: a gland, a box, a lamp below ground")
	}
	if i.Halfway != "" {
		out = append(out, "to find which part: take it apart at "+i.Halfway+" and test both sides")
	}
	return out
}
