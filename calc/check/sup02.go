package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// SUP-02: a cable clipped low beside a mown edge, or lying on the lawn, where
// mower and strimmer reach it. Source: common practice, no source.
var mownRule = Rule{Code: "SUP-02", Title: "Low beside a mown edge", Run: mown}

func mown(c *Context, emit func(finding.Finding)) {
	limit := c.Rules.Site.LowSupport
	if limit.Value <= 0 {
		return
	}
	g := gather{c: c}
	for _, b := range c.ways() {
		br := &c.Net.Branches[b]
		way := br.Route
		s := c.runSubject(b)
		for k := range way.Beside {
			x := &way.Beside[k]
			if x.Kind != network.BesideMown || x.Length < alongLeast {
				continue
			}
			leg := &br.Legs[x.Leg]
			lv := level(leg.Sleeve || within(limit.Value, float64(leg.Height)), finding.Decide)
			if c.Wants(lv == finding.Held, s.ID) {
				g.take(x.Subject.ID, lv, float64(x.Length), s, func() finding.Finding { return mownFinding(s, x, leg, limit, lv) })
			}
		}
	}
	g.flush(emit)
}

func mownFinding(s finding.Subject, x *network.Beside, leg *network.Leg, limit Limit, lv finding.Level) finding.Finding {
	f := finding.Finding{Code: "SUP-02", Level: lv, Subject: s, Also: also(x.Subject), Source: limit.Source,
		Figure: span(leg.Height), Limit: "at least " + spanOf(limit)}
	var w lines
	w.add("leg %d of %s runs %s beside %s, %s from its edge", x.Leg+1, s.Label, x.Length, x.Subject.Label, span(x.Distance))
	w.add("height %s, at least %s", span(leg.Height), spanOf(limit))
	if leg.Sleeve {
		w.add("a sleeve protects it")
	}
	f.Working = w.String()
	if lv == finding.Held {
		f.Text = s.Label + " is out of the mower's way beside " + x.Subject.Label
		return f
	}
	f.Text = s.Label + " is clipped " + span(leg.Height) + " up beside " + x.Subject.Label + ", where the mower reaches it"
	f.Remedies = []finding.Remedy{{Text: "raise it", Figure: "to " + spanOf(limit)}, {Text: "put it in a sleeve there"}}
	return f
}
