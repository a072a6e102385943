package check

import (
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// RCD-04: a residual device that is there for additional protection must open
// without delay, within 40 ms at five times its rating; a delayed one gives
// none. Source: BS 7671 415.1.1.
var promptRule = Rule{Code: "RCD-04", Title: "Additional protection without delay", Run: prompt}

var promptSource = finding.Source{Standard: "BS 7671:2018", Clause: "415.1.1, 531.3.5", Edition: "18th edition, A2-era values", Evidence: finding.Memory}

func prompt(c *Context, emit func(finding.Finding)) {
	limit := c.Rules.Limits.Residual
	if limit.Value <= 0 {
		return
	}
	nodeFindings(c, emit, func(int) int { return 0 },
		func(i int) (float64, bool, bool) {
			n := &c.Net.Nodes[i]
			if n.System != 0 || c.Tree.Parent[i] < 0 || c.supplied().on[i].points == 0 || !c.guarded(i) || len(c.Tree.Kids[i]) > 0 && len(n.Loads) == 0 {
				return 0, false, false
			}
			return 1, c.prompt(i), true
		},
		func(i int) finding.Finding { return promptFinding(c, i) })
}

// prompt reports whether a residual device within the limit and without delay
// is ahead of a node.
func (c *Context) prompt(i int) bool {
	for _, d := range c.Loops[i].Upstream {
		if d.ResidualPart() && !d.Delayed && within(float64(d.Residual), c.Rules.Limits.Residual.Value) {
			return true
		}
	}
	return false
}

func promptFinding(c *Context, i int) finding.Finding {
	s, held := c.subject(i), c.prompt(i)
	f := finding.Finding{Code: "RCD-04", Level: level(held, finding.Stop), Subject: s, Source: promptSource, Limit: "no delay"}
	var w lines
	for _, d := range c.Loops[i].Upstream {
		if d.ResidualPart() {
			w.add("%s: IΔn = %s, %s", d.Label, milliamps(d.Residual), map[bool]string{true: "delayed", false: "no delay"}[d.Delayed])
		}
	}
	w.add("one of at most %s without delay is asked for: %s", milliamps(q.Ampere(c.Rules.Limits.Residual.Value)), map[bool]string{true: "there is one", false: "there is none"}[held])
	f.Text = "the residual device ahead of " + s.Label + " opens without delay"
	if !held {
		f.Text = "the only residual device of " + milliamps(q.Ampere(c.Rules.Limits.Residual.Value)) + " ahead of " + s.Label + " is delayed and gives no additional protection"
		f.Remedies = []finding.Remedy{{Text: "fit a device of 30 mA without delay for the garden"}}
	}
	f.Working = w.String()
	return f
}
