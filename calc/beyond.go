package calc

import (
	"math"

	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// tight is the tightest margin of one kind among the nodes beyond a run.
type tight struct {
	slack float64 // what is left before the limit, in V or Ω; +Inf for no node
	node  int
	code  finding.Code
}

func (t *tight) take(o tight) {
	if o.slack < t.slack {
		*t = o
	}
}

// beyond sums up everything on the far side of a run, the run's far node
// included, so that a change of the run's cable can be judged without walking
// its nodes again.
type beyond struct {
	drop tight   // limit of the drop less the drop
	lamp tight   // voltage less the lamp's lower limit
	most float64 // largest volts lost since the ideal start of the system
	high float64 // least of the lamps' upper limits less their voltage
	loop tight   // largest loop allowed less the loop
}

var nothing = tight{slack: math.Inf(1), node: -1}

func emptyBeyond() beyond {
	return beyond{drop: nothing, lamp: nothing, loop: nothing, high: math.Inf(1)}
}

func (b *beyond) join(o *beyond) {
	b.drop.take(o.drop)
	b.lamp.take(o.lamp)
	b.loop.take(o.loop)
	b.most = math.Max(b.most, o.most)
	b.high = math.Min(b.high, o.high)
}

// pool is what all lamps of one voltage system have in common.
type pool struct {
	low   float64 // lowest voltage at a consumer
	most  float64 // largest volts lost to a consumer since the ideal start
	room  float64 // factor by which all currents may grow before a check that passes now fails
	lift  float64 // least of U over steepness among lamps whose current grows with the voltage; +Inf for none
	wound bool    // feeds a source whose output follows its input
}

// noload is the voltage at the start of a node's system with no current drawn:
// the board, or the source without its regulation.
func (p *proposer) noload(i int) float64 {
	c := p.c
	node := i
	for b := c.Tree.Parent[node]; b >= 0; b = c.Tree.Parent[node] {
		up := c.Tree.Up(c.Net, node)
		if cv := c.Net.Branches[b].Converter; cv != nil {
			u := float64(cv.Nominal)
			if !cv.Regulated {
				u *= 1 + cv.Rise
				if n := float64(p.nominal(up)); n > 0 {
					u *= float64(c.Volts(up)) / n
				}
			}
			return u
		}
		node = up
	}
	return float64(c.Volts(node))
}

func (p *proposer) nominal(i int) q.Volt { return p.c.Net.Systems[p.c.Net.Nodes[i].System].Nominal }

// survey fills pools and beyond, from the far ends inwards.
func (p *proposer) survey() {
	c := p.c
	n := len(c.Net.Nodes)
	p.far = make([]beyond, n)
	p.pools = make([]pool, len(c.Net.Systems))
	for s := range p.pools {
		p.pools[s] = pool{low: math.Inf(1), room: math.Inf(1), lift: math.Inf(1)}
	}
	start := make([]float64, n) // no-load voltage of the node's system
	for _, i := range c.Tree.Order {
		up := c.Tree.Up(c.Net, i)
		if up >= 0 && c.Net.Branches[c.Tree.Parent[i]].Converter == nil {
			start[i] = start[up]
		} else {
			start[i] = p.noload(i)
		}
		p.far[i] = emptyBeyond()
		p.node(i, start[i])
	}
	for b := range c.Net.Branches {
		if p.trusted && c.Closing(b) && c.Capacity[b].Known {
			p.pools[c.Net.Nodes[c.Far(b)].System].limit(float64(c.Capacity[b].Iz), float64(c.Flow(b)))
		}
	}
	for k := len(c.Tree.Order) - 1; k > 0; k-- {
		i := c.Tree.Order[k]
		up := c.Tree.Up(c.Net, i)
		b := c.Tree.Parent[i]
		if cv := c.Net.Branches[b].Converter; cv != nil {
			across := p.across(i, up, cv)
			p.far[up].join(&across)
			continue
		}
		p.far[up].join(&p.far[i])
	}
}

// node takes in one node's own margins.
func (p *proposer) node(i int, start float64) {
	c, f := p.c, &p.far[i]
	n := &c.Net.Nodes[i]
	if limit, ok := c.LoopLimit(i); ok {
		f.loop = tight{slack: float64(limit - c.Loops[i].Hot), node: i, code: "FLT-01"}
		if c.Net.Supply.Earthing == network.TT {
			f.loop.code = "FLT-05"
		}
	}
	pl := &p.pools[n.System]
	if !p.trusted {
		return
	}
	p.devices(i, pl)
	if !check.Consumer(n) || c.Driven(i) {
		return
	}
	u, drop := float64(c.Volts(i)), float64(c.Drop(i))
	f.most = math.Max(start-u, drop)
	pl.low, pl.most = math.Min(pl.low, u), math.Max(pl.most, f.most)
	ratio, _ := c.DropLimit(i)
	code := finding.Code("VD-01")
	if n.System != 0 {
		code = "VD-02"
	}
	if limit := ratio * float64(p.nominal(i)); limit > 0 {
		f.drop = tight{slack: limit - drop, node: i, code: code}
		pl.limit(limit, drop)
	}
	low, high := c.LampLimits(i)
	if low > 0 {
		f.lamp = tight{slack: u - float64(low), node: i, code: "VD-03"}
		pl.limit(f.most+u-float64(low), f.most)
	}
	if high > 0 {
		f.high = float64(high) - u
	}
	for k := range n.Loads {
		if m := n.Loads[k].Steepness(u); m > 0 {
			pl.lift = math.Min(pl.lift, u/math.Max(m, 1))
		}
	}
}

// limit narrows the room for growth by a figure that meets its limit now.
func (pl *pool) limit(limit, figure float64) {
	if figure > 0 && figure <= limit*(1+lastBit) {
		pl.room = math.Min(pl.room, math.Max(limit/figure, 1))
	}
}

// devices narrows the room by the devices and the runs that carry current.
func (p *proposer) devices(i int, pl *pool) {
	c := p.c
	for k := range c.Net.Nodes[i].Devices {
		if d := &c.Net.Nodes[i].Devices[k]; d.Overcurrent() {
			pl.limit(float64(d.Rating), float64(c.Beyond(i)))
		}
	}
	b := c.Tree.Parent[i]
	if b < 0 {
		return
	}
	br := &c.Net.Branches[b]
	if cv := br.Converter; cv != nil {
		pl.limit(float64(cv.Rated), float64(c.Through(i))*math.Max(float64(c.Volts(i)), float64(cv.Nominal)))
		if !cv.Regulated {
			p.pools[c.Net.Nodes[c.Tree.Up(c.Net, i)].System].wound = true
		}
		return
	}
	if c.Capacity[b].Known {
		pl.limit(float64(c.Capacity[b].Iz), float64(c.Flow(b)))
	}
}

// across carries the margins of a source's lamps over to its input. A
// regulated source hides its input; the output of a wound one follows it. A
// lamp that fails now is not counted: no cable ahead of the source is to blame.
// The factor covers that lamps of constant power draw more as volts fall.
func (p *proposer) across(out, in int, cv *network.Converter) beyond {
	a := emptyBeyond()
	if cv.Regulated || !p.trusted || cv.Nominal <= 0 {
		return a
	}
	const cover = 1.5
	f := &p.far[out]
	ratio := float64(p.nominal(in)) / (float64(cv.Nominal) * (1 + cv.Rise))
	if f.lamp.slack >= 0 && f.lamp.node >= 0 {
		a.lamp = tight{slack: f.lamp.slack * ratio / cover, node: f.lamp.node, code: f.lamp.code}
	}
	if f.drop.slack >= 0 && f.drop.node >= 0 && f.most > 0 {
		a.drop = tight{slack: f.drop.slack / f.most * float64(p.nominal(in)) / cover, node: f.drop.node, code: f.drop.code}
	}
	if f.high >= 0 {
		a.high = f.high * ratio / cover
	}
	return a
}
