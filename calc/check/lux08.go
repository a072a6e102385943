package check

import (
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// burning is LUX-08: lamps that burn after curfew, with what they take. One Note for
// all; a lamp of which nobody said when it goes out counts as burning. Source:
// dark-sky guidance, to be lit only while it is of use (found); the hour with the
// curfew.
func burning(u *LuxFacts, r *LightLimits, emit func(finding.Finding)) {
	if r.Curfew.Value <= 0 {
		return
	}
	var list []*LuxLamp
	var lumens q.Lumen
	var watts q.Watt
	unknown, unsaid := 0, 0
	for i := range u.Lamps {
		l := &u.Lamps[i]
		if !l.After || l.Flux <= 0 {
			continue
		}
		list = append(list, l)
		lumens += l.Flux
		watts += l.Watts.Or(0)
		if !l.Watts.Known {
			unknown++
		}
		if l.Off == "" {
			unsaid++
		}
	}
	if len(list) == 0 {
		return
	}
	f := finding.Finding{Code: "LUX-08", Level: finding.Note, Subject: list[0].Subject, Source: r.Curfew.Source,
		Figure: count(len(list), "lamp", "lamps") + ", " + num(float64(watts), 1) + " W", Limit: "none after curfew at " + u.Curfew}
	switch unknown {
	case 0:
	case len(list):
		f.Figure = count(len(list), "lamp", "lamps") + ", watts not known"
	default:
		f.Figure += " without " + count(unknown, "lamp", "lamps") + " whose watts are not known"
	}
	f.Text = num(float64(len(list)), 0) + " of " + count(len(u.Lamps), "lamp", "lamps") + " burn after curfew at " + u.Curfew
	if unsaid > 0 {
		f.Text += "; of " + count(unsaid, "lamp", "lamps") + " nobody said when the zone goes out"
	}
	var w lines
	for i, l := range list {
		off := "nobody said when it goes out: taken to burn"
		if l.Off != "" {
			off = "goes out at " + l.Off
		}
		w.add("%s: %s, %s", l.Label, l.Flux, off)
		if i > 0 {
			f.Also = append(f.Also, l.Subject)
		}
	}
	w.add("together %s; watts are those at the supply with all lamps on", lumens)
	u.curfew(r, &w)
	f.Working = w.String()
	f.Remedies = []finding.Remedy{
		{Text: "say for their zones when they go out, by curfew at " + u.Curfew, Tried: true},
		{Text: "have a movement sensor light for some minutes what is needed later"},
	}
	emit(f)
}
