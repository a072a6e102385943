package check

import (
	"duskwire/calc/cable"
	"duskwire/calc/finding"
)

// CAP-03: the tables hold no rating for the way a leg is installed, such as
// flat twin and earth in the ground. Without a rating nothing is proved.
// Source: BS 7671 Appendix 4, the columns of the rating tables.
var ratingMissingRule = Rule{Code: "CAP-03", Title: "No rating for the installation method", Run: ratingMissing}

func ratingMissing(c *Context, emit func(finding.Finding)) {
	for b := range c.Net.Branches {
		br := &c.Net.Branches[b]
		if far := c.Far(b); br.Converter == nil && br.Cable == nil && !br.Existing && far >= 0 && c.Loops[far].Known {
			emit(legMissing(c, b)) // with the loop not known FLT-03 asks for the cable
			continue
		}
		capa := &c.Capacity[b]
		if !c.Ours(b) || capa.Known || (len(br.Legs) == 0 && br.Length == 0) {
			continue
		}
		s := c.runSubject(b)
		f := finding.Finding{Code: "CAP-03", Level: finding.Stop, Subject: s,
			Text:    "no rating for " + br.Cable.Name + " as " + s.Label + " is installed: " + capa.Missing,
			Source:  finding.Source{Standard: "BS 7671:2018", Clause: "Appendix 4", Evidence: finding.Memory},
			Assumed: c.Net.Assumed,
		}
		var w lines
		w.add("Iz = It · rating factors")
		w.add("%s, leg %d: the rule set has no value for %s", br.Cable.Name, capa.Leg+1, capa.Missing)
		w.add("Iz is therefore not known, and In ≤ Iz cannot be proved")
		f.Working = w.String()
		f.Remedies = append(ratedCable(c, b), finding.Remedy{Text: "change how the leg is installed"})
		emit(f)
	}
}

// legMissing is about the leg of an own way whose cable nobody named: it is
// part of the new circuit, and a loop measured at its end proves nothing else.
func legMissing(c *Context, b int) finding.Finding {
	s := c.runSubject(b)
	return finding.Finding{Code: "CAP-03", Level: finding.Stop, Subject: s,
		Text:     "the cable of " + s.Label + " is not known, so nothing shows that it carries the current and stands a fault",
		Source:   overloadSource,
		Working:  "In ≤ Iz and k² · S² ≥ I² · t\nneither Iz nor S is known",
		Remedies: []finding.Remedy{{Text: "enter the cable and the length of the leg at the supply point"}},
	}
}

// ratedCable offers the smallest catalogue cable of any family that has a
// rating for every leg and carries enough.
func ratedCable(c *Context, b int) []finding.Remedy {
	br := &c.Net.Branches[b]
	need := max(c.Demand(b).Iz, c.carried(b))
	mains := c.Net.Nodes[c.Far(b)].System == 0
	best, figure := -1, ""
	for i, cb := range c.Catalog {
		if cb.Mains != mains || (mains && cb.Earth != br.Cable.Earth) || (best >= 0 && cb.Size >= c.Catalog[best].Size) {
			continue
		}
		capa := cable.Governing(cb, br.Legs, c.Net.Site, &c.Rules.Cable, c.Overload(b))
		if capa.Known && within(float64(need), float64(capa.Iz)) {
			best, figure = i, capa.Iz.String()
		}
	}
	if best < 0 {
		return nil
	}
	return []finding.Remedy{swap(br, c.Catalog[best], figure)}
}
