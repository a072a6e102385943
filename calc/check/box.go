package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// boxFindings reports, of the boxes of the circuit that a rule looks at, the
// one furthest over its limit with the others beside it.
func boxFindings(c *Context, emit func(finding.Finding), judge func(i int, b *network.Box) (by float64, held, ok bool), build func(i int, b *network.Box) finding.Finding) {
	nodeFindings(c, emit, func(int) int { return 0 },
		func(i int) (float64, bool, bool) {
			b := c.Net.Nodes[i].Box
			if b == nil || c.Tree.Parent[i] < 0 {
				return 0, false, false
			}
			return judge(i, b)
		},
		func(i int) finding.Finding { return build(i, c.Net.Nodes[i].Box) })
}

// boxWorking starts the working about a box.
func boxWorking(c *Context, i int, b *network.Box) lines {
	var w lines
	fill := b.Fill.String()
	switch b.Fill {
	case network.FillUnknown:
		fill = "not said"
	case network.FillNone:
	default:
		fill = "filled with " + fill
	}
	w.add("%s: %s, %s, %s above ground", c.subject(i).Label, b.Name, b.IP, b.Height)
	made := "not made for burial"
	if b.Burial {
		made = "made for burial"
	}
	w.add("%s; fill: %s", made, fill)
	return w
}

// fillAssumed says what was taken when nobody said what a box is filled with.
func fillAssumed(c *Context, i int, b *network.Box) []string {
	if b.Fill != network.FillUnknown {
		return nil
	}
	return []string{"what " + c.subject(i).Label + " is filled with was not said: taken as nothing"}
}
