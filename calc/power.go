package calc

import (
	"math/cmplx"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/calc/solve"
)

// Draw is what a circuit takes from the supply with every lamp on, shared out.
type Draw struct {
	// Node has, by node, the watts at the supply that the lamps there account for:
	// their own and their share of the losses.
	Node []q.Watt
	Idle q.Watt // of sources without a lamp behind them, and cable that feeds none
	// Supplied = ΣNode + Idle, without the other load of an existing circuit.
	Supplied q.Watt
	Trusted  bool // false when there is no steady state; then nothing above is an answer
}

// Power solves a circuit and shares the watts it takes from the supply among its
// lamps. What a source loses, P/η - P + P0, and what the cables behind it lose is
// shared by the watts of the lamps behind it; what the mains cables lose by the
// watts taken from them. The other load of an existing circuit is left out. A nil
// net gives a Draw that is not trusted.
func Power(in Input) Draw {
	if in.Net == nil {
		return Draw{}
	}
	net := in.Net
	tree := network.BuildTree(net)
	closed := ringed(net, tree)
	z := impedances(net)
	sol := solve.Solve(net, closed, z)
	d := Draw{Node: make([]q.Watt, len(net.Nodes)), Supplied: sol.Supplied, Trusted: sol.Status.State == solve.Converged}
	if !d.Trusted {
		return d
	}
	behind := sourcesOf(net, tree)
	used, lost := wattsBehind(net, sol, z, behind)
	mains := 0.0 // taken from the mains cables by lamps and sources
	taken := make([]float64, len(net.Branches))
	for b := range net.Branches {
		if cv := net.Branches[b].Converter; cv != nil && sourced(net, tree, b) {
			taken[b] = (used[b]+lost[b])/cv.Efficiency + float64(cv.NoLoad)
			mains += taken[b]
		}
	}
	for i := range net.Nodes {
		if behind[i] < 0 {
			mains += float64(sol.Power[i])
		}
	}
	over := 1.0
	if mains > 0 {
		over = float64(sol.Supplied) / mains
	}
	shared := 0.0
	for i := range net.Nodes {
		p := float64(sol.Power[i]) * over
		if b := behind[i]; b >= 0 {
			p = 0
			if used[b] > 0 {
				p = float64(sol.Power[i]) / used[b] * taken[b] * over
			}
		}
		d.Node[i] = q.Watt(p)
		shared += p
	}
	d.Idle = sol.Supplied - q.Watt(shared)
	return d
}

// sourcesOf returns, by node, the branch of the source that feeds it, -1 on the
// mains and where nothing does.
func sourcesOf(net *network.Net, tree *network.Tree) []int {
	out := make([]int, len(net.Nodes))
	for i := range out {
		out[i] = -1
	}
	for _, i := range tree.Order {
		b := tree.Parent[i]
		switch {
		case b < 0:
		case net.Branches[b].Converter != nil:
			out[i] = b
		default:
			out[i] = out[tree.Up(net, i)]
		}
	}
	return out
}

// sourced reports whether a source is fed from the mains.
func sourced(net *network.Net, tree *network.Tree, b int) bool {
	far := net.Branches[b].To
	return tree.Parent[far] == b
}

// wattsBehind sums up, by the branch of a source, what its lamps use and what
// the cables behind it lose.
func wattsBehind(net *network.Net, sol *solve.Solution, z []complex128, behind []int) (used, lost []float64) {
	used, lost = make([]float64, len(net.Branches)), make([]float64, len(net.Branches))
	for i := range net.Nodes {
		if behind[i] >= 0 {
			used[behind[i]] += float64(sol.Power[i])
		}
	}
	for b := range net.Branches {
		br := &net.Branches[b]
		if at := behind[br.To]; at >= 0 && at != b && br.Converter == nil {
			i := cmplx.Abs(sol.Current[b])
			lost[at] += i * i * real(z[b])
		}
	}
	return used, lost
}
