package solve

import (
	"fmt"
	"math"
	"math/rand/v2"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"pgregory.net/rapid"
)

// dice is where a random net takes its choices from: a fixed seed for the
// comparisons, rapid for the laws.
type dice interface {
	n(k int) int              // 0 to k-1
	f(lo, hi float64) float64 // lo to hi
}

type seeded struct{ r *rand.Rand }

func newSeeded(seed uint64) seeded        { return seeded{rand.New(rand.NewPCG(seed, 1))} }
func (s seeded) n(k int) int              { return s.r.IntN(k) }
func (s seeded) f(lo, hi float64) float64 { return lo + (hi-lo)*s.r.Float64() }

type drawn struct{ t *rapid.T }

func (d drawn) n(k int) int              { return rapid.IntRange(0, k-1).Draw(d.t, "n") }
func (d drawn) f(lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(d.t, "f") }

// grid is a net under test with its tree and impedances.
type grid struct {
	net  *network.Net
	tree *network.Tree
	z    []complex128
}

func (g *grid) solve() *Solution { return Tree(g.net, g.tree, g.z) }

// newGrid starts a net of one node, the supply.
func newGrid(nominal float64, kind network.Current) *grid {
	return &grid{net: &network.Net{
		Supply:  network.Supply{Nominal: q.Volt(nominal)},
		Systems: []network.System{{Nominal: q.Volt(nominal), Current: kind}},
		Nodes:   []network.Node{{Label: "board"}},
	}}
}

// cable hangs a node on another behind the impedance z.
func (g *grid) cable(from int, z complex128, loads ...network.Load) int {
	to := g.node(g.net.Nodes[from].System, loads)
	g.branch(network.Branch{From: from, To: to}, z)
	return to
}

// source hangs a converter on a node and returns its output node.
func (g *grid) source(from int, c network.Converter) int {
	g.net.Systems = append(g.net.Systems, network.System{Nominal: c.Nominal, Current: c.Current, SELV: true})
	to := g.node(len(g.net.Systems)-1, nil)
	g.branch(network.Branch{From: from, To: to, Converter: &c}, 0)
	return to
}

func (g *grid) node(system int, loads []network.Load) int {
	g.net.Nodes = append(g.net.Nodes, network.Node{Label: fmt.Sprint("N", len(g.net.Nodes)), System: system, Loads: loads})
	return len(g.net.Nodes) - 1
}

func (g *grid) branch(b network.Branch, z complex128) {
	g.net.Branches = append(g.net.Branches, b)
	g.z = append(g.z, z)
	g.tree = network.BuildTree(g.net)
}

func (g *grid) dc(node int) bool {
	return g.net.Systems[g.net.Nodes[node].System].Current == network.DC
}

func (g *grid) nominal(node int) float64 {
	return float64(g.net.Systems[g.net.Nodes[node].System].Nominal)
}

func lamp(law network.Law, watts, nominal, pf float64) network.Load {
	l := network.Load{Law: law, Power: q.Watt(watts), Nominal: q.Volt(nominal), PowerFactor: pf}
	if law == network.ResistorStrip {
		l.Forward = q.Volt(0.775 * nominal) // 9.3 V of 12 V
	}
	return l
}

// random builds a net of up to size cable nodes a system; laws are picked from laws.
// With sources it may hold up to three converters, each with lamps beyond it.
// The impedances are scaled so that the worst node of each system would drop
// 1 to 15 % of nominal at rated currents: a garden from good to hopeless, but
// always with a steady state.
func random(d dice, size int, laws []network.Law, sources bool) *grid {
	nominal, kind := 230.0, network.AC
	if !sources {
		nominal = []float64{12, 24, 230}[d.n(3)]
		if nominal < 50 && d.n(2) == 0 {
			kind = network.DC
		}
	}
	g := newGrid(nominal, kind)
	g.grow(d, 0, 1+d.n(size), laws)
	for k := 0; sources && k < 1+d.n(3); k++ {
		c := network.Converter{
			Nominal: []q.Volt{12, 24}[d.n(2)], Current: network.Current(d.n(2)),
			Regulated: d.n(2) == 0, Efficiency: d.f(0.7, 0.95), PowerFactor: d.f(0.5, 1), NoLoad: q.Watt(d.f(0.1, 3)),
		}
		if !c.Regulated {
			c.Rise = d.f(0, 0.12)
		}
		first := len(g.net.Nodes)
		out := g.source(d.n(first), c)
		g.grow(d, out, 1+d.n(size), laws)
	}
	g.rate()
	most := 0.15
	if sources {
		most = 0.10 // up to three in a chain
	}
	for system := range g.net.Systems {
		g.scale(system, d.f(0.01, most))
	}
	return g
}

// grow adds n nodes with lamps beyond start.
func (g *grid) grow(d dice, start, n int, laws []network.Law) {
	un := g.nominal(start)
	for k := 0; k < n; k++ {
		from := start
		if k > 0 && d.n(4) > 0 {
			from = len(g.net.Nodes) - 1 - d.n(min(k, 3))
		}
		z := complex(d.f(0.2, 1), 0)
		if !g.dc(start) {
			z += complex(0, d.f(0, 0.3))
		}
		var loads []network.Load
		for l := d.n(3); l > 0; l-- {
			loads = append(loads, lamp(laws[d.n(len(laws))], d.f(1, 20), un, d.f(0.5, 1)))
		}
		g.cable(from, z, loads...)
	}
}

// rate makes every source large enough for all lamps of the net.
func (g *grid) rate() {
	total := q.VoltAmpere(60)
	for _, node := range g.net.Nodes {
		for _, l := range node.Loads {
			total += q.VoltAmpere(2 * float64(l.Power))
		}
	}
	for _, br := range g.net.Branches {
		if br.Converter != nil {
			br.Converter.Rated = total
		}
	}
}

// scale multiplies the impedances of a system so that its worst node would
// drop the given fraction of nominal at rated currents.
func (g *grid) scale(system int, fraction float64) {
	through := make([]float64, len(g.net.Nodes))
	drop := make([]float64, len(g.net.Nodes))
	worst := 0.0
	for k := len(g.tree.Order) - 1; k >= 0; k-- {
		i := g.tree.Order[k]
		for _, l := range g.net.Nodes[i].Loads {
			through[i] += float64(l.Rated())
		}
		if b := g.tree.Parent[i]; b >= 0 {
			through[g.tree.Up(g.net, i)] += g.drawn(b, through[i])
		}
	}
	for _, i := range g.tree.Order {
		b := g.tree.Parent[i]
		if g.net.Nodes[i].System != system || b < 0 || g.net.Branches[b].Converter != nil {
			continue
		}
		drop[i] = drop[g.tree.Up(g.net, i)] + through[i]*math.Hypot(real(g.z[b]), imag(g.z[b]))
		worst = math.Max(worst, drop[i])
	}
	if worst == 0 {
		return
	}
	k := complex(fraction*float64(g.net.Systems[system].Nominal)/worst, 0)
	for b := range g.net.Branches {
		if g.net.Branches[b].Converter == nil && g.net.Nodes[g.net.Branches[b].To].System == system {
			g.z[b] *= k
		}
	}
}

// drawn is the current that a branch draws from the node ahead to give the
// rated current amps beyond it. For a source that counts no-load power and a
// fifth to spare for its lamps' own drop.
func (g *grid) drawn(b int, amps float64) float64 {
	br := g.net.Branches[b]
	c := br.Converter
	if c == nil {
		return amps
	}
	watts := 1.2*amps*g.nominal(br.To)/c.Efficiency + float64(c.NoLoad)
	return watts / (g.nominal(br.From) * c.PowerFactor)
}

var allLaws = []network.Law{network.ConstantPower, network.ConstantCurrent, network.Resistive, network.ResistorStrip, network.Filament}
