package check

import (
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// VD-03: the voltage at a lamp against the limits its maker gives and the
// drop-out of its driver; of a strip at its weakest place. A lamp without limits
// of its own is not looked at. Source: the maker's data.
var lampVoltageRule = Rule{Code: "VD-03", Title: "Lamp within its own voltage limits", Run: lampVoltage}

var makerSource = finding.Source{Standard: "maker's data in the stock book"}

// LampLimits returns the tightest limits of the loads at a node, 0 for none.
func (c *Context) LampLimits(i int) (low, high q.Volt) {
	for _, l := range c.Net.Nodes[i].Loads {
		low = max(low, l.Lowest())
		if l.Maximum > 0 && (high == 0 || l.Maximum < high) {
			high = l.Maximum
		}
	}
	return low, high
}

func lampVoltage(c *Context, emit func(finding.Finding)) {
	if !c.Trusted() {
		return
	}
	for _, over := range []bool{false, true} {
		nodeFindings(c, emit,
			func(i int) int { return c.Net.Nodes[i].System },
			func(i int) (float64, bool, bool) { return c.lampMargin(i, over) },
			func(i int) finding.Finding { return lampVoltageFinding(c, i, over) })
	}
}

// lampMargin judges a lamp against its lower or its upper limit.
func (c *Context) lampMargin(i int, over bool) (by float64, held, ok bool) {
	if len(c.Net.Nodes[i].Loads) == 0 || c.Tree.Parent[i] < 0 {
		return 0, false, false
	}
	low, high := c.LampLimits(i)
	u := float64(c.weakest(i))
	if over {
		u = float64(c.phasor(i)) // the higher of the two is the careful one here
		return u / float64(high), within(u, float64(high)), high > 0
	}
	if u <= 0 {
		return 1e9, false, low > 0
	}
	return float64(low) / u, within(float64(low), u), low > 0
}

// weakest is the voltage at a node, of a strip the lowest along it.
func (c *Context) weakest(i int) q.Volt {
	c.prepare()
	u := c.Volts(i)
	for _, b := range c.plan.strips {
		if br := &c.Net.Branches[b]; br.From == i || br.To == i {
			u = min(u, br.Strip.Least(c.Volts(br.From), c.Volts(br.To)))
		}
	}
	return u
}

// dropsOut reports whether a driver at the node goes out or flickers at u.
func (c *Context) dropsOut(i int, u q.Volt) (q.Volt, bool) {
	for _, l := range c.Net.Nodes[i].Loads {
		if l.Dropout > 0 && u < l.Dropout {
			return l.Dropout, true
		}
	}
	return 0, false
}

func lampVoltageFinding(c *Context, i int, over bool) finding.Finding {
	_, held, _ := c.lampMargin(i, over)
	low, high := c.LampLimits(i)
	u, s := c.weakest(i), c.subject(i)
	limit, side := low, "at least "
	if over {
		u, limit, side = c.phasor(i), high, "at most "
	}
	f := finding.Finding{Code: "VD-03", Level: level(held, finding.Stop), Subject: s, Source: makerSource,
		Figure: u.String(), Limit: side + limit.String(), Assumed: c.dropAssumed(i)}
	w := dropWorking(c, i)
	if !over && u < c.Volts(i) {
		w.add("the strip is fed at both ends; its weakest place is between them: %s", u)
	}
	if b := c.feed(i); over && b >= 0 && !c.Net.Branches[b].Converter.Regulated {
		cv := c.Net.Branches[b].Converter
		w.add("%s is wound: U2 = %s × (1 + %s) without load, %s at its rating of %s", c.Net.Branches[b].Label,
			cv.Nominal, q.Percent(cv.Rise), cv.Nominal, cv.Rated)
	}
	if over && u != c.Volts(i) {
		w.add("against the upper limit the higher reading counts, with the phase of the currents: %s", u)
	}
	w.add("limits of the lamp: %s%s", side, limit)
	w.add("%s at %s: %s", u, s.Label, map[bool]string{true: "within its limits", false: "outside its limits"}[held])
	f.Text = s.Label + " stands at " + u.String() + "; its maker asks for " + side + limit.String()
	if out, ok := c.dropsOut(i, u); ok && !over {
		w.add("its driver drops out below %s", out)
		f.Text += "; below " + out.String() + " its driver drops out: dark or flickering"
	}
	f.Working = w.String()
	switch {
	case held:
	case over:
		f.Remedies = []finding.Remedy{{Text: "load the source nearer its rating, or use a regulated source"}}
	default:
		f.Remedies = dropRemedies(c, i, low-u, func(saved q.Volt) string { return (u + saved).String() + " at " + s.Label })
	}
	return f
}
