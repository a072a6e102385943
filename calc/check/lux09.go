package check

import (
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// darkSource is the intensity that counts as none, where a limit is 0 cd
// (engineer's judgement; a candle gives about as much).
const darkSource q.Candela = 1

// bright is LUX-09: intensity of a single lamp towards neighbours' windows and
// towards eyes at the boundary, against the environmental zone: the simple form of
// the limits, one figure a zone however far off and however large the bright face.
// Before curfew, with all lamps on, above the limit a Decide at what is the
// neighbour's and along the boundary, otherwise a Note; above that after curfew alone
// a Note. Without a zone there is none. A beam that GLR-01 reports at a window is left
// out there. Source: EN 12193 and national guidance, with each row.
func bright(u *LuxFacts, r *LightLimits, emit func(finding.Finding)) {
	before, early := r.brightRow(u.Zone, false)
	after, late := r.brightRow(u.Zone, true)
	over := func(list []LuxGlance, limit q.Candela) bool {
		return len(list) > 0 && list[0].Toward >= darkSource && !within(float64(list[0].Toward), float64(limit))
	}
	var groups [3]struct { // as in spill
		list  []*LuxView
		worst int
	}
	for i := range u.Views {
		v := &u.Views[i]
		at := -1
		switch {
		case v.Window && v.Whose == "own":
		case early && over(v.Bright, before.Candela) && (!v.Window || v.Whose == "neighbour"):
			at = 0
		case early && over(v.Bright, before.Candela):
			at = 1
		case late && over(v.BrightLate, after.Candela):
			at = 2
		}
		if at < 0 {
			continue
		}
		g := &groups[at]
		if len(g.list) == 0 || v.brightest(at)[0].Toward > g.list[g.worst].brightest(at)[0].Toward {
			g.worst = len(g.list)
		}
		g.list = append(g.list, v)
	}
	for at := range groups {
		g := &groups[at]
		if len(g.list) == 0 {
			continue
		}
		row := before
		if at == 2 {
			row = after
		}
		f := brightFinding(u, r, g.list[g.worst], at, row)
		for k, v := range g.list {
			if k != g.worst {
				l := v.brightest(at)[0]
				f.Also = append(f.Also, v.Subject)
				f.Working += "\n" + v.Label + ": " + num(float64(l.Toward), 0) + " cd of " + l.Label + " at " + l.Distance.String()
			}
		}
		emit(f)
	}
}

// brightest are the lamps that count in a group.
func (v *LuxView) brightest(at int) []LuxGlance {
	if at == 2 {
		return v.BrightLate
	}
	return v.Bright
}

func (r *LightLimits) brightRow(zone string, after bool) (row BrightRow, ok bool) {
	for _, row := range r.Bright {
		if row.Zone == zone && row.After == after {
			return row, true
		}
	}
	return row, false
}

func brightFinding(u *LuxFacts, r *LightLimits, v *LuxView, at int, row BrightRow) finding.Finding {
	list := v.brightest(at)
	when := "before curfew"
	if at == 2 {
		when = "after curfew"
	}
	worst := &list[0]
	cd := num(float64(worst.Toward), 0) + " cd"
	f := finding.Finding{Code: "LUX-09", Level: finding.Note, Subject: v.Subject, Source: row.Source,
		Figure: cd + " by " + worst.Label, Limit: "at most " + num(float64(row.Candela), 0) + " cd " + when + " in " + u.Zone,
		Text: worst.Label + " shines with " + cd + " " + v.toward() + ", more than zone " + u.Zone + " allows " + when}
	if at == 0 {
		f.Level = finding.Decide
	}
	var w lines
	for i := range list {
		l := &list[i]
		w.add("%s: %s cd at %s", l.Label, num(float64(l.Toward), 0), l.Distance)
		f.Also = append(f.Also, l.Subject)
	}
	w.add("intensity of one lamp towards eyes there, no cosine, no distance, less what stands between; new lamps at their volts")
	w.add("limit: %s", row.Source)
	w.add("limits that grow with distance and bright face, as newer guidance has them, are not compared: the face of few lamps is known")
	u.curfew(r, &w)
	w.add("computed, not measured")
	f.Working = w.String()
	if at == 2 {
		f.Remedies = append(f.Remedies, finding.Remedy{Text: "say for their zones when they go out, by curfew at " + u.Curfew, Tried: true})
	}
	f.Remedies = append(f.Remedies, finding.Remedy{Text: "turn, tilt or shield " + worst.Label + ", so that its face is not seen from there"})
	if v.Taken != "" {
		f.Assumed = append(f.Assumed, v.Taken)
	}
	return f
}

// toward says towards what a lamp shines.
func (v *LuxView) toward() string {
	if v.Window {
		return "towards window " + v.Label
	}
	return "across " + v.Label
}
