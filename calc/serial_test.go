package calc

import (
	"duskwire/calc/check"
	"duskwire/calc/network"
	"duskwire/calc/protect"
	"duskwire/calc/solve"
)

// Serially is Evaluate with one thing done after the other and the runs one by
// one in their order, whatever the size of the net. It shares none of the parting
// of Work, so that the two can be compared.
func Serially(in Input) *Result {
	net := withExisting(in.Net)
	r := &Result{Label: net.Label, Tree: network.BuildTree(net)}
	c := contextOf(in, net, r)
	c.Solution = solve.Solve(net, ringed(net, r.Tree), impedances(net))
	c.Loops = protect.Loops(net, r.Tree, hot(in.Rules), &in.Rules.Protect)
	r.Solution, r.Loops = c.Solution, c.Loops
	rate := newRater(c)
	c.Capacity = rate.all()
	r.Capacity = c.Capacity
	c.Prepare()
	r.Findings = check.Run(c)
	r.Points = points(c)
	r.Runs = oneByOne(c, rate)
	r.Strings = stringReadings(c)
	r.Totals = totals(c, r)
	return r
}

// oneByOne returns the runs of a circuit, those on rings last as in runList.done.
func oneByOne(c *check.Context, rate *rater) []Run {
	l, p := newRunList(c), newProposer(c, rate)
	for _, ring := range []bool{false, true} {
		for k, b := range l.branch {
			if !ring {
				l.run(k)
			}
			if c.Ours(b) && c.InRing(b) == ring {
				l.out[k].Proposal = p.propose(b)
			}
		}
	}
	return l.out
}

// RoomOneByOne is the headroom of every run of a circuit, asked one by one.
func RoomOneByOne(in Input, res *Result) []Headroom {
	c := contextOf(in, withExisting(in.Net), res)
	c.Prepare()
	c.Settle()
	r := newRoomer(c, newProposer(c, newRater(c)))
	var out []Headroom
	for b := range c.Net.Branches {
		if br := &c.Net.Branches[b]; br.ID != "" && br.Strip == nil && br.Converter == nil {
			out = append(out, r.run(b))
		}
	}
	return out
}

// AmperesOneByOne is the same of every point, in the order of Result.Points.
func AmperesOneByOne(in Input, res *Result) []Headroom {
	c := contextOf(in, withExisting(in.Net), res)
	c.Prepare()
	c.Settle()
	r := newRoomer(c, newProposer(c, newRater(c)))
	out := make([]Headroom, 0, len(c.Net.Nodes))
	reached := make([]bool, len(c.Net.Nodes))
	for _, i := range c.Tree.Order {
		reached[i] = true
	}
	for i := range c.Net.Nodes {
		if i == c.Net.Root {
			continue
		}
		h := Headroom{}
		if reached[i] && c.Trusted() {
			h = r.more(i)
		}
		out = append(out, h)
	}
	return out
}
