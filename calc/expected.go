package calc

import (
	"math"

	"duskwire/calc/check"
	q "duskwire/calc/quantity"
)

// expectedDrops returns, per node, the volts lost from the start of its system
// with every conductor at its operating temperature; NaN where it does not
// follow.
func expectedDrops(c *check.Context) []float64 {
	out := make([]float64, len(c.Net.Nodes))
	for i := range out {
		out[i] = math.NaN()
	}
	for _, i := range c.Tree.Order {
		b := c.Tree.Parent[i]
		if b < 0 || c.Net.Branches[b].Converter != nil {
			out[i] = 0
			continue
		}
		if v, ok := c.ExpectedDrop(b); ok {
			out[i] = out[c.Tree.Up(c.Net, i)] + float64(v)
		}
	}
	return out
}

// expectedVolts is the start of the node's system less the drop. The start of a
// wound source's system follows its input at table temperature, a hair low.
func expectedVolts(c *check.Context, i int, drop float64) q.Maybe[q.Volt] {
	if !c.Trusted() || math.IsNaN(drop) {
		return q.Maybe[q.Volt]{}
	}
	return q.Some(max(c.Volts(i)+c.Drop(i)-q.Volt(drop), 0))
}
