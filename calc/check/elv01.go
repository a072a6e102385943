package check

import (
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// ELV-01: the current in extra-low-voltage cable above 80 % of what it carries.
// 50 W at 12 V are over 4 A, and a poor joint heats. Over the whole CAP-02
// speaks. The 80 % are common practice, no source.
var thinRule = Rule{Code: "ELV-01", Title: "Current in extra-low-voltage cable", Run: thin}

func thin(c *Context, emit func(finding.Finding)) {
	limit := c.Rules.Limits.ExtraLowCurrent
	if limit.Value <= 0 || !c.Trusted() {
		return
	}
	var keys []int
	var groups []failing
	for b := range c.Net.Branches {
		if !c.thinRun(b) {
			continue
		}
		use := float64(c.Flow(b)) / float64(c.Capacity[b].Iz)
		if !within(use, limit.Value) && within(use, 1) {
			at := slot(&keys, &groups, c.group(c.Far(b)))
			groups[at].add(b, use)
		} else if c.Asked(c.runSubject(b).ID) {
			emit(thinFinding(c, b))
		}
	}
	emitGroups(c, groups, func(b int) finding.Finding { return thinFinding(c, b) }, c.runSubject, emit)
}

// thinRun reports whether a run carries extra-low voltage and has a rating.
func (c *Context) thinRun(b int) bool {
	far := c.Far(b)
	return far >= 0 && c.Net.Nodes[far].System != 0 && c.nominal(far) <= extraLow && c.Capacity[b].Known && c.Capacity[b].Iz > 0
}

func thinFinding(c *Context, b int) finding.Finding {
	limit, s := c.Rules.Limits.ExtraLowCurrent, c.runSubject(b)
	f := finding.Finding{Code: "ELV-01", Level: finding.Held, Subject: s, Source: limit.Source}
	i, iz := c.Flow(b), c.Capacity[b].Iz
	held := within(float64(i), limit.Value*float64(iz))
	f.Figure, f.Limit = i.String(), q.Ampere(limit.Value*float64(iz)).String()
	var w lines
	w.add("I = %s, Iz = %s", i, iz)
	w.add("%s of it: %s: %s", q.Percent(limit.Value), q.Ampere(limit.Value*float64(iz)), meets(held))
	f.Working = w.String()
	f.Text = s.Label + " carries " + i.String() + " of " + iz.String()
	if !held && within(float64(i), float64(iz)) {
		f.Level = finding.Decide
		f.Text = s.Label + " carries " + i.String() + ", more than " + q.Percent(limit.Value) + " of the " + iz.String() + " of its cable: joints will run warm"
		f.Remedies = []finding.Remedy{{Text: "use the next larger cable"}, {Text: "split the lamps over two runs from the source, or use 24 V"}}
	}
	return f
}
