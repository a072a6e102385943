package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// PND-03: a source where the plan says that water stands after rain. Sources
// are seldom made for immersion, and one that cools down draws water in. Silent
// where no hollow is drawn. Source: common practice, no source.
var hollowRule = Rule{Code: "PND-03", Title: "Source in a hollow", Run: hollow}

func hollow(c *Context, emit func(finding.Finding)) {
	g := gather{c: c}
	for i := range c.Net.Nodes {
		n := &c.Net.Nodes[i]
		if n.Kind != network.PrimaryNode || n.Place == nil || !n.Place.Low {
			continue
		}
		s := c.subject(i)
		g.take("", finding.Decide, -float64(n.Height), s, func() finding.Finding {
			return finding.Finding{Code: "PND-03", Level: finding.Decide, Subject: s, Also: also(n.Place.Area), Source: finding.Source{Evidence: finding.Practice},
				Figure: ipText(n.IP) + ", " + span(n.Height) + " above ground",
				Text:   s.Label + " stands in a hollow where water collects, " + span(n.Height) + " above ground, with " + ipText(n.IP),
				Working: "the plan marks the ground there as low\n" + s.Label + ": " + ipText(n.IP) + ", " + span(n.Height) +
					" above ground\na source that is not made for immersion draws water in as it cools",
				Remedies: []finding.Remedy{{Text: "move it to higher ground"}, {Text: "put it on a wall or post, above the water that has been seen there"}}}
		})
	}
	g.flush(emit)
}
