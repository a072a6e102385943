package check

import (
	"math"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// Switching is how many lamps more may be switched on together, worked out once
// for a circuit; see Room.
type Switching struct {
	c      *Context
	surges []surgeRoom
	ahead  []int32 // per node: the nearest with control gear or the output of a source, itself included; -1 for none
}

// surgeRoom is what one device leaves for lamps switched on by the same gear.
type surgeRoom struct {
	node, control int
	more          q.Count
	silent        int
}

// SwitchRoom is the room for lamps at one point before INR-01 or INR-02 asks for
// a decision. Lamps is not known where neither limits it.
type SwitchRoom struct {
	Lamps q.Maybe[q.Count]
	Binds finding.Code
	// Missing says what is not known, "" for nothing.
	Missing string
}

// Switching works out the room of every breaker ahead of mains lamps and drivers.
// A fuse limits no LED lamp (see INR-01).
func (c *Context) Switching() *Switching {
	out := &Switching{c: c, ahead: make([]int32, len(c.Net.Nodes))}
	c.supplied() // Room is asked by several at a time
	for i := range out.ahead {
		out.ahead[i] = int32(i)
	}
	for _, i := range c.Tree.Order {
		b := c.Tree.Parent[i]
		if g := c.Net.Nodes[i].Gear; g != nil && g.Controls() || b >= 0 && c.Net.Branches[b].Converter != nil {
			continue
		}
		out.ahead[i] = int32(out.next(c.Tree.Up(c.Net, i)))
	}
	if c.Rules.Limits.InrushSmall.Value <= 0 {
		return out
	}
	for i := range c.Net.Nodes {
		n := &c.Net.Nodes[i]
		if n.System != 0 || c.supplied().on[i].points == 0 {
			continue
		}
		for k := range n.Devices {
			d := &n.Devices[k]
			if !d.Overcurrent() || d.Curve == "" {
				continue
			}
			for _, g := range c.surges(i) {
				out.surges = append(out.surges, surgeRoom{i, g.control, c.surgeMore(d, &g), g.silent})
			}
		}
	}
	return out
}

// surgeMore is how many lamps more a breaker holds. INR-01 asks when both
// estimates fail, so the larger counts:
//
//	guide   most - loads
//	peaks   (k·m·In - Σ Ipeak)/Ipeak of the largest there, when all say theirs
func (c *Context) surgeMore(d *network.Device, g *surge) q.Count {
	more := float64(c.guideNumber(d) - g.loads)
	if m := c.leastMultiple(d.Curve); g.silent == 0 && m > 0 {
		k, each := 1.0, 0.0
		if g.longest > 0 && g.longest < halfWave {
			k = math.Sqrt(float64(halfWave / g.longest))
		}
		for _, i := range g.nodes {
			each = math.Max(each, float64(c.Net.Nodes[i].Fitting.Inrush))
		}
		if each > 0 {
			more = math.Max(more, math.Floor((k*m*float64(d.Rating)-float64(g.peak))/each*(1+1e-9)))
		}
	}
	return q.Count(math.Max(more, 0))
}

// Room returns how many lamps of a power may be added at a node. Behind a source
// no lamp adds to the inrush of the mains, and each adds its power over the
// efficiency of the source to the gear ahead.
func (s *Switching) Room(i int, each q.Watt) SwitchRoom {
	var out SwitchRoom
	c := s.c
	if c.Net.Nodes[i].System == 0 {
		control := c.supplied().control[i]
		if g := c.Net.Nodes[i].Gear; g != nil && g.Controls() {
			control = i
		}
		for _, r := range s.surges {
			if r.control != control || !c.supplied().beyond(i, r.node) {
				continue
			}
			out.take(float64(r.more), "INR-01")
			if r.silent > 0 {
				out.Missing = "the inrush of " + count(r.silent, "lamp or driver", "lamps and drivers") + " is not known, so lamps were counted by the trade guide alone"
			}
		}
	}
	direct := true
	for k := s.next(i); k >= 0 && each > 0; k = s.next(c.Tree.Up(c.Net, k)) {
		if g := c.Net.Nodes[k].Gear; g != nil && g.Controls() {
			s.gear(k, g, each, direct, &out)
		}
		if b := c.Tree.Parent[k]; b >= 0 && c.Net.Branches[b].Converter != nil {
			direct = false
			if e := c.Net.Branches[b].Converter.Efficiency; e > 0 {
				each /= q.Watt(e)
			}
		}
	}
	return out
}

// next is the node of ahead, -1 for none.
func (s *Switching) next(i int) int {
	if i < 0 {
		return -1
	}
	return int(s.ahead[i])
}

// gear takes in what one piece of gear leaves.
func (s *Switching) gear(k int, g *network.Gear, each q.Watt, direct bool, out *SwitchRoom) {
	c := s.c
	on := &c.supplied().on[k]
	most, _, _ := c.ledRating(k, g)
	if most.Known {
		out.take(math.Floor(float64((most.Value-on.led)/each)*(1+1e-9)), "INR-02")
	}
	if g.LEDLamps.Known && direct {
		out.take(float64(g.LEDLamps.Value)-float64(on.points), "INR-02")
	}
	if !g.LEDWatts.Known {
		what := "the LED rating of " + c.subject(k).Label + " is not known"
		if most.Known {
			what += " and was taken from its resistive one"
		}
		if out.Missing != "" {
			what = out.Missing + "; " + what
		}
		out.Missing = what
	}
}

func (r *SwitchRoom) take(n float64, code finding.Code) {
	if v := q.Count(math.Max(n, 0)); !r.Lamps.Known || v < r.Lamps.Value {
		r.Lamps, r.Binds = q.Some(v), code
	}
}
