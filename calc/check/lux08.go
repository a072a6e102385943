package check

import (
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// Burning returns the lamps that burn after curfew and give light.
func (u *LuxFacts) Burning() (list []*LuxLamp) {
	for i := range u.Lamps {
		if l := &u.Lamps[i]; l.After && l.Flux > 0 {
			list = append(list, l)
		}
	}
	return list
}

// WattsOf says what lamps take together, and of how many that is not known: "5 W
// without 1 lamp whose watts are not known".
func WattsOf(list []*LuxLamp) string {
	watts, unknown := q.Watt(0), 0
	for _, l := range list {
		watts += l.Watts.Or(0)
		if !l.Watts.Known {
			unknown++
		}
	}
	switch {
	case unknown == 0:
		return num(float64(watts), 1) + " W"
	case unknown == len(list):
		return "watts not known"
	}
	return num(float64(watts), 1) + " W without " + count(unknown, "lamp", "lamps") + " whose watts are not known"
}

// burning is LUX-08: lamps that burn after curfew, with what they take. One Note for
// all; a lamp of which nobody said when it goes out counts as burning. Source:
// dark-sky guidance, to be lit only while it is of use (found); the hour with the
// curfew. Silent where neither rule set nor survey has one.
func burning(u *LuxFacts, r *LightLimits, emit func(finding.Finding)) {
	list := u.Burning()
	if !r.Curfew.Known && !u.CurfewSaid || len(list) == 0 {
		return
	}
	var lumens q.Lumen
	unsaid := 0
	for _, l := range list {
		lumens += l.Flux
		if l.Off == "" {
			unsaid++
		}
	}
	f := finding.Finding{Code: "LUX-08", Level: finding.Note, Subject: list[0].Subject, Source: r.CurfewSource,
		Figure: count(len(list), "lamp", "lamps") + ", " + WattsOf(list), Limit: "none after curfew at " + u.Curfew}
	if !r.Curfew.Known {
		f.Source = finding.Source{Standard: "dark-sky guidance", Clause: "lit only while it is of use", Evidence: finding.Found}
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
