package calc

import (
	"sync"

	"duskwire/calc/cable"
	"duskwire/calc/check"
	"duskwire/calc/network"
	"duskwire/calc/protect"
	"duskwire/calc/solve"
)

// Evaluate returns every figure and finding of one circuit. A net without
// nodes gives only the flaws of its drawing; no net or no rule set gives an
// empty result. Nodes and branches whose indices do not fit are our bug and
// panic.
func Evaluate(in Input) *Result { return Work(in).Result }

// Worked is a result with what was worked out on the way to it, from which its
// headroom follows sooner. It is only read, by any number of goroutines.
type Worked struct {
	Result *Result
	in     Input
	c      *check.Context
	p      *proposer
}

// Work is Evaluate for those who may ask for headroom.
func Work(in Input) *Worked {
	if in.Net == nil || in.Rules == nil {
		return &Worked{Result: &Result{Tree: &network.Tree{}, Solution: &solve.Solution{}}}
	}
	net := withExisting(in.Net)
	r := &Result{Label: net.Label, Tree: network.BuildTree(net)}
	c := contextOf(in, net, r)
	var rate *rater
	beside(len(net.Branches), func() {
		c.Solution = solve.Solve(net, ringed(net, r.Tree), impedances(net))
	}, func() {
		c.Loops = protect.Loops(net, r.Tree, hot(in.Rules), &in.Rules.Protect)
		rate = newRater(c)
	})
	r.Solution, r.Loops = c.Solution, c.Loops
	c.Capacity = rate.all()
	r.Capacity = c.Capacity
	c.Prepare()
	list := newRunList(c)
	beside(len(net.Branches), func() { list.work(rate) }, func() {
		r.Findings = check.Run(c)
		r.Points = points(c)
		list.help()
	})
	r.Runs = list.done()
	r.Strings = stringReadings(c)
	r.Totals = totals(c, r)
	c.Settle()
	return &Worked{r, in, c, list.first.surveyed()}
}

// sideBySide is the number of branches from which work is shared out: below it,
// that takes longer than it saves.
const sideBySide = 512

// beside does two things at the same time in a large net. Neither touches what
// the other does, so the result is the same.
func beside(n int, f, g func()) {
	if n < sideBySide {
		f()
		g()
		return
	}
	var wait sync.WaitGroup
	wait.Go(f)
	g()
	wait.Wait()
}

// inParts calls f for two halves of n things, at the same time when there are
// many. The halves must not touch the same values.
func inParts(n int, f func(from, to int)) {
	beside(n, func() { f(0, n/2) }, func() { f(n/2, n) })
}

// contextOf is what the rules see of a result.
func contextOf(in Input, net *network.Net, r *Result) *check.Context {
	return &check.Context{
		Net: net, Tree: r.Tree, Rules: in.Rules, Solution: r.Solution, Loops: r.Loops,
		Capacity: r.Capacity, Catalog: in.Catalog, Country: in.Country,
	}
}

// ringed returns the tree with only those loops closed that may be built: the
// others are a flaw of the drawing (CIR-04) and stay out of the figures.
func ringed(net *network.Net, t *network.Tree) *network.Tree {
	if len(t.Closed) == 0 {
		return t
	}
	out := *t
	out.Closed = network.FindRings(net, t, net.RingAllowed).Closed
	return &out
}

// impedances returns the loop impedance of each branch for the volt drop: the
// tabulated or temperature-corrected resistance times the length. At the sizes
// of gardens (16 mm² and below) reactance is left out, as the tables do.
func impedances(net *network.Net) []complex128 {
	z := make([]complex128, len(net.Branches))
	for i := range net.Branches {
		b := &net.Branches[i]
		if b.Strip != nil {
			z[i] = complex(float64(b.Strip.Impedance()), 0)
		}
		if b.Cable != nil && b.Converter == nil {
			z[i] = complex(float64(cable.LoopPerMetre(b.Cable, net.Site))*float64(b.Length), 0)
		}
	}
	return z
}

// hot returns the operating-temperature multipliers of a cable.
func hot(rules *check.Rules) func(*network.Cable) (core, armour float64) {
	return func(c *network.Cable) (float64, float64) {
		row := cable.Hot(c.Insulation, &rules.Cable)
		return row.Core, row.Armour
	}
}

// withExisting returns the net with the other load of the existing circuit as
// a constant current at the spur unit, so that the indoor leg carries it. That
// it flows all the way to the spur is the cautious reading.
func withExisting(net *network.Net) *network.Net {
	s := &net.Supply
	if s.Kind != network.Spur || !s.ExistingLoad.Known || s.ExistingLoad.Value <= 0 || s.Nominal <= 0 {
		return net
	}
	for i := range net.Nodes {
		if net.Nodes[i].Kind != network.SupplyNode {
			continue
		}
		out := *net
		out.Nodes = append([]network.Node(nil), net.Nodes...)
		out.Nodes[i].Loads = append(append([]network.Load(nil), net.Nodes[i].Loads...), network.Load{
			Law: network.ConstantCurrent, Power: watts(s), PowerFactor: 1, Nominal: s.Nominal,
		})
		return &out
	}
	return net
}
