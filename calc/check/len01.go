package check

import (
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// DrumUse is one coil or drum with what is cut from it.
type DrumUse struct {
	Cable string // name of the cable
	Drum  q.Metre
	Cut   q.Metre // sum of the cut lengths
	Runs  []finding.Subject
}

// Drums returns LEN-01, a Note for every drum that leaves less than the
// wanted spare: one wrong cut and the cable is a metre short. A drum that is
// too short for its cuts is noted too. Source: trade habit.
func Drums(uses []DrumUse, limits Limits) []finding.Finding {
	var out []finding.Finding
	for _, u := range uses {
		want := float64(u.Drum) * limits.SpareOnDrum.Value
		spare := float64(u.Drum - u.Cut)
		// A tenth of a millimetre of slack for sums of cut lengths.
		if u.Drum <= 0 || spare >= want-1e-4 {
			continue
		}
		f := finding.Finding{Code: "LEN-01", Level: finding.Note, Source: limits.SpareOnDrum.Source,
			Figure: q.Metre(spare).String(), Limit: "at least " + q.Metre(want).String(),
			Text: "a drum of " + u.Drum.String() + " of " + u.Cable + " leaves " + q.Metre(spare).String()}
		if len(u.Runs) > 0 {
			f.Subject, f.Also = u.Runs[0], u.Runs[1:]
		}
		var w lines
		w.add("spare = drum - cuts = %s - %s = %s", u.Drum, u.Cut, q.Metre(spare))
		w.add("wanted: %s of the drum = %s", q.Percent(limits.SpareOnDrum.Value), q.Metre(want))
		f.Working = w.String()
		f.Remedies = []finding.Remedy{{Text: "order a longer drum, or shorten a run by moving its box"}}
		out = append(out, f)
	}
	return out
}

// DrumRule is the entry of LEN-01 for lists of codes; it needs the cut list of
// the whole scheme and is run by Drums, not with the rules of one circuit.
var DrumRule = Rule{Code: "LEN-01", Title: "Nothing spare on the drum"}
