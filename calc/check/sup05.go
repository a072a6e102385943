package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// SUP-05: slack at a lamp on a spike, so that it can follow the planting. A
// note. Source: trade practice, 0.5 to 1.0 m; the number is common practice, no
// source.
var movableRule = Rule{Code: "SUP-05", Title: "Slack at a movable lamp", Run: movable}

func movable(c *Context, emit func(finding.Finding)) {
	limit := c.Rules.Site.MovableSlack
	if limit.Value <= 0 {
		return
	}
	g := gather{c: c}
	for i := range c.Net.Nodes {
		n := &c.Net.Nodes[i]
		b := c.Tree.Parent[i]
		if n.Kind != network.LampNode || n.Form != "spike" || n.Place == nil || b < 0 {
			continue
		}
		slack := c.Net.Branches[b].Slack
		for _, k := range c.Tree.Kids[i] {
			slack = max(slack, c.Net.Branches[k].Slack)
		}
		s, lv := c.subject(i), level(within(limit.Value, float64(slack)), finding.Note)
		if c.Wants(lv == finding.Held, s.ID) {
			g.take("", lv, -float64(slack), s, func() finding.Finding { return movableFinding(s, slack, limit, lv) })
		}
	}
	g.flush(emit)
}

func movableFinding(s finding.Subject, slack q.Metre, limit Limit, lv finding.Level) finding.Finding {
	f := finding.Finding{Code: "SUP-05", Level: lv, Subject: s, Source: limit.Source, Figure: span(slack), Limit: "at least " + spanOf(limit)}
	var w lines
	w.add("%s stands on a spike and will be moved as plants grow", s.Label)
	w.add("slack on the runs that end there: %s, at least %s", span(slack), spanOf(limit))
	f.Working = w.String()
	if lv == finding.Held {
		f.Text = s.Label + " can be moved"
		return f
	}
	f.Text = s.Label + " stands on a spike with " + span(slack) + " of slack: leave a coil, so that it can follow the planting"
	f.Remedies = []finding.Remedy{{Text: "give one of its runs more slack", Figure: span(q.Metre(limit.Value)-slack) + " more"}}
	return f
}
