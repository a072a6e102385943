package check

import (
	"duskwire/calc/finding"
)

// courtesy is LUX-10: light at neighbours' windows after curfew that meets the limit
// of the zone and is still more than some think fit where people sleep. One Note.
// What LUX-02 tells of is not told again. Source: with the limit; no standard.
func courtesy(u *LuxFacts, r *LightLimits, emit func(finding.Finding)) {
	after, late := r.spillRow(u.Zone, true)
	before, early := r.spillRow(u.Zone, false)
	if r.Courtesy.Value <= 0 || !late {
		return
	}
	var list []*LuxView
	worst := 0
	for i := range u.Views {
		v := &u.Views[i]
		told := early && v.Rest >= darkest && !within(float64(v.Rest), float64(before.Lux)) || v.Late >= darkest && !within(float64(v.Late), float64(after.Lux))
		if !v.Window || v.Whose == "own" || told || within(float64(v.Late), r.Courtesy.Value) {
			continue
		}
		if len(list) > 0 && v.Late > list[worst].Late {
			worst = len(list)
		}
		list = append(list, v)
	}
	if len(list) == 0 {
		return
	}
	v := list[worst]
	f := finding.Finding{Code: "LUX-10", Level: finding.Note, Subject: v.Subject, Source: r.Courtesy.Source,
		Figure: lx(v.Late) + " upright", Limit: "at most " + num(r.Courtesy.Value, 2) + " lx after curfew, as a courtesy",
		Text: lx(v.Late) + " fall at window " + v.Label + " after curfew: within zone " + u.Zone + ", and more than is thought fit where somebody sleeps"}
	for _, p := range v.LateFrom {
		f.Also = append(f.Also, p.Subject)
	}
	var w lines
	v.steps(u, &w)
	for k, o := range list {
		if k != worst {
			f.Also = append(f.Also, o.Subject)
			w.add("%s: %s %s", o.Label, lx(o.Late), o.LateWhere)
		}
	}
	w.add("zone %s after curfew: at most %s; %s", u.Zone, lx(after.Lux), after.Source)
	w.add("courtesy: at most %s lx; %s", num(r.Courtesy.Value, 2), r.Courtesy.Source)
	w.add("whether a bedroom lies behind the window is not known")
	u.curfew(r, &w)
	u.caveat(&w)
	f.Working = w.String()
	f.Remedies = []finding.Remedy{{Text: "say for their zones when they go out, by curfew at " + u.Curfew, Tried: true}, {Text: "turn, tilt, shield or dim the lamps that give it"}}
	if v.Taken != "" {
		f.Assumed = append(f.Assumed, v.Taken)
	}
	emit(f)
}
