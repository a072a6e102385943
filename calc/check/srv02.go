package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// SRV-02: a mains run and an extra-low voltage run that cross in the ground.
// Whoever mends one must not take it for the other. A note. Source: BS 7671
// 528.1 (from memory).
var segregateRule = Rule{Code: "SRV-02", Title: "Mains and extra-low voltage cross", Run: segregate}

var segregateSource = finding.Source{Standard: "BS 7671:2018", Clause: "528.1", Evidence: finding.Memory}

func segregate(c *Context, emit func(finding.Finding)) {
	g := gather{c: c}
	for _, b := range c.ways() {
		way := c.Net.Branches[b].Route
		if len(way.Crossings) == 0 || c.extraLow(c.Far(b)) {
			continue
		}
		s := c.runSubject(b)
		for k := range way.Crossings {
			x := &way.Crossings[k]
			if x.Kind == network.CrossRun && !x.Mains {
				leg := &c.Net.Branches[b].Legs[x.Leg]
				g.take("", finding.Note, 0, s, func() finding.Finding { return segregateFinding(s, x, leg) })
			}
		}
	}
	g.flush(emit)
}

func segregateFinding(s finding.Subject, x *network.Crossing, leg *network.Leg) finding.Finding {
	return finding.Finding{Code: "SRV-02", Level: finding.Note, Subject: s, Also: also(x.Subject), Source: segregateSource,
		Figure: span(leg.Depth) + " and " + span(x.Depth),
		Text:   s.Label + " on the mains and " + x.Subject.Label + " on extra-low voltage cross in the ground: keep them apart and mark both",
		Working: "leg " + num(float64(x.Leg+1), 0) + " of " + s.Label + " lies " + span(leg.Depth) + " deep, " + x.Subject.Label + " " + span(x.Depth) +
			"\nextra-low voltage beside mains needs distance, a duct, or insulation for the higher voltage"}
}
