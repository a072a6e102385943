package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// Strings returns the outputs of the constant-current sources of the circuit.
func (c *Context) Strings() []network.String {
	c.prepare()
	return c.plan.driven
}

// Driven reports whether a node hangs on the output of a constant-current source.
func (c *Context) Driven(node int) bool {
	return node >= 0 && c.Net.Systems[c.Net.Nodes[node].System].Drive > 0
}

// Across returns the volts that the lamps of a node of a string take.
func (c *Context) Across(node int) q.Volt {
	var u q.Volt
	for _, l := range c.Net.Nodes[node].Loads {
		u += l.Nominal
	}
	return u
}

// Fits compares the volts of a string with the range of its driver: -1 below it,
// 1 above it, 0 within.
func (c *Context) Fits(s *network.String) int {
	cv, u := c.Net.Branches[s.Source].Converter, float64(c.Volts(s.Head))
	switch {
	case !within(u, float64(cv.Most)):
		return 1
	case !within(float64(cv.Least), u):
		return -1
	}
	return 0
}

// StringHolds reports whether the figures of the string that a node hangs on are
// an answer: it has lamps, does not fork, and lies within the range of its
// driver. True for a node that hangs on no string.
func (c *Context) StringHolds(node int) bool {
	if !c.Driven(node) {
		return true
	}
	for k := range c.Strings() {
		if s := &c.plan.driven[k]; s.System == c.Net.Nodes[node].System {
			return s.Lights() && c.Fits(s) == 0
		}
	}
	return false
}

// driverRange writes the volts between which a driver holds its current.
func driverRange(cv *network.Converter) string {
	if cv.Least <= 0 {
		return "up to " + cv.Most.String()
	}
	return cv.Least.String() + " to " + cv.Most.String()
}

// seriesSource is what the trade says about constant current.
var seriesSource = finding.Source{Standard: "trade habit", Clause: "constant current: lamps in series at the driver's current; constant voltage: lamps side by side", Evidence: finding.Found}
