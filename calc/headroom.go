package calc

import (
	"cmp"
	"math"
	"slices"

	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// Headroom is what is left at one place before a finding turns. What is not
// limited, or cannot be judged, is not known; nothing left is 0.
type Headroom struct {
	// Metres of the same cable that the run may be longer, electrical length
	// with its allowances. It errs to the short side: growth of the currents is
	// bounded, not solved. It covers VD-01 to VD-03, FLT-01, FLT-05, CAP-01,
	// CAP-02, ADI-01 to ADI-03, SRC-01, SRC-04, LEK-01 and SOL-01; not what depends on the
	// way on the plan. On TT a residual device clears a fault to earth, and FLT-05
	// binds; the energy of ADI-02 and ADI-03 falls with the current, and where the
	// device turns slower, below 5·IΔn, it is a few A²s, which every cable stands.
	// More than 1,000 m is not stated. Most is the length by which some rule is
	// certainly broken; the truth lies between the two.
	Metres, Most q.Maybe[q.Metre]
	MetresBinds  finding.Code
	// Amperes more that may be drawn at the far end of a run, at a point, or from
	// a source; at its voltage there.
	Amperes      q.Maybe[q.Ampere]
	AmperesBinds finding.Code
	// Lamps more like the median lamp of the same voltage system; not known
	// without Amperes and without a lamp there. In a string of constant current,
	// whose amperes are given, they are those that the volts of the driver leave.
	// They also count what may be switched on together, INR-01 and INR-02, which
	// limit lamps where amperes do not.
	Lamps      q.Maybe[q.Count]
	LampsBinds finding.Code
	// Missing says what is not known and would bear on Lamps, "" for nothing.
	Missing string
}

// Rooms is the headroom of one circuit.
type Rooms struct {
	Runs    []Headroom   // in the order of Result.Runs
	Points  []Headroom   // in the order of Result.Points; no metres
	Sources []SourceRoom // in branch order
	RCDs    []LeakRoom   // residual devices, in node order
	Median  []Lamp       // per voltage system, in the order of Net.Systems; zero without a lamp
}

// SourceRoom is the headroom at the output of one source.
type SourceRoom struct {
	ID, Label string
	Headroom
}

// LeakRoom is the headroom of one residual device: how much more standing
// leakage it may carry before LEK-01 asks for a decision. Nothing is known
// before the leakage that was there has been measured.
type LeakRoom struct {
	ID, Label string // of what holds the device
	Device    string
	Left      q.Maybe[q.Ampere]
	Lamps     q.Maybe[q.Count] // of the lamp with the most leakage there is
	Each      q.Ampere         // leakage of that lamp
	Binds     finding.Code
}

// Lamp is the lamp that headroom is counted in.
type Lamp struct {
	Power   q.Watt
	Current q.Ampere // rated
}

// Room returns the headroom of everything in a circuit. in and res must belong
// together, res being the Evaluate of in. It takes a time in proportion to the
// number of nodes; it is asked for when someone looks, not with every edit.
func Room(in Input, res *Result) *Rooms {
	if in.Net == nil || in.Rules == nil || res == nil || len(res.Solution.Current) == 0 {
		return &Rooms{}
	}
	c := contextOf(in, withExisting(in.Net), res)
	c.Prepare()
	c.Settle()
	return roomOf(c, newProposer(c, newRater(c)), res)
}

// Room is Room of the circuit that was evaluated.
func (w *Worked) Room() *Rooms {
	if w.c == nil || len(w.Result.Solution.Current) == 0 {
		return &Rooms{}
	}
	return roomOf(w.c, w.p, w.Result)
}

func roomOf(c *check.Context, p *proposer, res *Result) *Rooms {
	r := newRoomer(c, p)
	out := &Rooms{Median: r.median}
	runs := make([]int, 0, len(res.Runs))
	for b := range c.Net.Branches {
		br := &c.Net.Branches[b]
		if br.ID == "" || br.Strip != nil {
			continue
		}
		if br.Converter != nil {
			if far := c.Far(b); far >= 0 {
				out.Sources = append(out.Sources, SourceRoom{br.ID, br.Label, r.amperes(far)})
			}
			continue
		}
		runs = append(runs, b)
	}
	out.Runs = make([]Headroom, len(runs))
	inParts(len(runs), func(from, to int) {
		for k := from; k < to; k++ {
			out.Runs[k] = r.run(runs[k])
		}
	})
	for _, l := range r.leaks {
		s := c.Subject(l.Node)
		room := LeakRoom{ID: s.ID, Label: s.Label, Device: l.Device.Label, Lamps: l.More, Each: l.Each, Binds: "LEK-01"}
		if l.Existing.Known {
			room.Left = q.Some(max(l.Limit-l.Sum, 0))
		}
		out.RCDs = append(out.RCDs, room)
	}
	root := c.Net.Root // only the board has no headroom
	out.Points = slices.Delete(r.amps, root, root+1)
	return out
}

// roomer works out headroom from what a proposer knows of the circuit.
type roomer struct {
	c      *check.Context
	p      *proposer
	sys    []sysRoom
	spot   []spot // per node
	lead   []lead // per node
	median []Lamp
	amps   []Headroom // per node
	leaks  []check.Leak
	surges *check.Switching
}

// sysRoom is what the lamps and devices of one voltage system have in common
// and left. What stands behind a source whose output follows its input counts
// too, its volts referred to the input: divided by k, the output without load
// over the input.
type sysRoom struct {
	power bool    // some current grows when the voltage falls
	low   float64 // lowest voltage at a consumer
	most  float64 // largest volts lost to a consumer
	volts tight   // least volts that some consumer within its limits may still lose
	grow  tight   // least share by which all currents may grow behind such a source
	amps  tight   // least amperes that some device, cable or source may still carry
	input tight   // amperes that everything ahead of the source leaves, at its output
	spare tight   // amperes by which the load of the source may fall until it is too little
	flow  float64 // current at the start of the system
}

// spot is what lies at and beyond a node.
type spot struct {
	ohm  float64 // Ω from the start of the system, a source's own included
	way  float64 // m from the board
	drop tight   // least volts left of a drop, below 0 for what fails now
	lamp tight   // the same of what a lamp needs
	// Ways, in m, of the consumers of the system beyond: see allowance.
	shortest, longest float64
	// The same of what meets its limits now: drops from the start of the system,
	// lamps, and what of both stands behind a source that follows its input.
	heldDrop, heldLamp tight
	fault              tight   // Ω more that leave the short circuits beyond proved
	start, end         tight   // the same at the near and the far end of the run that feeds it
	grow               tight   // as in sysRoom
	most               float64 // as in sysRoom
}

// lead is what limits more current at a node: everything between it and the
// start of its system, and ahead of that.
type lead struct {
	perOhm tight            // least of (volts left beyond a node of the way)/(its Ω), in A
	volts  tight            // least of those volts
	amps   tight            // least of the amperes that devices and cables of the way have left
	leak   q.Maybe[q.Count] // lamps that the residual devices of the way allow
	stray  tight            // least of the leakage that they have left, in A
}

func newRoomer(c *check.Context, p *proposer) *roomer {
	n := len(c.Net.Nodes)
	r := &roomer{c: c, p: p, sys: make([]sysRoom, len(c.Net.Systems)),
		spot: make([]spot, n), lead: make([]lead, n), amps: make([]Headroom, n)}
	for s := range r.sys {
		r.sys[s] = sysRoom{low: math.Inf(1), volts: nothing, grow: nothing, amps: nothing, spare: nothing, input: nothing}
	}
	for i := range r.spot {
		r.spot[i] = spot{drop: nothing, lamp: nothing, heldDrop: nothing, heldLamp: nothing, grow: nothing, fault: nothing, start: nothing, end: nothing, shortest: math.Inf(1)}
	}
	r.leaks, r.surges = c.Leaks(), c.Switching()
	r.medians()
	if !c.Trusted() {
		return r
	}
	for _, i := range c.Tree.Order {
		r.gather(i)
	}
	for k := len(c.Tree.Order) - 1; k > 0; k-- {
		r.handOn(c.Tree.Order[k])
	}
	for _, i := range c.Tree.Order {
		r.reach(i)
	}
	inParts(len(c.Tree.Order), func(from, to int) {
		for _, i := range c.Tree.Order[from:to] {
			r.amps[i] = r.more(i)
		}
	})
	return r
}

// handOn joins what lies beyond a node to the node ahead. Through a source that
// follows its input a lamp loses k volts for each at the input, and drop, load
// and current behind it keep within their limits while the currents grow by no
// more than what the tightest of them allows.
func (r *roomer) handOn(i int) {
	c := r.c
	b, up := c.Tree.Parent[i], c.Tree.Up(c.Net, i)
	to, from := &r.spot[up], &r.spot[i]
	cv := c.Net.Branches[b].Converter
	if cv == nil {
		to.drop.take(from.drop)
		to.lamp.take(from.lamp)
		to.shortest, to.longest = math.Min(to.shortest, from.shortest), math.Max(to.longest, from.longest)
		to.heldDrop.take(from.heldDrop)
		to.heldLamp.take(from.heldLamp)
		to.fault.take(from.fault)
		to.fault.take(from.end)
		to.fault.take(from.start)
		to.grow.take(from.grow)
		to.most = math.Max(to.most, from.most)
		return
	}
	s2, s1 := &r.sys[c.Net.Nodes[i].System], &r.sys[c.Net.Nodes[up].System]
	k := 0.0
	if un := float64(r.p.nominal(up)); un > 0 {
		k = float64(cv.Open()) / un
	}
	if cv.Regulated || k <= 0 || s2.flow <= 0 {
		return
	}
	volts, grow := nothing, nothing
	if t := from.heldLamp; t.node >= 0 {
		volts.take(tight{t.slack / k, t.node, t.code})
	}
	// A drop counts from the output, so only growth matters.
	if t := from.heldDrop; t.node >= 0 {
		if d := float64(c.Drop(t.node)); d > 0 {
			grow.take(tight{t.slack / d, t.node, t.code})
		} else {
			volts.take(tight{t.slack / k, t.node, t.code})
		}
	}
	// Watts of a source that follows its input fall with the volts there and with
	// the currents that fall with them.
	if t := s2.spare; t.node >= 0 {
		u := float64(c.Volts(i))
		volts.take(tight{t.slack / s2.flow / (1/u + 1/r.p.pools[c.Net.Nodes[i].System].lift) / k, t.node, t.code})
	}
	if s2.amps.node >= 0 {
		grow.take(tight{s2.amps.slack / s2.flow, s2.amps.node, s2.amps.code})
	}
	to.lamp.take(volts)
	to.heldLamp.take(volts)
	to.grow.take(grow)
	to.most = math.Max(to.most, float64(c.Drop(up))+s2.most/k)
	s1.volts.take(volts)
	s1.grow.take(grow)
	s1.low, s1.most = math.Min(s1.low, s2.low/k), math.Max(s1.most, to.most)
}

// medians finds the median lamp of each system by rated current; of an even
// number the smaller of the two in the middle counts as well as any, and the
// larger is taken as the careful one.
func (r *roomer) medians() {
	c := r.c
	r.median = make([]Lamp, len(c.Net.Systems))
	lamps := make([][]Lamp, len(c.Net.Systems))
	for i := range c.Net.Nodes {
		n := &c.Net.Nodes[i]
		if n.Kind != network.LampNode || len(n.Loads) == 0 || c.Tree.Parent[i] < 0 {
			continue
		}
		var l Lamp
		for _, load := range n.Loads {
			l.Power += load.Power
			l.Current += load.Rated()
		}
		lamps[n.System] = append(lamps[n.System], l)
	}
	for s, list := range lamps {
		if len(list) == 0 {
			continue
		}
		slices.SortStableFunc(list, func(a, b Lamp) int { return cmp.Compare(a.Current, b.Current) })
		r.median[s] = list[len(list)/2]
	}
}

// gather takes one node into what it and its system have left.
func (r *roomer) gather(i int) {
	c := r.c
	n := &c.Net.Nodes[i]
	s, at := &r.sys[n.System], &r.spot[i]
	if b := c.Tree.Parent[i]; b >= 0 && c.Net.Branches[b].Converter == nil {
		at.way = r.spot[c.Tree.Up(c.Net, i)].way + float64(c.Net.Branches[b].Length)
		short := c.ShortRoom(b)
		at.start, at.end = tight{short.Near, i, short.NearCode}, tight{short.Far, i, short.FarCode}
	}
	if check.Consumer(n) && !c.Driven(i) {
		u, drop, un := float64(c.Volts(i)), float64(c.Drop(i)), float64(r.p.nominal(i))
		at.shortest, at.longest = at.way, at.way
		at.most = math.Max(r.p.far[i].most, drop)
		s.low, s.most = math.Min(s.low, u), math.Max(s.most, at.most)
		ratio, _ := c.DropLimit(i)
		code := finding.Code("VD-01")
		if n.System != 0 {
			code = "VD-02"
		}
		if ratio > 0 {
			at.take(&at.drop, tight{left(ratio*un, drop), i, code})
		}
		if low, _ := c.LampLimits(i); low > 0 {
			at.take(&at.lamp, tight{left(u, float64(low)), i, "VD-03"})
		}
		s.volts.take(at.heldDrop)
		s.volts.take(at.heldLamp)
		s.power = s.power || n.Kind == network.PrimaryNode
		for _, l := range n.Loads {
			s.power = s.power || l.Steepness(u) < 0
		}
	}
	if t := r.carry(i); t.slack >= 0 {
		s.amps.take(t)
	}
	if b := c.Tree.Parent[i]; b < 0 || c.Net.Branches[b].Converter != nil {
		s.flow = float64(c.Through(i))
		s.spare.take(r.least(b, i))
	}
}

// take takes a margin into drop or lamp, and into its twin of what is met now.
func (s *spot) take(to *tight, t tight) {
	to.take(t)
	switch {
	case t.slack < 0:
	case to == &s.lamp:
		s.heldLamp.take(t)
	default:
		s.heldDrop.take(t)
	}
}

// all is the least of the volts left, without any allowance for a longer way.
func (s *spot) all() tight {
	t := s.drop
	t.take(s.lamp)
	return t
}

// carry is what the devices of a node and the branch that feeds it may carry
// more.
func (r *roomer) carry(i int) tight {
	c := r.c
	least := nothing
	for k := range c.Net.Nodes[i].Devices {
		if d := &c.Net.Nodes[i].Devices[k]; d.Overcurrent() {
			least.take(tight{left(float64(d.Rating), float64(c.Beyond(i))), i, "CAP-01"})
		}
	}
	b := c.Tree.Parent[i]
	if b < 0 {
		return least
	}
	if cv := c.Net.Branches[b].Converter; cv != nil {
		least.take(r.source(i, cv))
		return least
	}
	if c.Ours(b) && c.Capacity[b].Known {
		least.take(tight{r.cable(b), i, "CAP-02"})
	}
	return least
}

// cable is what a run may carry more. Where overload protection may be left
// out the load may grow until it may not.
func (r *roomer) cable(b int) float64 {
	c := r.c
	iz := float64(c.Capacity[b].Iz)
	if c.Demand(b).Soft || float64(c.Demand(b).Iz) <= iz {
		return left(iz, float64(c.Flow(b)))
	}
	if o := c.Omitted(b); o.Allowed {
		return left(float64(o.Iz), float64(o.Ib))
	}
	return left(iz, float64(c.Flow(b)))
}

// source is what a source may deliver more before SRC-01 asks for a decision,
// or once it does, before it stops.
func (r *roomer) source(i int, cv *network.Converter) tight {
	u := math.Max(float64(r.c.Volts(i)), float64(cv.Nominal))
	if u <= 0 || cv.Rated <= 0 {
		return nothing
	}
	load, most := float64(r.c.Through(i)), float64(cv.Rated)/u
	if part := r.c.Rules.Limits.SourceLoad.Value; part > 0 && load <= most*part*(1+lastBit) {
		most *= part
	}
	return tight{left(most, load), i, "SRC-01"}
}

// least is by how much the load of a source may fall until it is less than the
// source needs, in A; nothing where that is so now.
func (r *roomer) least(b, i int) tight {
	if b < 0 || r.c.Net.Branches[b].Converter == nil {
		return nothing
	}
	cv := r.c.Net.Branches[b].Converter
	u := math.Max(float64(r.c.Volts(i)), float64(cv.Nominal))
	if cv.MinimumLoad <= 0 || u <= 0 {
		return nothing
	}
	t := tight{left(float64(r.c.Through(i)), float64(cv.MinimumLoad)/u), i, "SRC-01"}
	if t.slack < 0 {
		return nothing
	}
	return t
}

// lastBit is the share by which the rules let a figure pass its limit, so that
// one exactly on it does not fail; see package check.
const lastBit = 1e-9

// left is what a figure leaves of its limit; nothing is left, and not less,
// where it stands exactly on it.
func left(limit, figure float64) float64 {
	if figure > limit && figure <= limit*(1+lastBit) {
		return 0
	}
	return limit - figure
}
