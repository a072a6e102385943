package check

import (
	"cmp"
	"slices"

	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// whites is LUX-06: lamps of cold white wherever they stand. Above the soft limit a
// Note, above the hard one a Decide, one finding a level; a white that is not known
// is named with the Notes. What LUX-05 told of is not told again. Source: dark-sky
// guidance, with each limit.
func whites(u *LuxFacts, r *LightLimits, told map[string]bool, emit func(finding.Finding)) {
	if r.WarmSoft.Value <= 0 || r.WarmHard.Value <= 0 {
		return
	}
	var soft, hard, unknown []*LuxLamp
	for i := range u.Lamps {
		switch l := &u.Lamps[i]; {
		case told[l.ID] || l.Flux <= 0:
		case l.White <= 0:
			unknown = append(unknown, l)
		case !within(float64(l.White), r.WarmHard.Value):
			hard = append(hard, l)
		case !within(float64(l.White), r.WarmSoft.Value):
			soft = append(soft, l)
		}
	}
	coldest := func(a, b *LuxLamp) int { return cmp.Compare(b.White, a.White) }
	for _, list := range [][]*LuxLamp{hard, soft} {
		slices.SortStableFunc(list, coldest)
	}
	whiteFinding(hard, nil, r, finding.Decide, r.WarmHard, emit)
	whiteFinding(soft, unknown, r, finding.Note, r.WarmSoft, emit)
}

func whiteFinding(list, unknown []*LuxLamp, r *LightLimits, level finding.Level, limit Limit, emit func(finding.Finding)) {
	all := slices.Concat(list, unknown)
	if len(all) == 0 {
		return
	}
	worst := all[0]
	f := finding.Finding{Code: "LUX-06", Level: level, Subject: worst.Subject, Source: limit.Source,
		Figure: kelvins(worst.White), Limit: "at most " + kelvins(q.Kelvin(limit.Value))}
	f.Text = worst.Label + " has a white of " + kelvins(worst.White) + ", colder than dark-sky guidance has lamps of gardens"
	if worst.White <= 0 {
		f.Text = "the white of " + worst.Label + " is not known; dark-sky guidance asks for warm lamps"
	}
	var w lines
	for i, l := range all {
		w.add("%s: %s", l.Label, kelvins(l.White))
		if i > 0 {
			f.Also = append(f.Also, l.Subject)
		}
	}
	w.add("recommended: at most %s; %s", kelvins(q.Kelvin(r.WarmSoft.Value)), r.WarmSoft.Source)
	w.add("not recommended: above %s; %s", kelvins(q.Kelvin(r.WarmHard.Value)), r.WarmHard.Source)
	w.add("a lamp that LUX-05 tells of is not told again; no law is meant")
	f.Working = w.String()
	f.Remedies = []finding.Remedy{{Text: "use a lamp of " + kelvins(q.Kelvin(r.WarmSoft.Value)) + " or warmer"}}
	emit(f)
}

// kelvins writes a white.
func kelvins(t q.Kelvin) string {
	if t <= 0 {
		return "colour temperature not known"
	}
	return num(float64(t), 0) + " K"
}
