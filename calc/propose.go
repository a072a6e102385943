package calc

import (
	"strconv"

	"duskwire/calc/cable"
	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/calc/solve"
)

// proposer finds the smallest cable for each run. It looks at every node once
// (see survey), so that the whole circuit takes a time in proportion to its
// size.
type proposer struct {
	c        *check.Context
	rate     *rater
	trusted  bool
	far      []beyond // per node
	rings    []*trial // per system; nil until needed
	tried    int      // points of all trials so far
	pools    []pool   // per system
	families []family
	cables   []*traits
	shorts   *shortsOf // the same for all that were forked
}

// family is the sizes of one kind of cable, smallest first.
type family struct {
	name  string
	sizes []*network.Cable
}

func newProposer(c *check.Context, rate *rater) *proposer {
	p := &proposer{c: c, rate: rate, trusted: c.Trusted(), shorts: &shortsOf{}}
	if len(c.Net.Nodes) > 0 {
		p.survey()
	}
	return p
}

// fork returns a proposer that may be asked beside the other of runs that lie on
// no ring.
func (p *proposer) fork() *proposer {
	out := *p
	out.rate, out.families, out.cables = p.rate.fork(), nil, nil
	return &out
}

// surveyed returns a proposer that holds nothing but what the circuit was found
// to be.
func (p *proposer) surveyed() *proposer {
	return &proposer{c: p.c, trusted: p.trusted, far: p.far, pools: p.pools}
}

// sizes returns the family of a cable. A garden has few families: a list.
func (p *proposer) sizes(cb *network.Cable) []*network.Cable {
	for i := range p.families {
		if p.families[i].name == cb.Family {
			return p.families[i].sizes
		}
	}
	f := family{cb.Family, cable.Family(cb, p.c.Catalog)}
	p.families = append(p.families, f)
	return f.sizes
}

func (p *proposer) perMetre(cb *network.Cable) float64 {
	return float64(cable.LoopPerMetre(cb, p.c.Net.Site))
}

// propose returns the smallest cable of the family of run b that passes
// capacity, drop and voltage at every lamp beyond it, the fault loop at every
// point beyond it and the adiabatic check of its own, everything else staying as
// it is. Runs beyond whose short circuit is then not proved any more are not in
// the way of it: Why names the first. Loads of sources (SRC-01) are looked at
// only where currents grow.
// The answer errs to the thicker side: see growth. What cannot be judged (an
// unknown loop) is not claimed.
func (p *proposer) propose(b int) Proposal {
	if !p.trusted {
		code := finding.Code("SOL-02")
		if s := p.c.Solution; s != nil && s.Status.State == solve.Collapsed {
			code = "SOL-01"
		}
		return Proposal{Binds: code, Why: "the circuit has no voltages to size a cable by"}
	}
	if p.c.InRing(b) {
		if why := p.ringTooLarge(b); why != "" {
			return Proposal{Binds: "CIR-11", Why: why}
		}
	}
	var before verdict
	sizes := p.sizes(p.c.Net.Branches[b].Cable)
	for i, cb := range sizes {
		v := p.judge(b, cb)
		if !v.passes() {
			before = v
			continue
		}
		if i == 0 {
			return Proposal{Cable: cb, Binds: v.code, Why: "smallest of its kind; nearest to its limit: " + p.say(v) + p.weakens(b, cb)}
		}
		return Proposal{Cable: cb, Binds: before.code, Why: sizes[i-1].Size.String() + " would not do: " + p.say(before) + p.weakens(b, cb)}
	}
	if len(sizes) == 0 {
		return Proposal{Binds: "CAP-03", Why: "the stock book holds no size of this kind of cable"}
	}
	return Proposal{Binds: before.code, Why: "no size of this run alone will do: " + p.say(before) + " with " + sizes[len(sizes)-1].Size.String()}
}

// say writes the figure of a verdict. It is written for every run of every
// evaluation, so it joins strings and does not format.
func (p *proposer) say(v verdict) string {
	if v.limit == 0 && v.figure == 0 {
		return p.bare(v)
	}
	switch v.code {
	case "CAP-01", "SRC-01":
		return p.bare(v)
	case "CAP-02":
		return "capacity " + q.Ampere(v.figure).String() + " where " + q.Ampere(v.limit).String() + " is required"
	case "VD-01", "VD-02":
		if v.node < 0 {
			return "currents grow by " + percent(v.figure-1) + " where " + percent(v.limit-1) + " is left"
		}
		return "drop " + percent(v.figure) + " of " + percent(v.limit) + " at " + p.label(v.node)
	case "VD-03":
		if v.use == 1.01 {
			return "voltage rises by " + q.Volt(v.figure).String() + " where " + q.Volt(v.limit).String() + " is left"
		}
		return q.Volt(v.figure).String() + " at " + p.label(v.node) + " where " + q.Volt(v.limit).String() + " is required"
	case stringCode:
		return "string of " + q.Volt(v.figure).String() + " where the driver of " + p.label(v.node) + " holds its current to " + q.Volt(v.limit).String()
	case "FLT-01", "FLT-05":
		return "fault loop " + q.Ohm(v.figure).String() + " of " + q.Ohm(v.limit).String() + " at " + p.label(v.node)
	case "ADI-01", "ADI-02", "ADI-03":
		return "withstands " + q.AmpereSquaredSecond(v.figure).String() + " where up to " + q.AmpereSquaredSecond(v.limit).String() + " may pass"
	}
	return p.bare(v)
}

// bare says what has no figure.
func (p *proposer) bare(v verdict) string {
	switch v.code {
	case "CAP-03":
		return "no rating for the way it is installed"
	case "SOL-01":
		return "a voltage collapse beyond " + p.label(v.node) + " cannot be excluded"
	case "CAP-01":
		return "a device behind the source would carry more than its rating"
	case "SRC-01":
		return "the source would give more than its rating"
	case "CAP-02":
		return "no device is named that it would have to carry"
	}
	return string(v.code) + " is not near any limit"
}

func (p *proposer) label(i int) string {
	if i < 0 {
		return "the far end"
	}
	return p.c.Net.Nodes[i].Label
}

// percent writes a fraction with two decimals.
func percent(r float64) string { return strconv.FormatFloat(r*100, 'f', 2, 64) + " %" }
