package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// ISO-01: something ahead of every mains lamp and source that opens all live
// conductors: an isolator, a switched fused unit, an RCBO or RCD that opens both
// poles. A spur unit of which nobody said that it has a switch is a decision.
// Source: BS 7671 462.2, 537.2.
var isolationRule = Rule{Code: "ISO-01", Title: "Point of isolation", Run: isolation}

var isolationSource = finding.Source{Standard: "BS 7671:2018", Clause: "462.2, 537.2", Edition: "18th edition, A2-era values", Evidence: finding.Memory}

func isolation(c *Context, emit func(finding.Finding)) {
	s := c.supplied()
	nodeFindings(c, emit, func(int) int { return 0 },
		func(i int) (float64, bool, bool) {
			n := &c.Net.Nodes[i]
			if n.System != 0 || c.Tree.Parent[i] < 0 || n.Kind != network.LampNode && n.Kind != network.PrimaryNode {
				return 0, false, false
			}
			return 1, s.cut[i], true
		},
		func(i int) finding.Finding { return isolationFinding(c, i) })
}

func isolationFinding(c *Context, i int) finding.Finding {
	s, held := c.subject(i), c.supplied().cut[i]
	lv := finding.Stop
	if c.Net.Supply.Kind == network.Spur {
		lv = finding.Decide
	}
	f := finding.Finding{Code: "ISO-01", Level: level(held, lv), Subject: s, Source: isolationSource, Limit: "one that opens all live conductors"}
	var w lines
	w.add("ahead of %s:", s.Label)
	for k := i; k >= 0; k = c.Tree.Up(c.Net, k) {
		if k == i {
			continue
		}
		n := &c.Net.Nodes[k]
		for m := range n.Devices {
			w.add("  %s: opens %s", n.Devices[m].Label, map[bool]string{true: "all live conductors", false: "the line only, as far as is known"}[n.Devices[m].Switching])
		}
		if n.Gear != nil && n.Gear.Switching {
			w.add("  %s: opens all live conductors", n.Label)
		}
		if n.Kind == network.SupplyNode && c.Net.Supply.Kind == network.Spur {
			w.add("  spur unit: %s", map[bool]string{true: "has a two-pole switch", false: "nobody said that it has a switch"}[c.Net.Supply.Switched])
		}
	}
	f.Text = "a point of isolation is ahead of " + s.Label
	if !held {
		w.add("nothing that isolates: the limit is not met")
		f.Text = "nothing ahead of " + s.Label + " opens all live conductors: no point of isolation"
		if lv == finding.Decide {
			f.Text = "no point of isolation ahead of " + s.Label + " is known; whether the spur unit has a two-pole switch is not said"
			f.Remedies = append(f.Remedies, finding.Remedy{Text: "use a switched fused unit and say so at the supply point"})
		}
		f.Remedies = append(f.Remedies, finding.Remedy{Text: "fit a two-pole isolator that can be locked, within reach and labelled"}, finding.Remedy{Text: "use an RCBO that opens both poles"})
	}
	f.Working = w.String()
	return f
}
