package check

import (
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// DIG-04: a cable in the ground is marked by tape or covers above it, so that
// the next spade meets them first. Asked above extra-low voltage. Source: BS
// 7671 522.8.10.
var tapeRule = Rule{Code: "DIG-04", Title: "Marker tape", Run: tape}

func tape(c *Context, emit func(finding.Finding)) {
	g := gather{c: c}
	for _, b := range c.ways() {
		br := &c.Net.Branches[b]
		if c.extraLow(c.Far(b)) {
			continue
		}
		var dug, bare q.Metre
		for k := range br.Legs {
			if leg := &br.Legs[k]; leg.Dug() {
				dug += leg.Length
				if leg.NoTape {
					bare += leg.Length
				}
			}
		}
		s, lv := c.runSubject(b), level(bare == 0, finding.Decide)
		if dug > 0 && c.Wants(lv == finding.Held, s.ID) {
			g.take("", lv, float64(bare), s, func() finding.Finding { return tapeFinding(s, dug, bare, lv) })
		}
	}
	g.flush(emit)
}

func tapeFinding(s finding.Subject, dug, bare q.Metre, lv finding.Level) finding.Finding {
	f := finding.Finding{Code: "DIG-04", Level: lv, Subject: s, Source: dugSource, Figure: bare.String() + " without", Limit: "none"}
	var w lines
	w.add("%s lies in the ground over %s", s.Label, dug)
	w.add("without tape or covers: %s", bare)
	f.Working = w.String()
	if lv == finding.Held {
		f.Text = s.Label + " is marked over its whole way in the ground"
		return f
	}
	f.Text = "nothing marks " + s.Label + " in the ground over " + bare.String()
	f.Remedies = []finding.Remedy{{Text: "lay marker tape about 150 mm above the cable, or covers on it", Figure: bare.String() + " of tape"}}
	return f
}
