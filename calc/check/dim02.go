package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// DIM-02: the load of a dimmer against the least and the most that its maker
// gives; below the least, LED lamps flicker or stay on. Source: maker's data.
var dimmerRule = Rule{Code: "DIM-02", Title: "Load of a dimmer", Run: dimmer}

func dimmer(c *Context, emit func(finding.Finding)) {
	s := c.supplied()
	for i := range c.Net.Nodes {
		g := c.Net.Nodes[i].Gear
		if g == nil || !g.DimMin.Known && !g.DimMax.Known || s.on[i].watts == 0 {
			continue
		}
		f := dimmerFinding(c, i, g)
		if c.Wants(f.Level == finding.Held, f.Subject.ID) {
			emit(f)
		}
	}
}

func dimmerFinding(c *Context, i int, g *network.Gear) finding.Finding {
	s, load := c.subject(i), c.supplied().on[i].watts
	f := finding.Finding{Code: "DIM-02", Level: finding.Held, Subject: s, Source: makerSource, Figure: load.String(),
		Text: s.Label + " dims " + load.String()}
	var w lines
	w.add("load behind %s, rated: %s", s.Label, load)
	if g.DimMin.Known {
		held := within(float64(g.DimMin.Value), float64(load))
		w.add("least load: %s: %s", g.DimMin.Value, reaches(held))
		f.Limit = "at least " + g.DimMin.Value.String()
		if !held {
			f.Level = finding.Decide
			f.Text = s.Label + " dims only " + load.String() + "; below " + g.DimMin.Value.String() + " lamps may flicker or not go out"
			f.Remedies = []finding.Remedy{{Text: "use a dimmer with a smaller least load"}, {Text: "put more lamps on it, or the maker's base load"}}
		}
	}
	if g.DimMax.Known {
		held := within(float64(load), float64(g.DimMax.Value))
		w.add("most load: %s: %s", g.DimMax.Value, meets(held))
		if f.Level == finding.Held {
			f.Limit = "at most " + g.DimMax.Value.String()
		}
		if !held {
			f.Level = finding.Stop
			f.Text = s.Label + " dims " + load.String() + ", more than its " + g.DimMax.Value.String()
			f.Remedies = []finding.Remedy{{Text: "split the zone over two dimmers, or use a larger one"}}
		}
	}
	f.Working = w.String()
	return f
}
