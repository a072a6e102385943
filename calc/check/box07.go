package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// BOX-07: many lamp leads in one box: hard to close and to test. Source: common
// practice, no source; the number is the rule set's.
var leadsRule = Rule{Code: "BOX-07", Title: "Lamp leads in a box", Run: leads}

func leads(c *Context, emit func(finding.Finding)) {
	most := c.Rules.Limits.LampLeads
	if most.Value <= 0 {
		return
	}
	number := c.lampLeads()
	boxFindings(c, emit,
		func(i int, _ *network.Box) (float64, bool, bool) {
			n := float64(number[i])
			return n / most.Value, within(n, most.Value), n > 0
		},
		func(i int, b *network.Box) finding.Finding {
			n, s := number[i], c.subject(i)
			held := within(float64(n), most.Value)
			var w lines
			w.add("%s: %s", s.Label, b.Name)
			w.add("cables from it straight to a lamp: %d, comfortable: %s", n, num(most.Value, 0))
			return finding.Finding{Code: "BOX-07", Level: level(held, finding.Note), Subject: s,
				Figure: count(n, "lamp lead", "lamp leads"), Limit: num(most.Value, 0), Source: most.Source,
				Text: s.Label + " takes " + count(n, "lamp lead", "lamp leads"), Working: w.String()}
		})
}

// lampLeads returns for every node the number of cables from it to a lamp.
func (c *Context) lampLeads() []int {
	out := make([]int, len(c.Net.Nodes))
	for b := range c.Net.Branches {
		br := &c.Net.Branches[b]
		if c.Far(b) < 0 || br.Cable == nil {
			continue
		}
		if c.Net.Nodes[br.To].Kind == network.LampNode {
			out[br.From]++
		}
		if c.Net.Nodes[br.From].Kind == network.LampNode {
			out[br.To]++
		}
	}
	return out
}
