package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// SUP-06: headroom under a festoon where people walk or stand. A note. Source:
// common practice, no source.
var headroomRule = Rule{Code: "SUP-06", Title: "Headroom under a festoon", Run: headway}

func headway(c *Context, emit func(finding.Finding)) {
	limit := c.Rules.Site.FestoonHeight
	if limit.Value <= 0 {
		return
	}
	g := gather{c: c}
	for i := range c.Net.Nodes {
		n := &c.Net.Nodes[i]
		if n.Kind != network.LampNode || n.Tail || n.Place == nil || c.Tree.Parent[i] < 0 || n.Form != "festoon" {
			continue
		}
		away := grown(n.Place.Ground) || n.Place.Ground == "water"
		lv := level(away || within(limit.Value, float64(n.Height)), finding.Note)
		if s := c.subject(i); c.Wants(lv == finding.Held, s.ID) {
			g.take("", lv, -float64(n.Height), s, func() finding.Finding { return headwayFinding(s, n, limit, away, lv) })
		}
	}
	g.flush(emit)
}

func headwayFinding(s finding.Subject, n *network.Node, limit Limit, away bool, lv finding.Level) finding.Finding {
	f := finding.Finding{Code: "SUP-06", Level: lv, Subject: s, Source: limit.Source, Figure: span(n.Height), Limit: "at least " + spanOf(limit)}
	var w lines
	w.add("%s hangs %s above ground, at least %s where people walk; the sag is not in that height", s.Label, span(n.Height), spanOf(limit))
	if away {
		w.add("nobody walks there: %s", n.Place.Ground)
	}
	f.Working = w.String()
	if lv == finding.Held {
		f.Text = s.Label + " hangs clear of heads"
		return f
	}
	f.Text = s.Label + " hangs " + span(n.Height) + " above ground; " + spanOf(limit) + " of headroom is usual where people walk"
	f.Remedies = []finding.Remedy{{Text: "raise its posts or hooks", Figure: spanOf(Limit{Value: limit.Value - float64(n.Height)}) + " higher"}}
	return f
}
