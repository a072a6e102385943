package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// BOX-09: a box, gear or source that stands low beside a mown edge, where mower
// and strimmer find it. SUP-02 says the same of cables. What is let into the
// ground has rules of its own. Source: common practice, no source.
var mownBoxRule = Rule{Code: "BOX-09", Title: "Box low beside a mown edge", Run: mownBox}

func mownBox(c *Context, emit func(finding.Finding)) {
	site := &c.Rules.Site
	if site.MownReach.Value <= 0 || site.LowSupport.Value <= 0 {
		return
	}
	g := gather{c: c}
	for i := range c.Net.Nodes {
		n := &c.Net.Nodes[i]
		if n.Kind != network.BoxNode && n.Kind != network.GearNode && n.Kind != network.PrimaryNode || n.Place == nil || n.Place.Mown == nil || c.Tree.Parent[i] < 0 || c.indoors(i) {
			continue
		}
		if n.Height < 0 || n.Height == 0 && n.Box != nil && n.Box.Burial {
			continue // flush or below: BOX-05
		}
		far := !within(float64(n.Place.Mown.Distance), site.MownReach.Value)
		lv := level(far || within(site.LowSupport.Value, float64(n.Height)), finding.Decide)
		if s := c.subject(i); c.Wants(lv == finding.Held, s.ID) {
			g.take(n.Place.Mown.Subject.ID, lv, -float64(n.Height), s, func() finding.Finding { return mownBoxFinding(s, n, site, lv) })
		}
	}
	g.flush(emit)
}

func mownBoxFinding(s finding.Subject, n *network.Node, site *SiteLimits, lv finding.Level) finding.Finding {
	m := n.Place.Mown
	f := finding.Finding{Code: "BOX-09", Level: lv, Subject: s, Also: also(m.Subject), Source: site.LowSupport.Source,
		Figure: span(n.Height), Limit: "at least " + spanOf(site.LowSupport) + " within " + spanOf(site.MownReach) + " of the edge"}
	var w lines
	w.add("%s stands %s from the edge of %s, looked at within %s", s.Label, span(m.Distance), m.Subject.Label, spanOf(site.MownReach))
	w.add("height %s, at least %s", span(n.Height), spanOf(site.LowSupport))
	f.Working = w.String()
	if lv == finding.Held {
		f.Text = s.Label + " is out of the mower's way"
		return f
	}
	f.Text = s.Label + " stands " + span(n.Height) + " up and " + span(m.Distance) + " from the edge of " + m.Subject.Label + ", where mower and strimmer reach it"
	if m.Distance <= 0 {
		f.Text = s.Label + " stands " + span(n.Height) + " up on " + m.Subject.Label + ", where mower and strimmer reach it"
	}
	f.Remedies = []finding.Remedy{{Text: "raise it", Figure: "to " + spanOf(site.LowSupport)}, {Text: "move it back from the edge", Figure: "by more than " + spanOf(Limit{Value: site.MownReach.Value - float64(m.Distance)})}}
	return f
}
