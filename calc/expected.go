package calc

import (
	"math"
	"math/cmplx"

	"duskwire/calc/cable"
	"duskwire/calc/check"
	q "duskwire/calc/quantity"
	"duskwire/calc/solve"
)

// expectedDrops returns, per node, the volts lost from the start of its system
// with every conductor at its operating temperature; NaN where it does not
// follow. Along a tree it is Σ Ct·mV/A/m·I·L with the currents of the design; in
// a system with a ring, where the currents move with the resistances, see
// warmRings.
func expectedDrops(c *check.Context) []float64 {
	out := make([]float64, len(c.Net.Nodes))
	for i := range out {
		out[i] = math.NaN()
	}
	warm := warmRings(c)
	for _, i := range c.Tree.Order {
		b := c.Tree.Parent[i]
		if b < 0 || c.Net.Branches[b].Converter != nil {
			out[i] = 0
			continue
		}
		if warm != nil && !math.IsNaN(warm[i]) {
			out[i] = warm[i]
			continue
		}
		if v, ok := c.ExpectedDrop(b); ok {
			out[i] = out[c.Tree.Up(c.Net, i)] + float64(v)
		}
	}
	return out
}

// warmRings returns, per node of a system that holds a ring, the volts lost from
// the start of the system with its conductors warm:
//
//	z' = Ct·z of every run, Ct at the temperature its design current makes
//
// and the circuit solved again, so that the currents divide anew and lamps answer
// to their volts. NaN elsewhere, and where the temperature of a run is not known:
// one of a ring moves the currents of all. nil without any ring.
func warmRings(c *check.Context) []float64 {
	if !c.Trusted() || len(c.Tree.Closed) == 0 {
		return nil
	}
	n := len(c.Net.Systems)
	looped, unknown := make([]bool, n), make([]bool, n)
	any := false
	z := impedances(c.Net)
	for b := range c.Net.Branches {
		br, far := &c.Net.Branches[b], c.Far(b)
		if far < 0 || br.Converter != nil {
			continue
		}
		sys := c.Net.Nodes[far].System
		if c.InRing(b) {
			looped[sys], any = true, true
		}
		if br.Strip != nil || br.Cable == nil || sys == 0 || c.Flow(b) == 0 || c.Net.Site.Conductor.Known {
			continue // no cable, no warmth of its own, or at its temperature already
		}
		if t, ok := c.Operating(b); ok {
			z[b] *= complex(cable.Ct(br.Cable, t), 0)
		} else {
			unknown[sys] = true
		}
	}
	if !any {
		return nil
	}
	s := solve.Solve(c.Net, ringed(c.Net, c.Tree), z)
	if s.Status.State != solve.Converged {
		return nil
	}
	out := make([]float64, len(c.Net.Nodes))
	start := make([]complex128, n)
	for _, i := range c.Tree.Order {
		sys, b := c.Net.Nodes[i].System, c.Tree.Parent[i]
		if b >= 0 && c.Net.Branches[b].Converter != nil {
			start[sys] = s.Voltage[i]
		}
		out[i] = math.NaN()
		if looped[sys] && !unknown[sys] {
			out[i] = cmplx.Abs(start[sys]) - cmplx.Abs(s.Voltage[i])
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
