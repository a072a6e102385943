package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// SRC-04: the volts of a string against the range within which its driver holds
// the current,
//
//	U = Σ Uf + I·Σ R
//
// The loss in the cables counts towards them. Above the range the driver gives
// less than its current or switches off, below it it flickers or switches off.
// A string that forks or is empty has no such figure (SRC-06, CIR-09). Source:
// the maker's range.
var stringRule = Rule{Code: "SRC-04", Title: "String within the driver's range", Run: stringVolts}

func stringVolts(c *Context, emit func(finding.Finding)) {
	for k := range c.Strings() {
		s := &c.plan.driven[k]
		if !s.Lights() {
			continue
		}
		fits, id := c.Fits(s), c.Net.Branches[s.Source].ID
		asked := c.Asked(id)
		for _, i := range s.Lamps {
			asked = asked || c.Asked(c.Net.Nodes[i].ID)
		}
		for _, b := range s.Chain {
			asked = asked || c.Asked(c.Net.Branches[b].ID)
		}
		if fits != 0 || asked {
			emit(stringFinding(c, s, fits))
		}
	}
}

func stringFinding(c *Context, s *network.String, fits int) finding.Finding {
	br := &c.Net.Branches[s.Source]
	cv, u, at := br.Converter, c.Volts(s.Head), c.runSubject(s.Source)
	f := finding.Finding{Code: "SRC-04", Level: level(fits == 0, finding.Stop), Subject: at, Source: makerSource,
		Figure: u.String(), Limit: driverRange(cv)}
	var w lines
	var lamps q.Volt
	for _, i := range s.Lamps {
		lamps += c.Across(i)
		w.add("%s: %s across it at %s", c.Net.Nodes[i].Label, c.Across(i), cv.Drive)
		f.Also = append(f.Also, c.subject(i))
	}
	w.add("%s in series: Σ Uf = %s", count(len(s.Lamps), "lamp", "lamps"), lamps)
	for _, b := range s.Chain {
		run := &c.Net.Branches[b]
		if c.Asked(run.ID) {
			f.Also = append(f.Also, c.runSubject(b))
		}
		w.add("%s: I·R = %s × %s mΩ/m × %s = %s V", c.runSubject(b).Label, cv.Drive, num(c.PerMetre(b)*1e3, 2), run.Length, num(c.fall(b), 3))
	}
	w.add("string: %s + %s in the cables = %s; the driver holds %s from %s", lamps, u-lamps, u, cv.Drive, driverRange(cv))
	f.Working = w.String()
	f.Text = "the string of " + at.Label + " takes " + u.String() + " at " + cv.Drive.String()
	switch {
	case fits > 0:
		f.Text += ", more than the driver can give: its lamps are dim or dark"
		f.Remedies = []finding.Remedy{
			{Text: "take lamps off the string, or feed some from a second driver", Figure: count(c.tooMany(s, u-cv.Most), "lamp", "lamps") + " of " + count(len(s.Lamps), "lamp", "lamps")},
			{Text: "use a driver of " + cv.Drive.String() + " for more volts", Figure: "at least " + u.String()},
		}
		if lamps < cv.Most {
			f.Remedies = append(f.Remedies, finding.Remedy{Text: "use thicker or shorter cable", Figure: "at most " + (cv.Most - lamps).String() + " lost in it"})
		}
	case fits < 0:
		f.Text += ", less than the driver needs: it flickers or switches off"
		f.Remedies = []finding.Remedy{
			{Text: "put more lamps on the string", Figure: (cv.Least - u).String() + " more"},
			{Text: "use a driver of " + cv.Drive.String() + " for fewer volts", Figure: "down to " + u.String()},
		}
	}
	return f
}

// tooMany is how many lamps have to go, from the far end, to save the volts.
func (c *Context) tooMany(s *network.String, need q.Volt) int {
	n := 0
	for k := len(s.Lamps) - 1; k >= 0 && need > 0; k-- {
		need -= c.Across(s.Lamps[k])
		n++
	}
	return n
}
