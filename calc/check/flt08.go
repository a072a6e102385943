package check

import (
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// FLT-08: a loop that meets its limit hot, but whose cold reading is expected
// above 80 % of it. Both ways of judging are in use; whoever tests by the 80 %
// rule would fail a circuit that the design proves. It happens where Ze makes
// up much of the loop, since Ze does not cool. Source: BS 7671 411.4.4 and
// Appendix 3.
var coldReadingRule = Rule{Code: "FLT-08", Title: "Cold reading of the loop against 80 %", Run: coldReading}

func coldReading(c *Context, emit func(finding.Finding)) {
	if !c.tn() || c.Rules.Protect.Cold <= 0 {
		return
	}
	nodeFindings(c, emit, c.group,
		func(i int) (float64, bool, bool) {
			limit, ok := c.designLimit(i)
			if !ok || !within(float64(c.Loops[i].Hot), float64(limit)) {
				return 0, false, false // FLT-01 and FLT-02 speak about that
			}
			cold, most := float64(c.TestLoop(i)), float64(limit)*c.Rules.Protect.Cold
			return cold / most, within(cold, most), true
		},
		func(i int) finding.Finding { return coldReadingFinding(c, i) })
}

// designLimit is the largest loop of the device ahead of a node whose loop was
// computed to its end; a supply point that was measured is FLT-02's.
func (c *Context) designLimit(i int) (q.Ohm, bool) {
	z := c.Zone(i)
	if !z.Loop.Known || !c.proved(i) || (c.apart(i) && c.Loops[i].Measured) {
		return 0, false
	}
	return z.Loop.Value, true
}

func coldReadingFinding(c *Context, i int) finding.Finding {
	t, z, s, l := &c.Rules.Protect, c.Zone(i), c.subject(i), &c.Loops[i]
	limit, _ := c.designLimit(i)
	cold, most := c.TestLoop(i), limit*q.Ohm(t.Cold)
	held := within(float64(cold), float64(most))
	f := finding.Finding{Code: "FLT-08", Level: level(held, finding.Note), Subject: s, Source: t.ColdSource,
		Figure: cold.String(), Limit: most.String()}
	var w lines
	w.add("design: Zs hot = %s, largest loop of %s = %s: meets the limit", l.Hot, z.Over.Label, limit)
	w.add("Zs cold at 20 °C = %s", l.Cold)
	at := c.testTemp()
	if c.Net.Site.Test <= 0 {
		f.Assumed = []string{"temperature on the day of the test not given: 20 °C taken"}
	}
	w.add("Zs as a tester reads it with conductors at %s: %s", at, cold)
	w.add("%s × %s = %s", num(t.Cold, 2), limit, most)
	w.add("%s against %s: %s", cold, most, meets(held))
	f.Working = w.String()
	f.Text = "fault loop at " + s.Label + " meets its limit by design; the tester will read about " + cold.String() + ", within " + most.String() + ", " + q.Percent(t.Cold) + " of the table"
	if !held {
		f.Text = "fault loop at " + s.Label + " meets its limit by design, but the tester will read about " + cold.String() + ", and " + q.Percent(t.Cold) + " of the table is " + most.String()
		f.Remedies = []finding.Remedy{
			{Text: "tell whoever tests that the design value at operating temperature is " + l.Hot.String() + " against " + limit.String()},
			{Text: "use a thicker cable, curve B or a smaller rating, and the reading falls within the rule too"},
		}
	}
	return f
}
