package check

import (
	"math"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// EAR-06: metalwork of the garden within arm's reach of a class I lamp. Whoever
// touches both bridges whatever stands between them. Bonding it, moving the
// lamp or taking class II is the electrician's decision. A lamp higher above
// ground than arm's reach is out of it. Source: BS 7671 Part 2 and Fig 417 for
// the reach, 411.3.1.2, 415.2 for bonding (from memory).
var metalworkRule = Rule{Code: "EAR-06", Title: "Metalwork within reach of a class I lamp", Run: metalwork}

func metalwork(c *Context, emit func(finding.Finding)) {
	reach := c.Rules.Limits.Reach.Value
	if reach <= 0 {
		return
	}
	nodeFindings(c, emit, func(int) int { return 0 },
		func(i int) (float64, bool, bool) {
			n := &c.Net.Nodes[i]
			ok := n.Kind == network.LampNode && n.System == 0 && n.Class == network.ClassI && c.Tree.Parent[i] >= 0 &&
				n.Place != nil && n.Place.Metal != nil
			if !ok {
				return 0, false, false
			}
			d := float64(n.Place.Metal.Distance)
			return reach / math.Max(d, 0.001), !within(d, reach) || !within(float64(n.Height), reach), true
		},
		func(i int) finding.Finding { return metalworkFinding(c, i) })
}

func metalworkFinding(c *Context, i int) finding.Finding {
	n, s := &c.Net.Nodes[i], c.subject(i)
	limit := c.Rules.Limits.Reach
	reach := q.Metre(limit.Value)
	m := n.Place.Metal
	far, high := !within(float64(m.Distance), limit.Value), !within(float64(n.Height), limit.Value)
	f := finding.Finding{Code: "EAR-06", Level: level(far || high, finding.Decide), Subject: s, Also: []finding.Subject{m.Subject},
		Figure: m.Distance.String(), Limit: "further than " + reach.String(), Source: limit.Source}
	var w lines
	w.add("%s is class I; its metal is joined to the supply's earth", s.Label)
	w.add("%s: %s away on the plan, arm's reach %s", m.Subject.Label, m.Distance, reach)
	w.add("%s stands %s above ground", s.Label, n.Height)
	tncs := c.Net.Supply.Earthing == network.TNCS
	switch {
	case far:
		f.Text = "the nearest metalwork, " + m.Subject.Label + ", is out of reach of " + s.Label
	case high:
		f.Text = s.Label + " hangs higher than arm's reach above ground"
	case tncs:
		w.add("supply %s: if the supplier's neutral breaks, the metal of %s stands above true earth, and %s stands in it", c.Net.Supply.Earthing, s.Label, m.Subject.Label)
		f.Text = s.Label + " is class I and " + m.Distance.String() + " from " + m.Subject.Label +
			", on a TN-C-S supply: a broken supply neutral would put the supply's fault voltage between two pieces of metal that one person can touch; decide before anything is built"
	default:
		f.Text = s.Label + " is class I and " + m.Distance.String() + " from " + m.Subject.Label + ": both can be touched at once, decide whether to bond it, move the lamp or use class II"
	}
	if !far && !high {
		f.Remedies = reachRemedies(s, m, reach, tncs)
	}
	f.Working = w.String()
	return f
}

// reachRemedies says what takes the lamp out of the danger, with the metres.
func reachRemedies(s finding.Subject, m *network.Near, reach q.Metre, tncs bool) []finding.Remedy {
	out := []finding.Remedy{
		{Text: "use a class II lamp, or 12 V from a separated source, at " + s.Label},
		{Text: "move " + s.Label + " away from " + m.Subject.Label, Figure: "by more than " + (reach - m.Distance).String()},
	}
	if tncs {
		return append(out, finding.Remedy{Text: "give the garden an electrode of its own (TT) with a residual device, its armour kept apart from the house earth"})
	}
	return append(out, finding.Remedy{Text: "join " + m.Subject.Label + " to the protective conductor of " + s.Label + " by a supplementary bond"})
}
