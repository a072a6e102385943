package check

import (
	"math"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// SRC-05: the current of a driver against that which its lamps are made for. Too
// much overheats the diodes; too little gives less light, and other volts across
// the lamp than its sheet says. The rule set's spread is the tolerance of drivers.
// Source: trade habit, current matched; the spread common practice, no source.
var driveRule = Rule{Code: "SRC-05", Title: "Current of a driver and its lamps", Run: drive}

func drive(c *Context, emit func(finding.Finding)) {
	spread := c.Rules.Limits.DriveSpread.Value
	nodeFindings(c, emit, func(i int) int { return c.Net.Nodes[i].System },
		func(i int) (float64, bool, bool) {
			n := &c.Net.Nodes[i]
			if !c.Driven(i) || c.Tree.Parent[i] < 0 || len(n.Loads) == 0 || n.Loads[0].Law != network.Driven {
				return 0, false, false
			}
			given, made := float64(c.Net.Systems[n.System].Drive), float64(n.Loads[0].Drive)
			off := math.Abs(given/made - 1)
			held := within(given, made*(1+spread)) && within(made*(1-spread), given)
			if given > made {
				off += 1e3 // too much current is worse than too little
			}
			return off, held, true
		},
		func(i int) finding.Finding { return driveFinding(c, i, spread) })
}

func driveFinding(c *Context, i int, spread float64) finding.Finding {
	s, b := c.subject(i), c.feed(i)
	given, made := c.Net.Branches[b].Converter.Drive, c.Net.Nodes[i].Loads[0].Drive
	over := !within(float64(given), float64(made)*(1+spread))
	held := !over && within(float64(made)*(1-spread), float64(given))
	f := finding.Finding{Code: "SRC-05", Level: level(held, finding.Stop), Subject: s, Source: seriesSource,
		Figure: given.String(), Limit: made.String() + " ± " + q.Percent(spread),
		Text: c.runSubject(b).Label + " drives " + s.Label + " at " + given.String() + "; it is made for " + made.String()}
	var w lines
	w.add("every lamp of a string carries the current of its driver: %s", given)
	w.add("%s is made for %s; taken as the same within ± %s, the tolerance of drivers (common practice, no source)", s.Label, made, q.Percent(spread))
	w.add("%s / %s = %s", given, made, num(float64(given/made), 3))
	switch {
	case over:
		f.Text += ": it overheats and does not last"
	case !held:
		w.add("light in proportion to the current: about %s of what its sheet says", q.Percent(float64(given/made)))
		f.Text += ": about " + q.Percent(float64(given/made)) + " of its light"
		f.Assumed = []string{"the volts across " + s.Label + " are those at " + made.String() + "; at less current they are a little lower"}
	}
	f.Working = w.String()
	if !held {
		f.Remedies = []finding.Remedy{
			{Text: "use a driver of the lamps' current", Figure: made.String()},
			{Text: "use lamps made for the current of the driver", Figure: given.String()},
		}
	}
	return f
}
