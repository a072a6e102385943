package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// CTL-01: the current through control or isolating gear against its rating.
// Source: the maker's rating.
var gearCurrentRule = Rule{Code: "CTL-01", Title: "Current through gear", Run: gearCurrent}

func gearCurrent(c *Context, emit func(finding.Finding)) {
	if !c.Trusted() {
		return
	}
	for i := range c.Net.Nodes {
		g := c.Net.Nodes[i].Gear
		if g == nil || !g.Rating.Known || c.Tree.Parent[i] < 0 {
			continue
		}
		held := within(float64(c.Beyond(i)), float64(g.Rating.Value))
		if c.Wants(held, c.subject(i).ID) {
			emit(gearCurrentFinding(c, i, g, held))
		}
	}
}

func gearCurrentFinding(c *Context, i int, g *network.Gear, held bool) finding.Finding {
	s, in := c.subject(i), c.Beyond(i)
	f := finding.Finding{Code: "CTL-01", Level: level(held, finding.Stop), Subject: s, Source: makerSource, Figure: in.String(), Limit: g.Rating.Value.String()}
	var w lines
	w.add("I beyond %s = %s", s.Label, in)
	w.add("rating %s: %s", g.Rating.Value, meets(held))
	f.Text = s.Label + " carries " + in.String() + " of " + g.Rating.Value.String()
	if !held {
		f.Text = s.Label + " carries " + in.String() + ", more than its rating of " + g.Rating.Value.String()
		f.Remedies = []finding.Remedy{{Text: "use gear with a higher rating, or let it switch a contactor"}, {Text: "split what it switches"}}
	}
	f.Working = w.String()
	return f
}
