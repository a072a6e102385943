package solve

import (
	"math"
	"math/cmplx"
	"reflect"
	"testing"

	"duskwire/calc/network"
	"pgregory.net/rapid"
)

func (g *grid) mesh() *Solution { return Solve(g.net, g.tree, g.z) }

// meshed adds up to ties cables between nodes of one system each, now and then
// two side by side or one of next to no length.
func meshed(d dice, g *grid, ties int) *grid {
	for k := 0; k < ties; k++ {
		a := d.n(len(g.net.Nodes))
		var others []int
		for i := range g.net.Nodes {
			if i != a && g.net.Nodes[i].System == g.net.Nodes[a].System {
				others = append(others, i)
			}
		}
		if len(others) == 0 {
			continue
		}
		b := others[d.n(len(others))]
		z := complex(d.f(0.2, 1), 0)
		if !g.dc(a) {
			z += complex(0, d.f(0, 0.3))
		}
		// as long as another cable of the system, whose impedances were scaled
		for e, br := range g.net.Branches {
			if br.Converter == nil && g.net.Nodes[br.To].System == g.net.Nodes[a].System && g.z[e] != 0 {
				z *= complex(cmplx.Abs(g.z[e]), 0)
				break
			}
		}
		if d.n(8) == 0 {
			z *= 1e-2
		}
		g.branch(network.Branch{From: a, To: b}, z)
	}
	return g
}

// Outside check: nodal analysis with gonum's LU, 60 random meshed nets, half of
// them with sources.
func TestMeshAgainstDense(t *testing.T) {
	loops := 0
	for seed := range compared {
		d := newSeeded(uint64(3000 + seed))
		g := meshed(d, random(d, 12, allLaws, seed%2 == 1), 1+seed%6)
		want, err := solveDense(g)
		if err != nil {
			t.Fatalf("net %d: %v", seed, err)
		}
		within(t, seed, g, g.mesh(), want)
		loops += len(g.tree.Closed)
	}
	if loops < 2*compared {
		t.Errorf("only %d loops were compared", loops)
	}
}

// Outside check: ngspice operating point of 40 random meshed nets, alternating
// current with power factors and direct current, all laws.
func TestMeshAgainstSpice(t *testing.T) {
	path := ngspice(t)
	for seed := range 40 {
		d := newSeeded(uint64(5000 + seed))
		g := meshed(d, random(d, 12, allLaws, seed%2 == 1), 1+seed%6)
		volts := spice(t, path, g)
		want := make([]complex128, len(g.net.Nodes))
		for i := range want {
			r, ok := volts[re(i)]
			if !ok {
				t.Fatalf("ngspice gave no voltage for net %d node %d", seed, i)
			}
			want[i] = complex(r, volts[im(i)])
		}
		within(t, seed, g, g.mesh(), want)
	}
}

// balanced fails unless Ohm's law holds over every cable, the currents add up
// to nothing at every node, and supplied = used + lost.
func balanced(t interface{ Fatalf(string, ...any) }, g *grid, s *Solution) {
	sum := make([]complex128, len(g.net.Nodes))
	size := 1e-3
	for i, node := range g.net.Nodes {
		for _, l := range node.Loads {
			sum[i] += pull(l, g.dc(i), s.Voltage[i])
		}
	}
	for b, br := range g.net.Branches {
		out, in := s.Current[b], s.Output[b]
		if br.Converter == nil {
			in = out
			z := g.z[b]
			if g.dc(br.To) {
				z = complex(real(z), 0)
			}
			if lost := s.Voltage[br.From] - s.Voltage[br.To]; cmplx.Abs(lost-z*out) > 1e-8*g.nominal(br.To) {
				t.Fatalf("branch %d: %v V over %v Ω at %v A", b, lost, z, out)
			}
		}
		sum[br.From] += out
		sum[br.To] -= in
		size = math.Max(size, cmplx.Abs(in))
	}
	for i := 1; i < len(sum); i++ {
		if cmplx.Abs(sum[i]) > 1e-9*size {
			t.Fatalf("node %d: %v A left over", i, sum[i])
		}
	}
	if d := math.Abs(float64(s.Supplied - s.Used - s.Lost)); d > 1e-6*math.Max(1, float64(s.Supplied)) {
		t.Fatalf("supplied %v, used %v, lost %v", s.Supplied, s.Used, s.Lost)
	}
}

// The same laws as on a tree; the tree's branches of random drops run from From
// to To, so no sign has to be turned.
func TestMeshBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawn{t}
		g := meshed(d, random(d, 10, allLaws, rapid.Bool().Draw(t, "sources")), rapid.IntRange(1, 6).Draw(t, "ties"))
		s := g.mesh()
		if s.Status.State != Converged || s.Status.Residual > 1e-9 || s.Status.Sweeps > 8 {
			t.Fatalf("status %+v", s.Status)
		}
		up := *g // the currents of the tree count away from the supply
		up.net = &network.Net{}
		*up.net = *g.net
		up.net.Branches = append([]network.Branch(nil), g.net.Branches...)
		for i, b := range g.tree.Parent {
			if b >= 0 && up.net.Branches[b].To != i {
				up.net.Branches[b].From, up.net.Branches[b].To = up.net.Branches[b].To, up.net.Branches[b].From
			}
		}
		balanced(t, &up, s)
		if again := g.mesh(); !reflect.DeepEqual(s, again) {
			t.Fatalf("a second solve differs")
		}
		other := append([]complex128(nil), g.z...)
		for b := range other {
			other[b] *= complex(d.f(0.5, 1), 0)
		}
		sv := NewSolver(g.net, g.tree)
		sv.Solve(other)
		if again := sv.Solve(g.z); !reflect.DeepEqual(s, again) {
			t.Fatalf("a solver used before differs")
		}
	})
}

// On a radial net the nodal solve is the tree's; with a loop so long that it
// carries nothing it still is, and so is a net whose every cable is laid twice
// with double the impedance.
func TestMeshEqualsTree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawn{t}
		g := random(d, 10, allLaws, rapid.Bool().Draw(t, "sources"))
		want := g.solve()
		if got := g.mesh(); !reflect.DeepEqual(got, want) {
			t.Fatalf("radial: %+v, want %+v", got, want)
		}
		long, twice := *g, *g
		for _, o := range []*grid{&long, &twice} {
			n := *g.net
			n.Branches = append([]network.Branch(nil), g.net.Branches...)
			o.net, o.z = &n, append([]complex128(nil), g.z...)
		}
		for b, br := range g.net.Branches {
			if br.Converter != nil {
				continue
			}
			long.branch(network.Branch{From: br.To, To: br.From}, 1e10*(1+g.z[b]))
			twice.z[b] *= 2
			twice.branch(network.Branch{From: br.From, To: br.To}, 2*g.z[b])
		}
		for what, o := range map[string]*grid{"long": &long, "twice": &twice} {
			got := o.mesh()
			for i := range want.Voltage {
				if cmplx.Abs(got.Voltage[i]-want.Voltage[i]) > 1e-8*g.nominal(i) {
					t.Fatalf("%s: node %d at %v, want %v", what, i, got.Voltage[i], want.Voltage[i])
				}
			}
		}
	})
}

// loop is n equal lamps of constant current on a ring, spacing and ends equal.
func loop(n int, nominal, z, amps float64) *grid {
	g := newGrid(nominal, network.DC)
	at := 0
	for range n {
		at = g.cable(at, complex(z, 0), lamp(network.ConstantCurrent, amps*nominal, nominal, 1))
	}
	g.branch(network.Branch{From: at, To: 0}, complex(z, 0))
	return g
}

// A ring of n equal currents i at spacings of r ohms: the k-th lamp loses
// r·i/2·k·(n+1-k), because the second difference of the volts is r·i and both
// ends are at zero (derived). A chain of the same loses r·i·n·(n+1)/2 at its
// end, four times as much when n is large.
func TestRingAgainstChain(t *testing.T) {
	const r, i = 0.02, 0.2
	for _, n := range []int{1, 2, 5, 10, 41} {
		g := loop(n, 24, r, i)
		s := g.mesh()
		worst := 0.0
		for k := 1; k <= n; k++ {
			near(t, "drop round the ring, V", float64(s.Drop[k]), r*i/2*float64(k*(n+1-k)), 1e-9)
			worst = math.Max(worst, float64(s.Drop[k]))
		}
		near(t, "from one side, A", real(s.Current[0]), i*float64(n)/2, 1e-9)
		open := newGrid(24, network.DC)
		for at := range n {
			open.cable(at, r, lamp(network.ConstantCurrent, i*24, 24, 1))
		}
		chain := float64(open.solve().Drop[n])
		near(t, "end of the chain, V", chain, r*i*float64(n*(n+1))/2, 1e-9)
		if ratio := chain / worst; n > 1 && (ratio < 2 || ratio > 4.001) {
			t.Errorf("%d lamps: the chain loses %g times the ring's drop", n, ratio)
		}
	}
}

// A ring with the whole load at the end of the longer arm still has a steady
// state where the arm alone has none; two arms in parallel carry E²/(4R).
func TestMeshCollapse(t *testing.T) {
	const e, r = 12.0, 0.4
	most := e * e / 4 / r
	for share, want := range map[float64]State{0.999: Converged, 1.001: Collapsed, 3: Collapsed} {
		g := newGrid(e, network.DC)
		mid := g.cable(0, r)
		end := g.cable(mid, r, lamp(network.ConstantPower, share*most, e, 1))
		g.branch(network.Branch{From: end, To: 0}, 2*r) // in all R = r
		if s := g.mesh(); s.Status.State != want {
			t.Errorf("at %g: %+v, want %v", share, s.Status, want)
		} else if want == Collapsed {
			if math.Abs(s.Status.Carried*share-1) > 1e-5 || s.Status.Worst != end {
				t.Errorf("at %g: %+v, want node %d", share, s.Status, end)
			}
			if d := math.Abs(float64(s.Supplied - s.Used - s.Lost)); d > 1e-4*float64(s.Supplied) {
				t.Errorf("at %g: supplied %v, used %v, lost %v", share, s.Supplied, s.Used, s.Lost)
			}
		}
		if s := g.solve(); share < 1 && s.Status.State != Collapsed {
			t.Errorf("one arm alone carries it: %+v", s.Status)
		}
	}
}

// A cable of no length in a ring joins its ends: lamps of 0.4 A between 0.1 Ω
// each, worked by hand. The middle two lamps stand at one place.
func TestMeshWithoutLength(t *testing.T) {
	g := loop(4, 12, 0.1, 0.4)
	g.z[2] = 0
	s := g.mesh()
	for k, want := range []float64{0, 0.08, 0.12, 0.12, 0.08} {
		near(t, "drop, V", float64(s.Drop[k]), want, 1e-6)
	}
	near(t, "through it, A", real(s.Current[2]), 0, 1e-6)
}

// What cannot be a ring carries nothing and changes nothing.
func TestMeshLeavesOut(t *testing.T) {
	g := newGrid(230, network.AC)
	a := g.cable(0, 0.5, lamp(network.ConstantPower, 100, 230, 0.9))
	out := g.source(a, network.Converter{Nominal: 12, Rated: 60, Rise: 0.05, Efficiency: 0.9, PowerFactor: 0.9})
	other := g.source(a, network.Converter{Nominal: 12, Regulated: true, Rated: 60, Efficiency: 0.9, PowerFactor: 0.9})
	g.cable(out, 0.1, lamp(network.Filament, 20, 12, 1))
	g.cable(other, 0.1, lamp(network.ResistorStrip, 20, 12, 1))
	want := g.solve()
	g.branch(network.Branch{From: out, To: other}, 0.01) // two sources
	g.branch(network.Branch{From: other, To: a}, 0.01)   // back to the mains
	g.branch(network.Branch{From: out, To: out}, 0.01)   // to itself
	g.branch(network.Branch{From: a, To: other, Converter: &network.Converter{Nominal: 12, Efficiency: 1, PowerFactor: 1}}, 0)
	got := g.mesh()
	if !reflect.DeepEqual(got.Voltage, want.Voltage) || !reflect.DeepEqual(got.Current[:len(want.Current)], want.Current) {
		t.Errorf("got %v, want %v", got.Voltage, want.Voltage)
	}
	for b := len(want.Current); b < len(got.Current); b++ {
		if got.Current[b] != 0 {
			t.Errorf("branch %d carries %v", b, got.Current[b])
		}
	}
}

// A ring of cables that are no numbers ends as a result.
func TestMeshNotANumber(t *testing.T) {
	for _, z := range []complex128{cmplx.NaN(), cmplx.Inf()} {
		g := loop(3, 12, 0.1, 0.4)
		g.z[1] = z
		s := g.mesh()
		if cmplx.IsInf(z) { // an open cable leaves two chains
			near(t, "open ring, V", float64(s.Drop[3]), 0.1*0.8+0, 1e-6)
			continue
		}
		if s.Status.State != Collapsed {
			t.Errorf("z = %v: %+v", z, s.Status)
		}
	}
}

// Whatever is asked of a meshed net, a solve ends.
func TestMeshAlwaysEnds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawn{t}
		g := meshed(d, random(d, 8, allLaws, rapid.Bool().Draw(t, "sources")), rapid.IntRange(1, 4).Draw(t, "ties"))
		k := complex(rapid.Float64Range(1, 200).Draw(t, "longer"), 0)
		for b := range g.z {
			g.z[b] *= k
		}
		s := g.mesh()
		if s.Status.State == Unfinished || s.Status.Worst < 0 || s.Status.Worst >= len(g.net.Nodes) {
			t.Fatalf("%+v", s.Status)
		}
		if d := math.Abs(float64(s.Supplied - s.Used - s.Lost)); d > 1e-4*math.Max(1, float64(s.Supplied)) {
			t.Fatalf("%+v: supplied %v, used %v, lost %v", s.Status, s.Supplied, s.Used, s.Lost)
		}
	})
}
