package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// RCD-01: additional protection by a residual device of at most 30 mA ahead of
// every mains lamp. Ahead of a source that feeds only separated extra-low
// voltage the clause may be read either way, so the electrician decides.
// Source: BS 7671 411.3.4, 415.1.1.
var residualRule = Rule{Code: "RCD-01", Title: "Residual device ahead of lamps", Run: residual}

func residual(c *Context, emit func(finding.Finding)) {
	limit := c.Rules.Limits.Residual
	if limit.Value <= 0 {
		return
	}
	nodeFindings(c, emit,
		func(int) int { return 0 },
		func(i int) (float64, bool, bool) {
			n := &c.Net.Nodes[i]
			if n.System != 0 || c.Tree.Parent[i] < 0 || (n.Kind != network.LampNode && n.Kind != network.PrimaryNode) {
				return 0, false, false
			}
			by := 1.0
			if n.Kind == network.LampNode {
				by = 2 // a lamp is the worse place to go without
			}
			return by, c.guarded(i), true
		},
		func(i int) finding.Finding { return residualFinding(c, i) })
}

// guarded reports whether a residual device within the limit is ahead.
func (c *Context) guarded(i int) bool {
	z := c.Zone(i)
	return z.Residual != nil && within(float64(z.Residual.Residual), c.Rules.Limits.Residual.Value)
}

func residualFinding(c *Context, i int) finding.Finding {
	limit, z, s := c.Rules.Limits.Residual, c.Zone(i), c.subject(i)
	held := c.guarded(i)
	lv := finding.Stop
	if c.Net.Nodes[i].Kind == network.PrimaryNode {
		lv = finding.Decide
	}
	f := finding.Finding{Code: "RCD-01", Level: level(held, lv), Subject: s, Source: limit.Source,
		Limit: "at most " + milliamps(q.Ampere(limit.Value))}
	var w lines
	w.add("IΔn of some device ahead of %s ≤ %s", s.Label, milliamps(q.Ampere(limit.Value)))
	for _, d := range c.Loops[i].Upstream {
		if d.ResidualPart() {
			w.add("  %s: IΔn = %s", d.Label, milliamps(d.Residual))
		} else {
			w.add("  %s: no residual part", d.Label)
		}
	}
	if z.Residual != nil {
		f.Figure = milliamps(z.Residual.Residual)
	}
	f.Text = "no residual device of " + milliamps(q.Ampere(limit.Value)) + " or less ahead of " + s.Label
	if held {
		f.Text = z.Residual.Label + " gives additional protection at " + s.Label
	} else {
		f.Remedies = []finding.Remedy{{Text: "fit an RCBO of 30 mA, type A or better for LED drivers, for this circuit", Tried: true}}
	}
	if z.Residual == nil {
		w.add("there is none: the limit is not met")
	} else {
		w.add("smallest: %s: %s", f.Figure, meets(held))
	}
	f.Working = w.String()
	return f
}

// milliamps writes a residual current the way it stands on the device.
func milliamps(a q.Ampere) string { return num(float64(a)*1e3, 1) + " mA" }
