package calc

import (
	"math"
	"math/cmplx"
	"slices"
	"strconv"

	"duskwire/calc/check"
	"duskwire/calc/network"
	"duskwire/calc/protect"
	q "duskwire/calc/quantity"
	"duskwire/calc/solve"
)

// A trial solves every point behind a source, for every size of every run of
// its rings: most bounds the points behind one source, budget the points of all
// trials of a circuit, so that a large garden stays quick.
const (
	most   = 40
	budget = 20000
)

// trial is the output of one source cut out of the circuit, so that another
// cable in one of its rings can be tried by solving it again. The voltage at
// the input of the source is held; what the primary cables lose more or less is
// left out.
type trial struct {
	net    *network.Net
	tree   *network.Tree
	z      []complex128
	branch []int // of the circuit, per branch of net
	node   []int // of the circuit, per node of net
	at     []int // of net, per branch of the circuit; -1 for none
	loops  []protect.Loop
	solver *solve.Solver
	nested bool // another source is fed from this one
}

// cut takes a system out of the circuit.
func (p *proposer) cut(system int) *trial {
	c := p.c
	t := &trial{net: &network.Net{Supply: c.Net.Supply, Site: c.Net.Site, Systems: c.Net.Systems}, at: make([]int, len(c.Net.Branches))}
	place := make([]int, len(c.Net.Nodes))
	for i := range place {
		place[i] = -1
	}
	for b := range t.at {
		t.at[b] = -1
	}
	full := impedances(c.Net)
	take := func(b, from, to int) {
		br := c.Net.Branches[b]
		br.From, br.To = from, to
		t.at[b] = len(t.branch)
		t.branch = append(t.branch, b)
		t.net.Branches = append(t.net.Branches, br)
		t.z = append(t.z, full[b])
	}
	for _, i := range c.Tree.Order {
		b := c.Tree.Parent[i]
		if c.Net.Nodes[i].System != system || b < 0 {
			continue
		}
		up := c.Tree.Up(c.Net, i)
		if c.Net.Branches[b].Converter != nil {
			t.net.Supply.Nominal = q.Volt(cmplx.Abs(c.Solution.Voltage[up]))
			t.net.Nodes = append(t.net.Nodes, network.Node{System: c.Net.Nodes[up].System})
			t.node = append(t.node, up)
			place[up] = 0
		}
		place[i] = len(t.net.Nodes)
		t.net.Nodes = append(t.net.Nodes, c.Net.Nodes[i])
		t.node = append(t.node, i)
		take(b, place[up], place[i])
	}
	for b := range c.Net.Branches {
		br := &c.Net.Branches[b]
		if c.Closing(b) && place[br.From] > 0 && place[br.To] > 0 {
			take(b, place[br.From], place[br.To])
		}
		t.nested = t.nested || br.Converter != nil && place[br.From] > 0
	}
	t.tree = network.BuildTree(t.net)
	t.solver = solve.NewSolver(t.net, t.tree)
	t.loops = make([]protect.Loop, len(t.net.Nodes))
	for i := range t.loops {
		t.loops[i] = protect.Loop{Broken: -1, Device: -1}
	}
	return t
}

// ring returns the trial of the system that a run belongs to.
func (p *proposer) ring(b int) *trial {
	if p.rings == nil {
		p.rings = make([]*trial, len(p.c.Net.Systems))
	}
	s := p.c.Net.Nodes[p.c.Far(b)].System
	if p.rings[s] == nil {
		p.rings[s] = p.cut(s)
	}
	return p.rings[s]
}

// ringTooLarge says why no size is proposed for a run of a ring, "" when one
// can be.
func (p *proposer) ringTooLarge(b int) string {
	t := p.ring(b)
	switch {
	case p.tried > budget:
		return "the run lies on one of many rings: not tried size by size"
	case t.nested:
		return "the run lies on a ring with another source behind it: not tried size by size"
	case len(t.net.Nodes) > most:
		return "the run lies on a ring of a source with more than " + strconv.Itoa(most) + " points: not tried size by size"
	}
	return ""
}

// judgeRing solves the source's output with another cable in run b and returns
// the check that comes nearest to its limit anywhere behind the source: in a
// ring one cable moves all currents.
func (p *proposer) judgeRing(b int, cb *network.Cable) verdict {
	t := p.ring(b)
	p.tried += len(t.net.Nodes)
	net, z := *t.net, slices.Clone(t.z)
	net.Branches = slices.Clone(net.Branches)
	at := t.at[b]
	net.Branches[at].Cable = cb
	z[at] = complex(p.perMetre(cb)*float64(net.Branches[at].Length), 0)
	c := &check.Context{Net: &net, Tree: t.tree, Rules: p.c.Rules, Loops: t.loops, Catalog: p.c.Catalog}
	c.Solution = t.solver.Solve(z)
	var v verdict
	if !c.Trusted() {
		return verdict{code: "SOL-01", use: math.Inf(1), node: p.c.Far(b)}
	}
	for k, was := range t.branch {
		p.judgeRingRun(c, k, was, was == b, cb, &v)
	}
	for _, i := range t.tree.Order[1:] {
		p.judgeRingNode(c, i, t.node[i], &v)
	}
	return v
}

// judgeRingRun looks at the capacity of one run, or at the load of the source.
// A run that falls short now, whatever the current, does not count against
// another.
func (p *proposer) judgeRingRun(c *check.Context, k, was int, own bool, cb *network.Cable, v *verdict) {
	br := &c.Net.Branches[k]
	if cv := br.Converter; cv != nil {
		va := cmplx.Abs(c.Solution.Output[k]) * math.Max(float64(c.Volts(c.Far(k))), float64(cv.Nominal))
		if now := float64(p.c.Through(p.c.Far(was))) * float64(cv.Nominal); cv.Rated > 0 && now <= float64(cv.Rated) && va > float64(cv.Rated) {
			v.take(verdict{code: "SRC-01", use: va / float64(cv.Rated), figure: va, limit: float64(cv.Rated), node: -1})
		}
		return
	}
	capa, need := &p.c.Capacity[was], float64(c.Flow(k))
	if own {
		capa, _ = p.rate.worst(cb, was)
		if capa == nil || !capa.Known {
			v.take(verdict{code: "CAP-03", use: math.Inf(1), node: -1})
			return
		}
		need = math.Max(need, float64(p.c.Demand(was).Iz))
	} else if br.Cable == nil || !capa.Known || float64(p.c.Flow(was)) > float64(capa.Iz) {
		return
	}
	v.take(verdict{code: "CAP-02", use: need / float64(capa.Iz), figure: float64(capa.Iz), limit: need, node: -1})
}

// judgeRingNode looks at drop, voltage and devices of one point; was is its
// node in the circuit.
func (p *proposer) judgeRingNode(c *check.Context, i, was int, v *verdict) {
	n := &c.Net.Nodes[i]
	for k := range n.Devices {
		if d := &n.Devices[k]; d.Overcurrent() && c.Beyond(i) > d.Rating {
			v.take(verdict{code: "CAP-01", use: float64(c.Beyond(i)) / float64(d.Rating), figure: 1, limit: 1, node: -1})
		}
	}
	if !check.Consumer(n) || n.System == 0 {
		return
	}
	u, drop, un := float64(c.Volts(i)), float64(c.Drop(i)), float64(c.Net.Systems[n.System].Nominal)
	if ratio, _ := c.DropLimit(i); ratio > 0 && un > 0 {
		v.take(verdict{code: "VD-02", use: drop / (ratio * un), figure: drop / un, limit: ratio, node: was})
	}
	low, high := c.LampLimits(i)
	if low > 0 {
		use := float64(low) / u
		if un > float64(low) {
			use = (un - u) / (un - float64(low))
		}
		v.take(verdict{code: "VD-03", use: use, figure: u, limit: float64(low), node: was})
	}
	if most := cmplx.Abs(c.Solution.Voltage[i]); high > 0 && most > float64(high) {
		v.take(verdict{code: "VD-03", use: most / float64(high), figure: most, limit: float64(high), node: was})
	}
}
