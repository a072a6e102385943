package check

import (
	"math"
	"math/cmplx"

	"duskwire/calc/cable"
	"duskwire/calc/finding"
	"duskwire/calc/network"
	"duskwire/calc/protect"
	q "duskwire/calc/quantity"
)

// Zone is a part of the net behind the same devices. A node with devices
// starts a new zone beyond it, a source starts one at its output.
type Zone struct {
	Over       *network.Device // nearest overcurrent device ahead; nil for none
	OverAt     int             // node that holds it
	Residual   *network.Device // device with the smallest IΔn ahead; nil for none
	ResidualAt int
	Guard      int            // number of the overcurrent device, the same for every zone behind it
	Loop       q.Maybe[q.Ohm] // largest loop that disconnects in time here
	LoopSource finding.Source
	Time       q.Maybe[q.Second] // longest disconnection time
	TimeSource finding.Source
	Output     bool // behind a source
	// Ceiling bounds what Over lets through for any fault behind it: what it
	// passes at the current where it stands. Not used for faults to earth on TT.
	Ceiling q.Maybe[q.AmpereSquaredSecond]
}

// longest is the longest time for which fuses are tabulated and the adiabatic
// equation holds.
const longest q.Second = 5

// assumed stands for a prospective current that nobody measured: the most the
// device can break, or 10 kA when that is not known either. That the device
// can break what flows is BRK-01's business.
func assumed(d *network.Device) q.Ampere {
	if d.Breaking > 0 {
		return d.Breaking
	}
	return 10000
}

// plan holds what several rules need, worked out once in a walk over the tree.
type plan struct {
	zones  []Zone
	zone   []int     // per node: the zone that the node and the branch feeding it stand in
	far    []int     // per branch: its node away from the supply, -1 outside the tree
	path   []q.Metre // per node: length from the start of its system
	start  []float64 // per node: voltage at the start of its system, V
	drop   []float64 // per node: volts lost since then by the basic method, V
	short  []float64 // per node: line-neutral impedance cold, Ω; NaN unknown
	rings  network.Rings
	strips []int // branches that are strips
	driven []network.String
	earth  *protect.Earth
	guards int
	supply int   // first supply node, -1
	ways   []int // runs with a way on the plan; nil until asked for
}

// prepare works the plan out; a second call does nothing.
func (c *Context) prepare() {
	if c.plan != nil {
		return
	}
	n := len(c.Net.Nodes)
	p := &plan{zone: make([]int, n), far: make([]int, len(c.Net.Branches)), path: make([]q.Metre, n),
		start: make([]float64, n), drop: make([]float64, n), short: make([]float64, n), supply: -1}
	c.plan = p
	p.rings = network.FindRings(c.Net, c.Tree, c.Net.RingAllowed)
	p.earth = protect.TraceEarth(c.Net, c.Tree)
	p.driven = network.Strings(c.Net, c.Tree)
	for i := range p.far {
		p.far[i] = -1
	}
	for b := range c.Net.Branches {
		if c.Net.Branches[b].Strip != nil {
			p.strips = append(p.strips, b)
		}
	}
	for _, b := range p.rings.Closed {
		p.far[b] = c.Net.Branches[b].To
	}
	for i := range p.short {
		p.short[i] = math.NaN()
	}
	beyond := make([]int, n) // zone that starts beyond each node
	p.zones = append(p.zones, Zone{OverAt: -1, ResidualAt: -1, Guard: -1})
	for _, i := range c.Tree.Order {
		node := &c.Net.Nodes[i]
		if node.Kind == network.SupplyNode && p.supply < 0 {
			p.supply = i
		}
		c.arrive(i, beyond)
		beyond[i] = p.zone[i]
		if len(node.Devices) > 0 {
			p.zones = append(p.zones, c.behind(p.zones[p.zone[i]], i))
			beyond[i] = len(p.zones) - 1
		}
	}
}

// arrive fills in what a node takes over from the node ahead of it.
func (c *Context) arrive(i int, beyond []int) {
	p, b := c.plan, c.Tree.Parent[i]
	if b < 0 {
		p.short[i] = c.boardImpedance()
		p.start[i] = float64(c.phasor(i))
		return
	}
	up := c.Tree.Up(c.Net, i)
	br := &c.Net.Branches[b]
	p.far[b] = i
	p.start[i] = p.start[up]
	if br.Converter != nil {
		p.start[i] = float64(c.phasor(i))
		p.zones = append(p.zones, Zone{OverAt: -1, ResidualAt: -1, Guard: -1, Output: true})
		p.zone[i] = len(p.zones) - 1
		return
	}
	p.zone[i] = beyond[up]
	p.path[i] = p.path[up] + br.Length
	p.drop[i] = p.drop[up] + c.fall(b)
	if c.InRing(b) {
		// Kirchhoff's law makes every way round a loop lose the same for phasors
		// only; the larger of the two is the careful one.
		p.drop[i] = math.Max(p.drop[i], p.start[i]-float64(c.phasor(i)))
	}
	s := &c.Net.Supply
	switch {
	case br.Cable != nil:
		p.short[i] = p.short[up] + 2*float64(br.Cable.R20)*float64(br.Length)
	case !s.MeasuredZs.Known:
		p.short[i] = p.short[up] // a cable that nobody knows lowers nothing
	}
	if c.Net.Nodes[i].Kind == network.SupplyNode && s.MeasuredZs.Known && s.Earthing != network.TT {
		// The smaller impedance gives the larger current; NaN loses.
		if z := float64(s.MeasuredZs.Value); !(p.short[i] <= z) {
			p.short[i] = z
		}
	}
}

// boardImpedance is the line-neutral impedance at the board: from the
// prospective fault current, else Ze of a TN supply, else not known.
func (c *Context) boardImpedance() float64 {
	s := &c.Net.Supply
	switch {
	case s.FaultCurrent.Known && s.FaultCurrent.Value > 0:
		return float64(s.Nominal) * c.Rules.Protect.Cmax / float64(s.FaultCurrent.Value)
	case s.Ze.Known && s.Earthing != network.TT:
		return float64(s.Ze.Value)
	}
	return math.NaN()
}

// behind returns the zone beyond the devices of node i.
func (c *Context) behind(z Zone, i int) Zone {
	p, t, s := c.plan, &c.Rules.Protect, &c.Net.Supply
	devices := c.Net.Nodes[i].Devices
	for k := range devices {
		d := &devices[k]
		if d.Overcurrent() {
			z.Over, z.OverAt, z.Guard = d, i, p.guards
			p.guards++
			z.Ceiling = c.ceiling(d, i)
		}
		if d.ResidualPart() && (z.Residual == nil || d.Residual <= z.Residual.Residual) {
			z.Residual, z.ResidualAt = d, i
		}
	}
	z.Loop, z.LoopSource = q.Maybe[q.Ohm]{}, finding.Source{}
	guard := q.Ampere(0)
	if z.Over != nil {
		guard = z.Over.Rating
	}
	limit, src, ok := protect.Longest(s, guard, t)
	if !ok {
		return z
	}
	z.Time, z.TimeSource = q.Some(limit), src
	var loop q.Ohm
	switch {
	case s.Earthing == network.TT && z.Residual != nil:
		loop, src, ok = protect.MaxLoopResidual(*z.Residual, s.Earthing, s.Nominal, t)
	case s.Earthing != network.TT && z.Over != nil:
		loop, src, ok = protect.MaxLoop(*z.Over, limit, s.Nominal, t)
	default:
		ok = false
	}
	if ok {
		z.Loop, z.LoopSource = q.Some(loop), src
	}
	return z
}

// ceiling is the largest energy that a device at node i lets through for any
// fault behind it that Stress looks at. A breaker's bound grows with the
// current; a fuse's is largest just below the current that opens it in time,
// where it may take up to the longest time.
func (c *Context) ceiling(d *network.Device, i int) q.Maybe[q.AmpereSquaredSecond] {
	t, uo := &c.Rules.Protect, c.Net.Supply.Nominal
	if d.Kind != network.Breaker && d.Kind != network.RCBO {
		within, _, _ := protect.Longest(&c.Net.Supply, d.Rating, t)
		ia, _, ok := protect.TripCurrent(*d, within, uo, t)
		return q.Maybe[q.AmpereSquaredSecond]{Value: q.AmpereSquaredSecond(float64(ia) * float64(ia) * float64(longest)), Known: ok}
	}
	at, known := c.largest(i, LineCore)
	if !known {
		at = assumed(d)
	}
	e, _, ok := protect.LetThrough(*d, at, uo, t)
	return q.Maybe[q.AmpereSquaredSecond]{Value: e, Known: ok}
}

// Zone returns the zone that a node stands in.
func (c *Context) Zone(node int) *Zone {
	c.prepare()
	return &c.plan.zones[c.plan.zone[node]]
}

// Far returns the node of a branch away from the supply, of one that closes a
// ring its To; -1 when the branch carries nothing.
func (c *Context) Far(branch int) int {
	c.prepare()
	return c.plan.far[branch]
}

// Near returns the node of a branch towards the supply, of one that closes a
// ring its From; -1 when the branch carries nothing.
func (c *Context) Near(branch int) int {
	far := c.Far(branch)
	if far < 0 {
		return -1
	}
	if c.Tree.Parent[far] != branch {
		return c.Net.Branches[branch].From
	}
	return c.Tree.Up(c.Net, far)
}

// Beyond returns the current that leaves a node away from the supply, in A:
// what its devices carry. On a ring that is what passes on, either way.
func (c *Context) Beyond(node int) q.Ampere {
	if c.OnRing(node) {
		return c.flowing(node, true)
	}
	var sum complex128
	for _, b := range c.Tree.Kids[node] {
		sum += c.Solution.Current[b]
	}
	return q.Ampere(cmplx.Abs(sum))
}

// Through returns the current that reaches a node: its own load and all
// beyond it, in A. At the output of a source it is the secondary current, at a
// node on a ring what arrives from both sides. Flow is the current of a branch.
func (c *Context) Through(node int) q.Ampere {
	b := c.Tree.Parent[node]
	if b < 0 {
		return c.Beyond(node)
	}
	if c.InRing(b) {
		return c.flowing(node, false)
	}
	if c.Net.Branches[b].Converter != nil {
		return q.Ampere(cmplx.Abs(c.Solution.Output[b]))
	}
	return q.Ampere(cmplx.Abs(c.Solution.Current[b]))
}

// Drop returns the volts lost from the start of a node's own system to the
// node by the basic method, the worst power factor assumed:
//
//	ΔU = Σ (mV/A/m · |I| · L)
//
// The phases of the currents are left out on purpose: the power factor of a
// small driver is mostly distortion, which does not shift the current, so a
// phasor drop would come out too small. With direct current and at unity power
// factor both are the same. Source: BS 7671 Appendix 4, 6.1 and 6.2.
func (c *Context) Drop(node int) q.Volt {
	c.prepare()
	return q.Volt(c.plan.drop[node])
}

// Volts returns the voltage at a node, the start of its system less Drop; at
// least 0. Within a string of constant current it is what stands between the
// cores of the cable that reaches the node.
func (c *Context) Volts(node int) q.Volt {
	c.prepare()
	if c.Driven(node) {
		return c.phasor(node)
	}
	return q.Volt(math.Max(c.plan.start[node]-c.plan.drop[node], 0))
}

// phasor returns the magnitude of the voltage that the solver found, with the
// phases of the currents: the most that a meter will read.
func (c *Context) phasor(node int) q.Volt { return q.Volt(cmplx.Abs(c.Solution.Voltage[node])) }

// nominal returns the nominal voltage of a node's system.
func (c *Context) nominal(node int) q.Volt { return c.Net.Systems[c.Net.Nodes[node].System].Nominal }

// Ours reports whether a branch is a run (or the indoor leg of an own way)
// whose adequacy is ours to prove. An indoor leg of no length says that the
// supply point is at the board: no cable is there to be judged.
func (c *Context) Ours(b int) bool {
	br := &c.Net.Branches[b]
	return br.Converter == nil && br.Cable != nil && !br.Existing && c.Far(b) >= 0 && (br.ID != "" || br.Length > 0)
}

// subject names a node; the board has no entity of its own and is named by the
// supply point.
func (c *Context) subject(node int) finding.Subject {
	n := &c.Net.Nodes[node]
	if n.ID == "" {
		return c.supplySubject()
	}
	return finding.Subject{ID: n.ID, Label: n.Label}
}

// Subject names a node as the findings do.
func (c *Context) Subject(node int) finding.Subject { return c.subject(node) }

// supplySubject names the supply point.
func (c *Context) supplySubject() finding.Subject {
	c.prepare()
	if i := c.plan.supply; i >= 0 {
		return finding.Subject{ID: c.Net.Nodes[i].ID, Label: c.Net.Nodes[i].Label}
	}
	return finding.Subject{Label: c.Net.Label}
}

// runSubject names a branch; the indoor leg belongs to the supply point.
func (c *Context) runSubject(b int) finding.Subject {
	br := &c.Net.Branches[b]
	if br.ID == "" {
		s := c.supplySubject()
		if br.Label != "" {
			s.Label = br.Label
		}
		return s
	}
	return finding.Subject{ID: br.ID, Label: br.Label}
}

// trail returns the branches from the start of a node's system to the node.
func (c *Context) trail(node int) []int {
	var out []int
	for b := c.Tree.Parent[node]; b >= 0 && c.Net.Branches[b].Converter == nil; b = c.Tree.Parent[node] {
		out = append(out, b)
		node = c.Tree.Up(c.Net, node)
	}
	for i, j := 0, len(out)-1; i < j; i, j = i+1, j-1 {
		out[i], out[j] = out[j], out[i]
	}
	return out
}

// family returns the sizes that could take the place of a cable.
func (c *Context) family(cb *network.Cable) []*network.Cable { return cable.Family(cb, c.Catalog) }
