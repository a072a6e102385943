package solve

import (
	"math"
	"math/cmplx"
	"testing"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// near fails unless got is within tol of want.
func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.9g, want %.9g ± %g", what, got, want, tol)
	}
}

// border is the twelve-volt border of the trade notes, scenario 2: ten 5 W
// spikes on one chain, the first at `first` metres, then every 3 m. perMetre
// is the loop resistance at 20 °C.
func border(nominal, perMetre float64, law network.Law) *grid {
	g := newGrid(nominal, network.AC)
	at := 0
	for k := range 10 {
		length := 3.0
		if k == 0 {
			length = 5
		}
		at = g.cable(at, complex(length*perMetre, 0), lamp(law, 5, nominal, 1))
	}
	return g
}

// Loop resistances: 2 × R20 of IEC 60228 class 2 (12.10, 7.41, 4.61 Ω/km).
// Figures: trade notes, scenario 2 (invented, worked by hand there).
func TestDimEndOfBorder(t *testing.T) {
	const r15, r25, r40 = 0.0242, 0.01482, 0.00922
	for _, row := range []struct {
		what              string
		nominal, perMetre float64
		law               network.Law
		last, amps, tol   float64
	}{
		{"constant current, 1.5 mm²", 12, r15, network.ConstantCurrent, 10.13, 4.167, 0.005},
		{"constant power, 1.5 mm²", 12, r15, network.ConstantPower, 9.79, 4.8, 0.005},
		{"constant current, 2.5 mm²", 12, r25, network.ConstantCurrent, 10.86, 4.167, 0.005},
		{"constant power, 2.5 mm²", 12, r25, network.ConstantPower, 10.75, 4.53, 0.005},
		{"constant current, 4 mm²", 12, r40, network.ConstantCurrent, 11.29, 4.167, 0.005},
		{"24 V, 1.5 mm²", 24, r15, network.ConstantCurrent, 23.07, 2.083, 0.005},
	} {
		t.Run(row.what, func(t *testing.T) {
			g := border(row.nominal, row.perMetre, row.law)
			s := g.solve()
			if s.Status.State != Converged {
				t.Fatalf("status %+v", s.Status)
			}
			near(t, "last lamp, V", cmplx.Abs(s.Voltage[10]), row.last, row.tol)
			near(t, "drop there, V", float64(s.Drop[10]), row.nominal-row.last, row.tol)
			near(t, "from the source, A", cmplx.Abs(s.Current[0]), row.amps, 0.05)
		})
	}
	s := border(12, r15, network.ConstantCurrent).solve()
	near(t, "fourth lamp, V", cmplx.Abs(s.Voltage[4]), 10.77, 0.005)
}

// The same border with the source in its middle, 18.5 m: 11.62 V (trade
// notes, scenario 2).
func TestSourceInTheMiddle(t *testing.T) {
	g := newGrid(12, network.AC)
	for range 2 {
		at := 0
		for k := range 5 {
			length := 3.0
			if k == 0 {
				length = 1.5
			}
			at = g.cable(at, complex(length*0.0242, 0), lamp(network.ConstantCurrent, 5, 12, 1))
		}
	}
	s := g.solve()
	near(t, "first end, V", cmplx.Abs(s.Voltage[5]), 11.62, 0.005)
	near(t, "other end, V", cmplx.Abs(s.Voltage[10]), 11.62, 0.005)
}

// n equal constant currents evenly spaced over a length: drop at the end =
// r·L·I·(n+1)/(2n), I the total (reference data 09, distributed_load; derived).
func TestDistributedLoad(t *testing.T) {
	const r, length, total, nominal = 0.0242, 40.0, 2.0, 24.0
	for _, n := range []int{1, 2, 5, 20, 200} {
		g := newGrid(nominal, network.DC)
		at := 0
		for range n {
			at = g.cable(at, complex(r*length/float64(n), 0),
				lamp(network.ConstantCurrent, total*nominal/float64(n), nominal, 1))
		}
		want := r * length * total * float64(n+1) / float64(2*n)
		near(t, "drop at the end, V", float64(g.solve().Drop[at]), want, 1e-9)
	}
}

// Mains lamps with a power factor: trade notes, scenario 1 (0.104 A and
// 0.04 V lumped at 31 mΩ/m over 13.2 m).
func TestBrickLights(t *testing.T) {
	g := newGrid(230, network.AC)
	end := g.cable(0, complex(13.2*0.031, 0))
	for range 4 {
		g.cable(end, 0, lamp(network.ConstantPower, 3, 230, 0.5))
	}
	s := g.solve()
	near(t, "design current, A", cmplx.Abs(s.Current[0]), 0.104, 0.0005)
	// Lagging current in a resistance: only its active half lowers the volts.
	near(t, "drop, V", float64(s.Drop[end]), 0.104*0.5*13.2*0.031, 0.0005)
}

// A source's figures by hand: 230 V AC, 40 W of constant current at 12 V.
func TestConverter(t *testing.T) {
	wound := network.Converter{Nominal: 12, Current: network.AC, Rated: 60, Rise: 0.06, Efficiency: 0.8, PowerFactor: 0.9, NoLoad: 2}
	driver := network.Converter{Nominal: 12, Current: network.DC, Rated: 60, Regulated: true, Efficiency: 0.85, PowerFactor: 0.95, NoLoad: 1}
	for _, row := range []struct {
		what  string
		c     network.Converter
		watts float64
		out   float64 // V at the terminals
	}{
		// U2 = 12·1.06 - r·I2, r = 0.06·12²/60 = 0.144 Ω
		{"wound, full load gives nominal", wound, 60, 12},
		{"wound, half load", wound, 30, 12 * 1.03},
		{"wound, no load", wound, 0, 12 * 1.06},
		{"regulated", driver, 40, 12},
	} {
		t.Run(row.what, func(t *testing.T) {
			g := newGrid(230, network.AC)
			sec := g.source(g.cable(0, 0), row.c)
			end := g.cable(sec, 0.1, lamp(network.ConstantCurrent, row.watts, 12, 1))
			s := g.solve()
			amps := row.watts / 12
			p2 := row.out * amps
			p1 := p2/row.c.Efficiency + float64(row.c.NoLoad)
			near(t, "output, V", real(s.Voltage[sec]), row.out, 1e-7)
			near(t, "drop counts from the terminals, V", float64(s.Drop[end]), 0.1*amps, 1e-7)
			near(t, "drop at the terminals, V", float64(s.Drop[sec]), 0, 0)
			near(t, "output, A", real(s.Output[1]), amps, 1e-9)
			near(t, "primary, A", cmplx.Abs(s.Current[1]), p1/(230*row.c.PowerFactor), 1e-7)
			near(t, "phase", real(s.Current[1])/cmplx.Abs(s.Current[1]), row.c.PowerFactor, 1e-9)
			near(t, "supplied, W", float64(s.Supplied), p1, 1e-6)
		})
	}
}

// A converter on a sagging primary: a wound one passes the sag on, a
// regulated one does not.
func TestConverterFollowsPrimary(t *testing.T) {
	for _, regulated := range []bool{true, false} {
		g := newGrid(230, network.AC)
		box := g.cable(0, 10, lamp(network.ConstantCurrent, 460, 230, 1)) // 2 A: 20 V lost
		sec := g.source(box, network.Converter{Nominal: 12, Regulated: regulated, Efficiency: 1, PowerFactor: 1})
		want := 12.0
		if !regulated {
			want = 12 * 210.0 / 230
		}
		near(t, "output, V", real(g.solve().Voltage[sec]), want, 1e-6)
	}
}

// A lamp for both kinds of current draws P/U on direct current whatever its
// power factor, and no reactance acts.
func TestDirectCurrentIsReal(t *testing.T) {
	g := newGrid(12, network.DC)
	for _, law := range allLaws {
		g.cable(0, complex(0.1, 0.5), lamp(law, 5, 12, 0.5))
	}
	s := g.solve()
	for i, v := range s.Voltage {
		if imag(v) != 0 {
			t.Errorf("node %d: %v V is not real", i, v)
		}
	}
	near(t, "constant current, A", real(s.Current[1]), 5.0/12, 1e-12)
}

func TestUnfedNodesAndLoops(t *testing.T) {
	g := newGrid(230, network.AC)
	a := g.cable(0, 0.5, lamp(network.Resistive, 100, 230, 1))
	b := g.cable(0, 0.5, lamp(network.Resistive, 100, 230, 1))
	g.branch(network.Branch{From: a, To: b}, 0.5) // closes a loop
	loose := g.node(0, []network.Load{lamp(network.ConstantPower, 50, 230, 1)})
	// A source wired back to front: its output is on the mains.
	in := g.node(0, []network.Load{lamp(network.ConstantPower, 50, 230, 1)})
	g.branch(network.Branch{From: in, To: a, Converter: &network.Converter{Nominal: 12, Efficiency: 1, PowerFactor: 1}}, 0)
	beyond := g.cable(in, 0.5, lamp(network.ConstantPower, 50, 230, 1))
	s := g.solve()
	if s.Status.State != Converged {
		t.Fatalf("status %+v", s.Status)
	}
	for _, i := range []int{loose, in, beyond} {
		if s.Voltage[i] != 0 || s.Power[i] != 0 || s.Drop[i] != 0 {
			t.Errorf("node %d: %v, %v, %v; want nothing", i, s.Voltage[i], s.Power[i], s.Drop[i])
		}
	}
	if s.Current[2] != 0 || s.Current[3] != 0 {
		t.Errorf("loop or reversed source carries current: %v", s.Current)
	}
	if s.Voltage[a] == 0 || s.Voltage[a] != s.Voltage[b] {
		t.Errorf("arms of the loop: %v and %v", s.Voltage[a], s.Voltage[b])
	}
}

func TestEmptyNet(t *testing.T) {
	net := &network.Net{}
	if s := Tree(net, network.BuildTree(net), nil); s.Status.State != Converged {
		t.Errorf("status %+v", s.Status)
	}
	s := newGrid(230, network.AC)
	s.tree = network.BuildTree(s.net)
	if got := s.solve(); got.Voltage[0] != 230 || got.Supplied != q.Watt(0) {
		t.Errorf("board alone: %+v", got)
	}
}

func TestWrongLengthPanics(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("no panic for a missing impedance")
		}
	}()
	g := border(12, 0.02, network.Resistive)
	Tree(g.net, g.tree, g.z[1:])
}
