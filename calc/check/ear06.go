package check

import (
	"math"
	"slices"

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
				n.Place != nil && len(n.Place.Metals) > 0
			if !ok {
				return 0, false, false
			}
			d := float64(n.Place.Metals[0].Distance)
			return reach / math.Max(d, 0.001), len(c.reached(i)) == 0, true
		},
		func(i int) finding.Finding { return metalworkFinding(c, i) })
}

// reached is the metalwork that a person can touch together with the class I
// lamp at a node, the nearest first.
func (c *Context) reached(i int) []network.Near {
	n, reach := &c.Net.Nodes[i], c.Rules.Limits.Reach.Value
	if n.Kind != network.LampNode || n.System != 0 || n.Class != network.ClassI || c.Tree.Parent[i] < 0 ||
		n.Place == nil || !within(float64(n.Height), reach) {
		return nil
	}
	k := 0
	for k < len(n.Place.Metals) && within(float64(n.Place.Metals[k].Distance), reach) {
		k++
	}
	return n.Place.Metals[:k]
}

func metalworkFinding(c *Context, i int) finding.Finding {
	n, s := &c.Net.Nodes[i], c.subject(i)
	limit := c.Rules.Limits.Reach
	reach := q.Metre(limit.Value)
	near := c.reached(i)
	held, m := len(near) == 0, n.Place.Metals[0]
	f := finding.Finding{Code: "EAR-06", Level: level(held, finding.Decide), Subject: s, Also: []finding.Subject{m.Subject},
		Figure: m.Distance.String(), Limit: "further than " + reach.String(), Source: limit.Source}
	var w lines
	w.add("%s is class I; its metal is joined to the supply's earth", s.Label)
	w.add("%s: %s away on the plan, arm's reach %s", m.Subject.Label, m.Distance, reach)
	w.add("%s stands %s above ground", s.Label, n.Height)
	tncs := c.Net.Supply.Earthing == network.TNCS
	switch {
	case !within(float64(m.Distance), limit.Value):
		f.Text = "the nearest metalwork, " + m.Subject.Label + ", is out of reach of " + s.Label
	case held:
		f.Text = s.Label + " hangs higher than arm's reach above ground"
	case tncs:
		w.add("supply %s: if the supplier's neutral breaks, the metal of %s stands above true earth, and %s stands in it", c.Net.Supply.Earthing, s.Label, m.Subject.Label)
		f.Text = s.Label + " is class I and " + m.Distance.String() + " from " + m.Subject.Label +
			", on a TN-C-S supply: a broken supply neutral would put the supply's fault voltage between two pieces of metal that one person can touch; decide before anything is built"
	default:
		f.Text = s.Label + " is class I and " + m.Distance.String() + " from " + m.Subject.Label + ": both can be touched at once, decide whether to bond it, move the lamp or use class II"
	}
	if !held {
		f.Remedies = reachRemedies(s, m, reach, tncs)
		c.otherMetal(i, &f, &w)
	}
	f.Working = w.String()
	return f
}

// otherMetal names the rest of the metalwork within reach of the lamp, and what
// is within reach of the other class I lamps of the circuit.
func (c *Context) otherMetal(i int, f *finding.Finding, w *lines) {
	name := func(m network.Near) {
		if !slices.Contains(f.Also, m.Subject) {
			f.Also = append(f.Also, m.Subject)
		}
	}
	for k, m := range c.reached(i)[1:] {
		name(m)
		w.add("%s: %s away on the plan, within reach as well", m.Subject.Label, m.Distance)
		if k == 0 {
			f.Text += "; also within its reach: " + m.Subject.Label
		} else {
			f.Text += ", " + m.Subject.Label
		}
	}
	for k := range c.Net.Nodes {
		if k == i {
			continue
		}
		for _, m := range c.reached(k) {
			name(m)
			w.add("%s: %s is %s away", c.subject(k).Label, m.Subject.Label, m.Distance)
		}
	}
}

// reachRemedies says what takes the lamp out of the danger, with the metres.
func reachRemedies(s finding.Subject, m network.Near, reach q.Metre, tncs bool) []finding.Remedy {
	out := []finding.Remedy{
		{Text: "use a class II lamp, or 12 V from a separated source, at " + s.Label},
		{Text: "move " + s.Label + " away from " + m.Subject.Label, Figure: "by more than " + (reach - m.Distance).String()},
	}
	if tncs {
		return append(out, finding.Remedy{Text: "give the garden an electrode of its own (TT) with a residual device, its armour kept apart from the house earth"})
	}
	return append(out, finding.Remedy{Text: "join " + m.Subject.Label + " to the protective conductor of " + s.Label + " by a supplementary bond"})
}
