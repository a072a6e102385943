package check

import (
	"strings"

	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// darkest is the illuminance that counts as none, where a limit is 0.
const darkest q.Lux = 0.01

// spill is LUX-02: upright illuminance at neighbours' windows and along the
// boundary against the environmental zone. Above the limit before curfew it is a
// Decide at what is the neighbour's and along the boundary, a Note at a window of
// which nobody said whose it is; above the limit after curfew alone a Note, since
// the lamps may be off by then. Own windows are not judged. Without a zone one
// Note gives the figures. What GLR-01 reports at a window is left out there.
// Source: CIE 150 and its national guidance, with each row.
func spill(u *LuxFacts, r *LightLimits, emit func(finding.Finding)) {
	before, early := r.spillRow(u.Zone, false)
	after, late := r.spillRow(u.Zone, true)
	if len(r.Spill) == 0 {
		return
	}
	over := func(v, limit q.Lux) bool { return v >= darkest && !within(float64(v), float64(limit)) }
	var groups [3]struct { // Decide, Note by the first limit, Note by the second
		list  []*LuxView
		worst int
	}
	for i := range u.Views {
		v := &u.Views[i]
		at := -1
		switch {
		case v.Window && v.Whose == "own" || v.Rest < darkest:
		case !early && !late:
			at = 2
		case early && over(v.Rest, before.Lux) && (!v.Window || v.Whose == "neighbour"):
			at = 0
		case early && over(v.Rest, before.Lux):
			at = 1
		case late && over(v.Rest, after.Lux):
			at = 2
		}
		if at < 0 {
			continue
		}
		g := &groups[at]
		if len(g.list) == 0 || v.Rest > g.list[g.worst].Rest {
			g.worst = len(g.list)
		}
		g.list = append(g.list, v)
	}
	for at := range groups {
		g := &groups[at]
		if len(g.list) == 0 {
			continue
		}
		f := spillFinding(u, r, g.list[g.worst], at)
		for k, v := range g.list {
			if k != g.worst {
				f.Also = append(f.Also, v.Subject)
				f.Working += "\n" + v.Label + ": " + lx(v.Lux) + " " + v.Where
			}
		}
		emit(f)
	}
}

// spillRow returns the limit of a zone; ok is false when there is none.
func (r *LightLimits) spillRow(zone string, after bool) (row SpillRow, ok bool) {
	for _, row := range r.Spill {
		if row.Zone == zone && row.After == after {
			return row, true
		}
	}
	return row, false
}

func spillFinding(u *LuxFacts, r *LightLimits, v *LuxView, at int) finding.Finding {
	f := finding.Finding{Code: "LUX-02", Level: finding.Note, Subject: v.Subject, Figure: lx(v.Rest) + " upright"}
	if at == 0 {
		f.Level = finding.Decide
	}
	what := "along " + v.Label
	if v.Window {
		what = "at window " + v.Label
	}
	f.Text = lx(v.Rest) + " fall " + what
	before, early := r.spillRow(u.Zone, false)
	after, late := r.spillRow(u.Zone, true)
	switch {
	case !early && !late:
		f.Text += "; nobody said in which environmental zone the garden lies, so that this is not judged"
		f.Limit = "environmental zone not known"
		f.Source = r.Spill[0].Source
		f.Remedies = []finding.Remedy{{Text: "say the zone under Site: E1 dark country, E2 village, E3 suburb, E4 town centre, E0 where the night sky is protected"}}
	case at < 2:
		f.Text += ", more than zone " + u.Zone + " allows before curfew"
		f.Limit, f.Source = "at most "+lx(before.Lux)+" before curfew in "+u.Zone, before.Source
	default:
		f.Text += ", more than zone " + u.Zone + " allows after curfew"
		f.Limit, f.Source = "at most "+lx(after.Lux)+" after curfew in "+u.Zone, after.Source
		f.Remedies = []finding.Remedy{{Text: "switch off by curfew, 23:00 unless set otherwise, the lamps that give it"}}
	}
	var lamps []string
	for _, p := range v.From {
		f.Also = append(f.Also, p.Subject)
		lamps = append(lamps, p.Label)
	}
	f.Remedies = append(f.Remedies, finding.Remedy{Text: "turn, tilt, shield or dim " + strings.Join(lamps, ", ")})
	if v.Taken != "" {
		f.Assumed = append(f.Assumed, v.Taken)
	}
	var w lines
	w.add("greatest of %d places: %s", v.Points, v.Where)
	w.add("%s upright there; most of it by %s", lx(v.Lux), parts(v.From))
	for _, b := range v.Beams {
		w.add("without %s, whose beam GLR-01 reports: %s", b.Label, lx(v.Rest))
	}
	if v.Window && v.Whose == "" {
		w.add("nobody said whose window it is")
	}
	if early {
		w.add("zone %s before curfew: at most %s; %s", u.Zone, lx(before.Lux), before.Source)
	}
	if late {
		w.add("zone %s after curfew: at most %s; %s", u.Zone, lx(after.Lux), after.Source)
	}
	w.add("all lamps taken to burn; what is off after curfew is not known")
	u.caveat(&w)
	f.Working = w.String()
	return f
}
