package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// SRV-01: a trench that crosses a buried service, or comes near one. Records of
// services are approximate, so it is found by a trial hole before anything else
// is dug. Source: HSG47 (from memory).
var serviceRule = Rule{Code: "SRV-01", Title: "Buried service in the way", Run: service}

func service(c *Context, emit func(finding.Finding)) {
	clear := c.Rules.Site.ServiceClear
	if clear.Value <= 0 {
		return
	}
	g := gather{c: c}
	for _, b := range c.ways() {
		way := c.Net.Branches[b].Route
		s := c.runSubject(b)
		for k := range way.Crossings {
			x := &way.Crossings[k]
			if x.Kind == network.CrossService && within(float64(x.Distance), clear.Value) {
				g.take(x.Subject.ID, finding.Decide, -float64(x.Distance), s, func() finding.Finding { return serviceFinding(s, x, clear) })
			}
		}
	}
	g.flush(emit)
}

func serviceFinding(s finding.Subject, x *network.Crossing, clear Limit) finding.Finding {
	f := finding.Finding{Code: "SRV-01", Level: finding.Decide, Subject: s, Also: also(x.Subject), Source: clear.Source,
		Figure: span(x.Distance), Limit: "more than " + spanOf(clear)}
	var w lines
	w.add("leg %d of %s is dug", x.Leg+1, s.Label)
	if x.Distance == 0 {
		f.Figure, f.Text = "crosses", s.Label+" is dug across "+x.Subject.Label
		w.add("it crosses %s", x.Subject.Label)
	} else {
		f.Text = s.Label + " is dug " + span(x.Distance) + " from " + x.Subject.Label
		w.add("it passes %s at %s; with care within %s", x.Subject.Label, span(x.Distance), spanOf(clear))
	}
	w.add("records are approximate: plan, locate, then dig by hand")
	f.Working = w.String()
	f.Text += ": find it by a trial hole first"
	f.Remedies = []finding.Remedy{
		{Text: "dig a trial hole by hand there, note its depth, and cross it square in a duct"},
		{Text: "lead the trench another way"},
	}
	return f
}
