package check

import (
	"strings"

	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// darkest is the illuminance that counts as none, where a limit is 0 (engineer's
// judgement).
const darkest q.Lux = 0.01

// spill is LUX-02: upright illuminance at neighbours' windows and along the
// boundary against the environmental zone. Above the limit before curfew, with all
// lamps on, it is a Decide at what is the neighbour's and along the boundary, a Note
// at a window of which nobody said whose it is; above the limit after curfew alone,
// by the lamps that burn then, a Note. A lamp of which nobody said when it goes out
// counts as burning. Own windows are not judged. Without a zone one Note gives the
// figures. What GLR-01 reports at a window is left out there.
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
			at = 1
		case early && over(v.Rest, before.Lux) && (!v.Window || v.Whose == "neighbour"):
			at = 0
		case early && over(v.Rest, before.Lux):
			at = 1
		case late && over(v.Late, after.Lux):
			at = 2
		}
		if at < 0 {
			continue
		}
		g := &groups[at]
		if len(g.list) == 0 || v.counted(at) > g.list[g.worst].counted(at) {
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
				f.Working += "\n" + v.Label + ": " + lx(v.counted(at)) + " " + v.where(at)
			}
		}
		emit(f)
	}
}

// counted is the figure that counts in a group: with all lamps, or those that burn
// after curfew.
func (v *LuxView) counted(at int) q.Lux {
	if at == 2 {
		return v.Late
	}
	return v.Rest
}

func (v *LuxView) where(at int) string {
	if at == 2 {
		return v.LateWhere
	}
	return v.Where
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
	f := finding.Finding{Code: "LUX-02", Level: finding.Note, Subject: v.Subject, Figure: lx(v.counted(at)) + " upright"}
	if at == 0 {
		f.Level = finding.Decide
	}
	before, early := r.spillRow(u.Zone, false)
	after, late := r.spillRow(u.Zone, true)
	from := v.From
	f.Text = lx(v.counted(at)) + " fall " + v.placed()
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
		from = v.LateFrom
		f.Text += " after curfew, more than zone " + u.Zone + " allows then"
		f.Limit, f.Source = "at most "+lx(after.Lux)+" after curfew in "+u.Zone, after.Source
		f.Remedies = []finding.Remedy{{Text: "say for their zones when they go out, by curfew at " + u.Curfew, Tried: true}}
	}
	var lamps []string
	for _, p := range from {
		f.Also = append(f.Also, p.Subject)
		lamps = append(lamps, p.Label)
	}
	f.Remedies = append(f.Remedies, finding.Remedy{Text: "turn, tilt, shield or dim " + strings.Join(lamps, ", ")})
	if v.Taken != "" {
		f.Assumed = append(f.Assumed, v.Taken)
	}
	var w lines
	v.steps(u, &w)
	if early {
		w.add("zone %s before curfew, all lamps on: at most %s; %s", u.Zone, lx(before.Lux), before.Source)
	}
	if late {
		w.add("zone %s after curfew: at most %s; %s", u.Zone, lx(after.Lux), after.Source)
	}
	u.curfew(r, &w)
	u.caveat(&w)
	f.Working = w.String()
	return f
}

// placed says where the light falls.
func (v *LuxView) placed() string {
	if v.Window {
		return "at window " + v.Label
	}
	return "along " + v.Label
}

// steps writes how the light of a view was reached, before curfew and after it.
func (v *LuxView) steps(u *LuxFacts, w *lines) {
	w.add("greatest of %d places: %s", v.Points, v.Where)
	w.add("%s upright there; most of it by %s", lx(v.Lux), parts(v.From))
	for _, b := range v.Beams {
		w.add("without %s, whose beam GLR-01 reports: %s", b.Label, lx(v.Rest))
	}
	if v.Late < darkest {
		w.add("after curfew %s", lx(v.Late))
	} else {
		w.add("after curfew %s, %s; most of it by %s", lx(v.Late), v.LateWhere, parts(v.LateFrom))
	}
	if v.Window && v.Whose == "" {
		w.add("nobody said whose window it is")
	}
}

// curfew says when curfew is and which lamps burn after it.
func (u *LuxFacts) curfew(r *LightLimits, w *lines) {
	switch {
	case u.CurfewSaid:
		w.add("curfew %s, as said of the site", u.Curfew)
	case r.Curfew.Known:
		w.add("curfew %s; %s", u.Curfew, r.CurfewSource)
	default:
		w.add("curfew %s taken: nobody said it, and the rule set has none", u.Curfew)
	}
	burn, unsaid := 0, 0
	for i := range u.Lamps {
		if l := &u.Lamps[i]; l.After {
			burn++
			if l.Off == "" {
				unsaid++
			}
		}
	}
	w.add("%d of %s burn after curfew", burn, count(len(u.Lamps), "lamp", "lamps"))
	if unsaid > 0 {
		w.add("of %s nobody said when the zone goes out: taken to burn", count(unsaid, "lamp", "lamps"))
	}
}
