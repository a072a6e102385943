package solve

import (
	"math"
	"math/cmplx"
	"testing"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// fed is a strip on a source of 12 V behind two leads, to its near and its far
// end (Ω; below 0 for none). pieces 0 takes the two-ended form, otherwise the
// strip is cut into so many pieces with a lamp in the middle of each.
func fed(s network.Strip, near, far float64, pieces int) (g *grid, first, last int) {
	g = newGrid(12, network.DC)
	first = g.cable(0, complex(near, 0))
	if pieces == 0 {
		g.net.Nodes[first].Loads = []network.Load{s.End()}
		last = g.cable(first, complex(float64(s.Impedance()), 0), s.End())
	} else {
		piece := s.Load
		piece.Power /= q.Watt(pieces)
		half := complex(float64(s.Tracks)*float64(s.Length)/float64(2*pieces), 0)
		last = first
		for range pieces {
			last = g.cable(g.cable(last, half, piece), half)
		}
	}
	if far >= 0 {
		g.branch(network.Branch{From: 0, To: last}, complex(far, 0))
	}
	return g, first, last
}

// Outside check: the two-ended form against the strip cut into 400 pieces,
// solved as a ladder. Exact laws agree to the error of the cutting; constant
// power, which the form only approximates, within 1 % of the drop.
func TestStripAgainstLadder(t *testing.T) {
	load := func(law network.Law, watts float64) network.Load { return lamp(law, watts, 12, 1) }
	for _, row := range []struct {
		what       string
		load       network.Load
		near, far  float64
		tol, least float64 // V
	}{
		{"resistor strip, one end", load(network.ResistorStrip, 48), 0.05, -1, 1e-4, 1e-4},
		{"resistor strip, both ends", load(network.ResistorStrip, 48), 0.05, 0.2, 1e-4, 1e-4},
		{"resistor strip, far end nearer", load(network.ResistorStrip, 72), 0.5, 0.01, 1e-4, 1e-4},
		{"resistive, both ends", load(network.Resistive, 48), 0.05, 0.05, 1e-4, 1e-4},
		{"constant current, one end", load(network.ConstantCurrent, 48), 0.05, -1, 1e-6, 1e-6},
		{"constant current, both ends", load(network.ConstantCurrent, 48), 0.05, 0.2, 1e-6, 1e-4},
		{"constant power, one end", load(network.ConstantPower, 24), 0.05, -1, 0.03, 0.03},
		{"constant power, both ends", load(network.ConstantPower, 24), 0.05, 0.1, 0.01, 0.01},
	} {
		s := network.Strip{Load: row.load, Length: 5, Tracks: 0.1}
		two, a, b := fed(s, row.near, row.far, 0)
		ladder, c, d := fed(s, row.near, row.far, 400)
		got, want := two.mesh(), ladder.mesh()
		if got.Status.State != Converged || want.Status.State != Converged {
			t.Fatalf("%s: %+v, %+v", row.what, got.Status, want.Status)
		}
		near(t, row.what+": near end, V", real(got.Voltage[a]), real(want.Voltage[c]), row.tol)
		near(t, row.what+": far end, V", real(got.Voltage[b]), real(want.Voltage[d]), row.tol)
		lowest := math.Inf(1)
		for i := c; i < len(ladder.net.Nodes); i++ {
			lowest = math.Min(lowest, real(want.Voltage[i]))
		}
		least := s.Least(q.Volt(real(got.Voltage[a])), q.Volt(real(got.Voltage[b])))
		near(t, row.what+": weakest place, V", float64(least), lowest, row.least)
		for k := 0; k <= 400; k += 40 { // a piece has its middle and its end as nodes
			along := s.Volts(q.Volt(real(got.Voltage[a])), q.Volt(real(got.Voltage[b])), float64(k)/400)
			near(t, row.what+": along the strip, V", float64(along), real(want.Voltage[c+2*k]), row.tol)
		}
	}
}

// Feeding a strip at both ends from one place lifts its weakest place: of an
// even constant current the drop inside falls to a quarter (derived: r·I·ℓ/2 at
// the far end against r·I·ℓ/8 in the middle).
func TestStripFedAtBothEnds(t *testing.T) {
	s := network.Strip{Load: lamp(network.ConstantCurrent, 24, 12, 1), Length: 5, Tracks: 0.1}
	one, _, end := fed(s, 0, -1, 0)
	near(t, "one end, drop V", float64(one.mesh().Drop[end]), 0.1*2*5/2, 1e-9)
	both, a, b := fed(s, 0, 0, 0)
	sol := both.mesh()
	least := s.Least(q.Volt(cmplx.Abs(sol.Voltage[a])), q.Volt(cmplx.Abs(sol.Voltage[b])))
	near(t, "both ends, drop V", 12-float64(least), 0.1*2*5/8, 1e-5)
}

// Tracks without resistance leave a plain lamp.
func TestStripWithoutLoss(t *testing.T) {
	for _, law := range allLaws {
		s := network.Strip{Load: lamp(law, 10, 12, 1), Length: 2}
		if s.Impedance() != 0 || s.End().Power != 5 {
			t.Errorf("%v: %v, %v", law, s.Impedance(), s.End().Power)
		}
	}
}
