package solve

import (
	"fmt"
	"math"
	"math/cmplx"
	"testing"

	"duskwire/calc/network"
	"gonum.org/v1/gonum/mat"
)

// pull is a lamp's current at v written out anew from its law in P and Q, so
// that the comparison does not lean on the code under test.
func pull(l network.Load, dc bool, v complex128) complex128 {
	p, qq := float64(l.Power), 0.0
	if !dc {
		qq = p * math.Tan(math.Acos(l.PowerFactor))
	}
	at := float64(l.Nominal)
	un, a := at, cmplx.Abs(v)
	switch l.Law {
	case network.ResistorStrip: // at² is |v| over the share of the rated current, times Un
		at = math.Sqrt(a * un * (un - float64(l.Forward)) / math.Max(a-float64(l.Forward), 1e-12))
	case network.Filament:
		at = math.Sqrt(a * un * math.Pow(un/a, 0.55))
	case network.ConstantPower:
		at = cmplx.Abs(v)
	case network.ConstantCurrent:
		at = math.Sqrt(at * cmplx.Abs(v))
	}
	return complex(p, -qq) * v / complex(at*at, 0)
}

// dense solves the net by nodal analysis with gonum: the admittance matrix of
// all cables at once, real and imaginary parts side by side; lamps and source
// primaries as currents injected from the last voltages, until they rest.
// Sources are taken as fixed voltages behind their regulation resistance and
// adjusted from one round to the next.
type dense struct {
	g *grid
	y *mat.Dense // 2n × 2n
	n int
}

func (d *dense) admit(i, j int, y complex128) {
	add := func(r, c int, y complex128) {
		d.y.Set(r, c, d.y.At(r, c)+real(y))
		d.y.Set(r, d.n+c, d.y.At(r, d.n+c)-imag(y))
		d.y.Set(d.n+r, c, d.y.At(d.n+r, c)+imag(y))
		d.y.Set(d.n+r, d.n+c, d.y.At(d.n+r, d.n+c)+real(y))
	}
	add(i, i, y)
	if j >= 0 {
		add(j, j, y)
		add(i, j, -y)
		add(j, i, -y)
	}
}

// stiff is the conductance that ties a fixed voltage to its node, S. It
// stands for an ideal connection: at 20 A it loses 20 µV.
const stiff = 1e6

func solveDense(g *grid) ([]complex128, error) {
	d := &dense{g: g, n: len(g.net.Nodes)}
	d.y = mat.NewDense(2*d.n, 2*d.n, nil)
	tie := make([]float64, d.n) // conductance from a fixed voltage to the node
	tie[0] = stiff
	for b, br := range g.net.Branches {
		switch z := g.z[b]; {
		case br.Converter == nil && g.dc(br.To):
			d.admit(br.From, br.To, complex(1/real(z), 0))
		case br.Converter == nil:
			d.admit(br.From, br.To, 1/z)
		case br.Converter.Resistance() > 0:
			tie[br.To] = 1 / float64(br.Converter.Resistance())
		default:
			tie[br.To] = stiff
		}
	}
	v := make([]complex128, d.n)
	for i := range v {
		v[i] = complex(g.nominal(i), 0)
		if tie[i] > 0 {
			d.admit(i, -1, complex(tie[i], 0))
		}
	}
	var lu mat.LU
	lu.Factorize(d.y)
	for range 500 {
		next, err := d.round(&lu, tie, v)
		if err != nil {
			return nil, err
		}
		moved := 0.0
		for i := range v {
			moved = math.Max(moved, cmplx.Abs(next[i]-v[i])/g.nominal(i))
		}
		v = next
		if moved < 1e-9 {
			return v, nil
		}
	}
	return nil, fmt.Errorf("dense solution did not come to rest")
}

func (d *dense) round(lu *mat.LU, tie []float64, v []complex128) ([]complex128, error) {
	in := make([]complex128, d.n)
	in[0] = complex(stiff*float64(d.g.net.Supply.Nominal), 0)
	for i, node := range d.g.net.Nodes {
		for _, l := range node.Loads {
			in[i] -= pull(l, d.g.dc(i), v[i])
		}
	}
	for _, br := range d.g.net.Branches {
		c := br.Converter
		if c == nil {
			continue
		}
		open := float64(c.Nominal)
		if !c.Regulated {
			open *= (1 + c.Rise) * cmplx.Abs(v[br.From]) / d.g.nominal(br.From)
		}
		// What the output gives is what its lamps and cables take; in the
		// steady state that is the power through the whole output system.
		in[br.To] += complex(tie[br.To]*open, 0)
		unit := network.Load{Law: network.ConstantPower, Power: 1, PowerFactor: c.PowerFactor}
		p := d.output(br.To, v)/c.Efficiency + float64(c.NoLoad)
		in[br.From] -= complex(p, 0) * pull(unit, d.g.dc(br.From), v[br.From])
	}
	rhs := mat.NewVecDense(2*d.n, nil)
	for i := range in {
		rhs.SetVec(i, real(in[i]))
		rhs.SetVec(d.n+i, imag(in[i]))
	}
	var x mat.VecDense
	if err := lu.SolveVecTo(&x, false, rhs); err != nil {
		return nil, err
	}
	out := make([]complex128, d.n)
	for i := range out {
		out[i] = complex(x.AtVec(i), x.AtVec(d.n+i))
	}
	return out, nil
}

// output is the active power that leaves the terminals of a source: what the
// lamps of its system take, what its cables lose and what further sources
// take from it.
func (d *dense) output(terminal int, v []complex128) float64 {
	system, p := d.g.net.Nodes[terminal].System, 0.0
	for i, node := range d.g.net.Nodes {
		if node.System != system {
			continue
		}
		for _, l := range node.Loads {
			p += real(v[i] * cmplx.Conj(pull(l, d.g.dc(i), v[i])))
		}
	}
	for b, br := range d.g.net.Branches {
		if c := br.Converter; c != nil && d.g.net.Nodes[br.From].System == system {
			p += d.output(br.To, v)/c.Efficiency + float64(c.NoLoad)
		}
		if br.Converter == nil && d.g.net.Nodes[br.To].System == system {
			z := d.g.z[b]
			if d.g.dc(br.To) {
				z = complex(real(z), 0)
			}
			u := v[br.From] - v[br.To]
			p += real(u * cmplx.Conj(u/z))
		}
	}
	return p
}

// compared is how many random nets each comparison takes.
const compared = 60

// within fails where a voltage is further than 0.1 % of nominal from another
// solution's, or a drop further than 0.1 % of the drop (1 mV at least).
func within(t *testing.T, seed int, g *grid, s *Solution, want []complex128) {
	t.Helper()
	if s.Status.State != Converged {
		t.Fatalf("net %d: %+v", seed, s.Status)
	}
	for i, v := range s.Voltage {
		un := g.nominal(i)
		if cmplx.Abs(v-want[i]) > 0.001*un {
			t.Errorf("net %d node %d: %v V, want %v V", seed, i, v, want[i])
		}
		if drop := math.Abs(un - cmplx.Abs(want[i])); math.Abs(cmplx.Abs(v)-cmplx.Abs(want[i])) > 0.001*drop+1e-5*un {
			t.Errorf("net %d node %d: |v| %v V, want %v V", seed, i, cmplx.Abs(v), cmplx.Abs(want[i]))
		}
	}
}

// Outside check: nodal analysis with gonum's LU, 60 random nets, half of them
// with sources.
func TestAgainstDense(t *testing.T) {
	for seed := range compared {
		g := random(newSeeded(uint64(seed)), 12, allLaws, seed%2 == 1)
		want, err := solveDense(g)
		if err != nil {
			t.Fatalf("net %d: %v", seed, err)
		}
		within(t, seed, g, g.solve(), want)
	}
}
