package solve

import (
	"math"
	"math/cmplx"
	"reflect"
	"testing"

	"duskwire/calc/network"
	"pgregory.net/rapid"
)

// Currents from the voltages (Ohm's law over each cable) sum to zero at every
// node; supplied = used + lost; the same net gives the same solution.
func TestBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := random(drawn{t}, 10, allLaws, rapid.Bool().Draw(t, "sources"))
		s := g.solve()
		if s.Status.State != Converged || s.Status.Residual > 1e-9 {
			t.Fatalf("status %+v", s.Status)
		}
		if s.Status.Sweeps > 7 {
			t.Fatalf("%d sweeps: the laws do not touch the loads", s.Status.Sweeps)
		}
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
				lost := s.Voltage[br.From] - s.Voltage[br.To]
				if cmplx.Abs(lost-z*out) > 1e-8*g.nominal(br.To) {
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
		if d := math.Abs(float64(s.Supplied - s.Used - s.Lost)); d > 1e-7*math.Max(1, float64(s.Supplied)) {
			t.Fatalf("supplied %v, used %v, lost %v", s.Supplied, s.Used, s.Lost)
		}
		if again := g.solve(); !reflect.DeepEqual(s, again) {
			t.Fatalf("a second solve differs")
		}
	})
}

// The straight line of a load touches its law: close by, what is left over
// shrinks with the square of the distance.
func TestTangent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := lamp(rapid.SampledFrom(allLaws).Draw(t, "law"), 5, 12, rapid.Float64Range(0.3, 1).Draw(t, "pf"))
		v := cmplx.Rect(rapid.Float64Range(6, 14).Draw(t, "volts"), rapid.Float64Range(-0.3, 0.3).Draw(t, "angle"))
		f := tangent(&l, false, v, 1)
		for _, step := range []complex128{1e-3, 1e-3i} {
			if off := cmplx.Abs(f.at(v+step) - pull(l, false, v+step)); off > 1e-6 {
				t.Fatalf("%v at %v: %g A off after a step of %v V", l.Law, v, off, step)
			}
		}
	})
}

// beyond marks the nodes fed through branch b.
func beyond(g *grid, b int) []bool {
	is := make([]bool, len(g.net.Nodes))
	for _, i := range g.tree.Order {
		p := g.tree.Parent[i]
		is[i] = p == b || (p >= 0 && is[g.tree.Up(g.net, i)])
	}
	return is
}

// Thicker cable never raises a drop at any node that it feeds. Elsewhere in
// the net that holds on direct current with lamps of constant current or
// constant power; resistive lamps draw more when their cable gets better and
// so may lower the volts of others, and on alternating current the turn of
// the phase may do so by some millivolts.
func TestThickerCable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		laws := rapid.SampledFrom([][]network.Law{
			{network.ConstantCurrent}, {network.ConstantPower}, {network.ConstantCurrent, network.ConstantPower},
			{network.Resistive}, allLaws,
		}).Draw(t, "laws")
		g := random(drawn{t}, 12, laws, false)
		everywhere := g.dc(0)
		for _, l := range laws {
			everywhere = everywhere && (l == network.ConstantCurrent || l == network.ConstantPower)
		}
		b := rapid.IntRange(0, len(g.z)-1).Draw(t, "branch")
		before := g.solve()
		g.z[b] *= complex(rapid.Float64Range(0.05, 0.95).Draw(t, "thicker"), 0)
		after := g.solve()
		fed := beyond(g, b)
		for i := range g.net.Nodes {
			if (everywhere || fed[i]) && float64(after.Drop[i]-before.Drop[i]) > 1e-7*g.nominal(i) {
				t.Fatalf("node %d: drop rose from %.9g to %.9g V", i, float64(before.Drop[i]), float64(after.Drop[i]))
			}
		}
	})
}

// More load never raises the volts on direct current.
func TestMoreLoad(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := random(drawn{t}, 12, []network.Law{network.ConstantPower}, false)
		if !g.dc(0) {
			t.Skip("alternating current")
		}
		before := g.solve()
		i := rapid.IntRange(1, len(g.net.Nodes)-1).Draw(t, "node")
		g.net.Nodes[i].Loads = append(g.net.Nodes[i].Loads, lamp(network.ConstantPower, 1, g.nominal(i), 1))
		after := g.solve()
		if after.Status.State != Converged {
			return
		}
		for k := range g.net.Nodes {
			if after.Drop[k] < before.Drop[k]-1e-7 {
				t.Fatalf("node %d: drop fell from %v to %v", k, before.Drop[k], after.Drop[k])
			}
		}
	})
}

// Whatever is asked, a solve ends, and a collapse leaves figures that balance
// for the share of the load that it names.
func TestAlwaysEnds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := random(drawn{t}, 8, allLaws, rapid.Bool().Draw(t, "sources"))
		k := complex(rapid.Float64Range(1, 200).Draw(t, "longer"), 0)
		for b := range g.z {
			g.z[b] *= k
		}
		s := g.solve()
		if s.Status.Worst < 0 || s.Status.Worst >= len(g.net.Nodes) {
			t.Fatalf("worst node %d of %d", s.Status.Worst, len(g.net.Nodes))
		}
		if s.Status.State == Unfinished || s.Status.Sweeps > 1500 {
			t.Fatalf("%+v", s.Status)
		}
		if d := math.Abs(float64(s.Supplied - s.Used - s.Lost)); d > 1e-5*math.Max(1, float64(s.Supplied)) {
			t.Fatalf("%+v: supplied %v, used %v, lost %v", s.Status, s.Supplied, s.Used, s.Lost)
		}
	})
}
