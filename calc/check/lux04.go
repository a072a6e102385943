package check

import (
	"duskwire/calc/finding"
)

// intoEyes is LUX-04: lamps that send more than so many candela towards the eyes
// of who sits at a seat or goes along a walk within reach. One Note a place, since
// the thresholds are an engineer's and no standard's. A beam that GLR-01 reports
// at the same seat is not told again. Source: common practice, no source.
func intoEyes(u *LuxFacts, r *LightLimits, emit func(finding.Finding)) {
	if r.Seen.Value <= 0 {
		return
	}
	for i := range u.Eyes {
		e := &u.Eyes[i]
		n := 0
		for n < len(e.From) && !within(float64(e.From[n].Toward), r.Seen.Value) {
			n++
		}
		if n > 0 {
			emit(eyeFinding(u, r, e, n))
		}
	}
}

func eyeFinding(u *LuxFacts, r *LightLimits, e *LuxEye, n int) finding.Finding {
	worst := &e.From[0]
	f := finding.Finding{Code: "LUX-04", Level: finding.Note, Subject: e.Subject, Source: r.Seen.Source,
		Figure: num(float64(worst.Toward), 0) + " cd by " + worst.Label, Limit: "at most " + num(r.Seen.Value, 0) + " cd within " + spanOf(r.SeenReach)}
	who := "who sits at "
	if e.Walk {
		who = "who goes along "
	}
	dazzles := "is bright in the eyes of "
	if r.SeenHard.Value > 0 && float64(worst.Toward) > r.SeenHard.Value {
		dazzles = "dazzles "
	}
	f.Text = worst.Label + " " + dazzles + who + e.Label + ": " + num(float64(worst.Toward), 0) + " cd at " + worst.Distance.String()
	var w lines
	w.add("eyes %s above ground; intensity towards them, no cosine, no distance", span(e.Height))
	for i := range e.From[:n] {
		l := &e.From[i]
		w.add("%s: %s cd at %s", l.Label, num(float64(l.Toward), 0), l.Distance)
		f.Also = append(f.Also, l.Subject)
	}
	w.add("told above %s cd, called dazzling above %s cd; lamps within %s, from 45° below the eyes to 20° above", num(r.Seen.Value, 0), num(r.SeenHard.Value, 0), spanOf(r.SeenReach))
	w.add("new lamps at their volts; how large the bright face is and how dark its surroundings are is not looked at")
	w.add("computed, not measured")
	f.Working = w.String()
	f.Remedies = []finding.Remedy{
		{Text: "turn or tilt it away, or put a louvre or shield before it"},
		{Text: "use a lamp of fewer lumens or a wider beam"},
	}
	return f
}
