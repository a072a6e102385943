package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	"duskwire/calc/protect"
)

// SEL-02: two residual devices in series tell a fault apart only when the one
// ahead is delayed and at least three times as large. Otherwise a fault in the
// garden may darken the house, which the electrician decides. Source: BS 7671
// 536.4.1.4 (from memory).
var residualApartRule = Rule{Code: "SEL-02", Title: "Residual devices in series", Run: residualApart}

func residualApart(c *Context, emit func(finding.Finding)) {
	ratio := c.Rules.Limits.ResidualRatio
	if ratio.Value <= 0 {
		return
	}
	emit, flush := single(emit)
	defer flush()
	for _, i := range c.Tree.Order {
		node := &c.Net.Nodes[i]
		if len(node.Devices) == 0 || node.System != 0 {
			continue
		}
		var ahead *network.Device
		for k := range c.Loops[i].Upstream {
			if d := &c.Loops[i].Upstream[k]; d.ResidualPart() {
				ahead = d
			}
		}
		for k := range node.Devices {
			d := &node.Devices[k]
			if !d.ResidualPart() {
				continue
			}
			if ahead != nil {
				held := protect.ResidualApart(*ahead, *d, ratio.Value)
				if s := c.subject(i); c.Wants(held, s.ID) {
					emit(residualApartFinding(s, ahead, d, ratio, held))
				}
			}
			ahead = d
		}
	}
}

func residualApartFinding(s finding.Subject, ahead, d *network.Device, ratio Limit, held bool) finding.Finding {
	times := float64(ahead.Residual) / float64(d.Residual)
	f := finding.Finding{Code: "SEL-02", Level: level(held, finding.Decide), Subject: s, Source: ratio.Source,
		Figure: num(times, 2) + " : 1", Limit: "delayed and at least " + num(ratio.Value, 2) + " : 1"}
	delay := map[bool]string{true: "delayed (type S)", false: "not delayed"}
	var w lines
	w.add("the device ahead is delayed and IΔn ahead ≥ %s · IΔn behind", num(ratio.Value, 2))
	w.add("ahead: %s, %s, %s", ahead.Label, milliamps(ahead.Residual), delay[ahead.Delayed])
	w.add("behind: %s, %s, %s", d.Label, milliamps(d.Residual), delay[d.Delayed])
	w.add("ratio %s : 1, %s: %s", num(times, 2), delay[ahead.Delayed], map[bool]string{true: "meets the limit", false: "does not meet the limit"}[held])
	f.Working = w.String()
	f.Text = d.Label + " opens before " + ahead.Label + " ahead of it"
	if !held {
		f.Text = "a fault to earth behind " + d.Label + " may open " + ahead.Label + " ahead of it as well or instead"
		f.Remedies = []finding.Remedy{
			{Text: "feed the garden from ahead of " + ahead.Label + ", or put a delayed device of at least " + num(float64(d.Residual)*ratio.Value*1e3, 0) + " mA in its place"},
			{Text: "leave out " + d.Label + " where " + ahead.Label + " already gives what the lamps need, and accept that it protects both"},
		}
	}
	return f
}
