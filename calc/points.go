package calc

import (
	"duskwire/calc/check"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// watts is the power that the other load of an existing circuit stands for.
func watts(s *network.Supply) q.Watt {
	return q.Watt(float64(s.ExistingLoad.Value) * float64(s.Nominal))
}

// points returns the reading at every node but the board, in node order. A
// node that nothing feeds, or that is fed through a flaw of the drawing, has no
// reading and is not Trusted.
func points(c *check.Context) []Point {
	out := make([]Point, 0, len(c.Net.Nodes))
	warm := expectedDrops(c)
	for i := range c.Net.Nodes {
		if i == c.Net.Root {
			continue
		}
		n := &c.Net.Nodes[i]
		sys := &c.Net.Systems[n.System]
		p := Point{ID: n.ID, Label: n.Label, Kind: n.Kind, System: sys.Label, Nominal: sys.Nominal, Loop: c.Loops[i]}
		if c.Tree.Parent[i] >= 0 {
			p.Trusted = c.Trusted() && !n.Doubtful
			p.Voltage, p.Drop, p.Current = c.Volts(i), c.Drop(i), c.Through(i)
			if sys.Nominal > 0 {
				p.DropRatio = float64(p.Drop) / float64(sys.Nominal)
			}
			p.R1R2Test.Value, p.R1R2Test.Known = c.TestR1R2(i)
			if p.Loop.Applies && p.Loop.Known {
				p.LoopTest = q.Some(c.TestLoop(i))
			}
			p.Expected = expectedVolts(c, i, warm[i])
			p.Light = light(n, p.Voltage, p.Trusted)
			if c.Driven(i) {
				p.driven(c, i, warm[i])
			}
			z := c.Zone(i)
			p.Limit = c.PointLimit(i)
			if z.Over != nil {
				p.Device = z.Over.Label
			}
			if c.Net.Supply.Earthing == network.TT && z.Residual != nil {
				p.Device = z.Residual.Label
			}
		}
		out = append(out, p)
	}
	strips(c, out)
	return out
}

// light is the light of the lamp at a node as a share of that at nominal
// voltage; not known where the volts are no answer or the lamp does not tell.
func light(n *network.Node, u q.Volt, trusted bool) (l q.Maybe[float64]) {
	if trusted && n.Kind == network.LampNode && len(n.Loads) > 0 {
		l.Value, l.Known = n.Loads[0].Light(u)
	}
	return l
}

// strips gives both ends of each strip the light at its darkest place.
func strips(c *check.Context, points []Point) {
	at := func(node int) *Point {
		if node > c.Net.Root {
			node-- // the board has no reading
		}
		return &points[node]
	}
	for b := range c.Net.Branches {
		s := c.Net.Branches[b].Strip
		if s == nil || c.Far(b) < 0 {
			continue
		}
		near, far := at(c.Net.Branches[b].From), at(c.Net.Branches[b].To)
		if !near.Trusted || !far.Trusted {
			continue
		}
		var l q.Maybe[float64]
		l.Value, l.Known = s.Load.Light(s.Least(near.Voltage, far.Voltage))
		near.Darkest, far.Darkest = l, l
	}
}

// totals sums the circuit up.
func totals(c *check.Context, r *Result) Totals {
	var t Totals
	for i := range c.Net.Nodes {
		n := &c.Net.Nodes[i]
		if g := n.Gear; g != nil && n.Kind == network.GearNode {
			t.Standby += g.Standby.Value
			if g.Controls() && !g.Standby.Known {
				t.Unsaid++
			}
		}
		if n.Kind != network.LampNode {
			continue
		}
		if !n.Tail {
			t.Lamps++
		}
		if c.Trusted() {
			t.Load += c.Solution.Power[i]
			continue
		}
		for _, l := range n.Loads {
			t.Load += l.Power
		}
	}
	if c.Trusted() {
		t.Supplied = c.Solution.Supplied
		if c.Net.Supply.Kind == network.Spur {
			for i := range c.Net.Nodes {
				if c.Net.Nodes[i].Kind == network.SupplyNode {
					t.Supplied -= c.Solution.Power[i]
				}
			}
		}
	}
	for i := range r.Points {
		t.worst(&r.Points[i])
	}
	return t
}

// worst keeps the lamp with the largest drop, those of a string left out, and the point nearest its loop
// limit.
func (t *Totals) worst(p *Point) {
	if p.Kind == network.LampNode && p.Trusted && p.Drive == 0 && (t.WorstAt == "" || p.DropRatio > t.WorstDrop) {
		t.WorstDrop, t.WorstAt = p.DropRatio, p.Label
	}
	if !p.Loop.Applies || !p.Loop.Known || !p.Limit.Known || p.Limit.Value <= 0 {
		return
	}
	if share := float64(p.Loop.Hot) / float64(p.Limit.Value); share > t.WorstLoop {
		t.WorstLoop, t.LoopAt, t.LoopOhm = share, p.Label, p.Loop.Hot
	}
}

// doubtful reports whether a run lies beyond a flaw of the drawing.
func doubtful(c *check.Context, b int) bool {
	far := c.Far(b)
	return far >= 0 && c.Net.Nodes[far].Doubtful
}

// LoopLine returns the line for a cold reading of the loop, a share of the limit,
// and the limit itself. The point has the limit, but a supply point whose loop was
// measured has the line (see check.Context.PointLimit); on TT the limit is that of
// the residual device and has no line. Unknown where the limit is.
func (p *Point) LoopLine(share float64, e network.Earthing) (line, limit q.Maybe[q.Ohm]) {
	if !p.Limit.Known || share <= 0 || e == network.TT {
		return p.Limit, p.Limit
	}
	v := p.Limit.Value
	if p.Loop.Measured && p.Kind == network.SupplyNode {
		return p.Limit, q.Some(v / q.Ohm(share))
	}
	return q.Some(v * q.Ohm(share)), p.Limit
}
