package solve

import (
	"math"
	"math/cmplx"
	"testing"

	"duskwire/calc/network"
)

// Two nodes have a steady state up to
//
//	R·P + X·Q + |Z|·|S| = E²/2
//
// from the real roots of |v|⁴ + (2(RP+XQ) - E²)·|v|² + |Z|²|S|² = 0; with
// direct current that is P = E²/(4R), at v = E/2 (derived; maximum power
// transfer).
func TestCollapsePoint(t *testing.T) {
	for _, row := range []struct {
		what string
		e    float64
		kind network.Current
		z    complex128
		pf   float64
	}{
		{"12 V DC", 12, network.DC, 0.8, 1},
		{"24 V DC", 24, network.DC, 0.3, 1},
		{"230 V, unity", 230, network.AC, 5, 1},
		{"230 V, 0.5 lagging", 230, network.AC, 5, 0.5},
		{"230 V, reactive cable", 230, network.AC, 5 + 4i, 0.9},
		{"230 V, reactance only", 230, network.AC, 6i, 0.7},
		{"12 V AC, 0.6 lagging", 12, network.AC, 0.5 + 0.1i, 0.6},
	} {
		t.Run(row.what, func(t *testing.T) {
			tan := math.Sqrt(1-row.pf*row.pf) / row.pf
			most := row.e * row.e / 2 / (real(row.z) + imag(row.z)*tan + cmplx.Abs(row.z)/row.pf)
			for _, at := range []struct {
				share float64
				state State
			}{
				{0.5, Converged}, {0.9, Converged}, {0.999, Converged}, {1 - 1e-5, Converged},
				{1 + 1e-5, Collapsed}, {1.001, Collapsed}, {1.5, Collapsed}, {10, Collapsed}, {1e6, Collapsed},
			} {
				g := newGrid(row.e, row.kind)
				end := g.cable(0, row.z, lamp(network.ConstantPower, at.share*most, row.e, row.pf))
				s := g.solve()
				if s.Status.State != at.state {
					t.Fatalf("at %g of the limit: %+v, want %v", at.share, s.Status, at.state)
				}
				v := square(s.Voltage[end])
				sum := row.e*row.e - 2*at.share*most*(real(row.z)+imag(row.z)*tan)
				if at.state == Converged {
					// the upper of the two roots
					p := at.share * most / row.pf * cmplx.Abs(row.z)
					near(t, "|v|", math.Sqrt(v), math.Sqrt((sum+math.Sqrt(sum*sum-4*p*p))/2), 1e-6*row.e)
					continue
				}
				if s.Status.Worst != end {
					t.Errorf("worst node %d, want %d", s.Status.Worst, end)
				}
				near(t, "carried", s.Status.Carried*at.share, 1, 5e-6*math.Max(1, at.share))
			}
		})
	}
}

// The node named is the one at the end of the chain, not the one that
// happens to be first.
func TestCollapseNamesTheEnd(t *testing.T) {
	for _, law := range []network.Law{network.ConstantPower, network.ConstantCurrent} {
		s := border(12, 0.2, law).solve()
		if s.Status.State != Collapsed || s.Status.Worst != 10 {
			t.Errorf("%v: status %+v, want a collapse at node 10", law, s.Status)
		}
		if s.Status.Sweeps > 1000 {
			t.Errorf("%v: %d sweeps", law, s.Status.Sweeps)
		}
	}
	if s := border(12, 0.2, network.Resistive).solve(); s.Status.State != Converged {
		t.Errorf("resistive lamps always have a steady state: %+v", s.Status)
	}
}

// Constant current asks more of the cable than the supply has: R·I >= E.
func TestConstantCurrentLimit(t *testing.T) {
	for watts, want := range map[float64]State{12 * 11.99: Converged, 12 * 12.01: Collapsed} {
		g := newGrid(12, network.DC)
		g.cable(0, 1, lamp(network.ConstantCurrent, watts, 12, 1))
		if s := g.solve(); s.Status.State != want {
			t.Errorf("%g W: %+v, want %v", watts, s.Status, want)
		}
	}
}

// Behind a source: EMF 12·1.06 V, regulation 0.144 Ω, cable 0.5 Ω.
func TestCollapseBehindSource(t *testing.T) {
	most := math.Pow(12*1.06, 2) / 4 / 0.644
	for share, want := range map[float64]State{0.999: Converged, 1.001: Collapsed} {
		g := newGrid(230, network.AC)
		sec := g.source(0, network.Converter{Nominal: 12, Rated: 60, Rise: 0.06, Efficiency: 0.9, PowerFactor: 0.9})
		end := g.cable(sec, 0.5, lamp(network.ConstantPower, share*most, 12, 1))
		s := g.solve()
		if s.Status.State != want {
			t.Errorf("at %g: %+v, want %v", share, s.Status, want)
		}
		if want == Collapsed && s.Status.Worst != end {
			t.Errorf("worst %d, want %d", s.Status.Worst, end)
		}
	}
}

// Sources are constant power to the mains: too many at the end of a poor
// cable bring the primary side down.
func TestCollapseAheadOfSource(t *testing.T) {
	for _, regulated := range []bool{true, false} {
		g := newGrid(230, network.AC)
		box := g.cable(0, 400)
		sec := g.source(box, network.Converter{Nominal: 12, Rated: 60, Regulated: regulated, Efficiency: 0.9, PowerFactor: 1})
		g.cable(sec, 0.01, lamp(network.ConstantPower, 60, 12, 1))
		if s := g.solve(); s.Status.State != Collapsed {
			t.Errorf("regulated %v: %+v", regulated, s.Status)
		}
	}
}

// A figure that is no number ends as a result too.
func TestNotANumber(t *testing.T) {
	for _, z := range []complex128{cmplx.NaN(), cmplx.Inf()} {
		g := newGrid(12, network.DC)
		g.cable(0, 0.1, lamp(network.ConstantPower, 5, 12, 1))
		bad := g.cable(1, z, lamp(network.ConstantPower, 5, 12, 1))
		if s := g.solve(); s.Status.State != Collapsed || s.Status.Worst != bad {
			t.Errorf("z = %v: %+v, want node %d", z, s.Status, bad)
		}
	}
}

func TestSweepLimit(t *testing.T) {
	g := border(12, 0.0242, network.ConstantPower)
	if s := (&Solver{net: g.net, tree: g.tree}).run(g.z, 2, false); s.Status.State != Unfinished || s.Status.Sweeps != 2 {
		t.Errorf("%+v, want unfinished after 2 sweeps", s.Status)
	}
}

// v² - 12·v + 20 = 0 has the roots 10 V and 2 V. The lower one is no steady
// state of a real lamp: started there, an attempt has to refuse it.
func TestLowerRootIsRefused(t *testing.T) {
	g := newGrid(12, network.DC)
	end := g.cable(0, 1, lamp(network.ConstantPower, 20, 12, 1))
	for start, want := range map[complex128]bool{2: false, 11: true} {
		s := prepare(g.net, g.tree, g.z)
		s.limit, s.share = 100, 1
		s.cells[end].v = start
		if ok, _ := s.attempt(); ok != want {
			t.Errorf("from %v V: accepted %v at %v V", start, ok, s.cells[end].v)
		}
	}
}
