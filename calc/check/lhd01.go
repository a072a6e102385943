package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// LHD-01: lamps in bayonet or screw lampholders behind a device of at most 16 A.
// Source: BS 7671 559.5.1.204.
var lampholderRule = Rule{Code: "LHD-01", Title: "Device ahead of lampholders", Run: lampholder}

func lampholder(c *Context, emit func(finding.Finding)) {
	limit := c.Rules.Limits.LampholderMax
	if limit.Value <= 0 {
		return
	}
	nodeFindings(c, emit, c.group,
		func(i int) (float64, bool, bool) {
			n, z := &c.Net.Nodes[i], c.Zone(i)
			if n.System != 0 || n.Kind != network.LampNode || n.Fitting == nil || n.Fitting.Lampholder != network.Yes || z.Over == nil {
				return 0, false, false
			}
			return float64(z.Over.Rating), within(float64(z.Over.Rating), limit.Value), true
		},
		func(i int) finding.Finding { return lampholderFinding(c, i) })
}

func lampholderFinding(c *Context, i int) finding.Finding {
	limit, s, d := c.Rules.Limits.LampholderMax, c.subject(i), c.Zone(i).Over
	held := within(float64(d.Rating), limit.Value)
	f := finding.Finding{Code: "LHD-01", Level: level(held, finding.Stop), Subject: s, Source: limit.Source, Figure: d.Rating.String(), Limit: q.Ampere(limit.Value).String(),
		Text: s.Label + " takes its lamp in a lampholder, behind " + d.Label}
	var w lines
	w.add("%s has a bayonet or screw lampholder", s.Label)
	w.add("nearest device: %s, In = %s", d.Label, d.Rating)
	w.add("at most %s: %s", q.Ampere(limit.Value), meets(held))
	f.Working = w.String()
	if !held {
		f.Text = s.Label + " takes its lamp in a lampholder, behind " + d.Label + " of more than " + f.Limit
		f.Remedies = []finding.Remedy{{Text: "use a smaller device, or take the garden from a fused unit"}}
	}
	return f
}
