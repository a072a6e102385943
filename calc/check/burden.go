package check

import (
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// burden is what hangs on a node: what stands there and everything beyond it.
type burden struct {
	points int      // LED lamps and sources; a source is one, whatever hangs on it
	watts  q.Watt   // rated load as drawn here, sources with their losses
	led    q.Watt   // the part of it that lamps with drivers and sources draw
	leak   q.Ampere // standing leakage of the mains lamps and sources that say it
	silent int      // mains lamps and sources that do not
	each   q.Ampere // the largest leakage of one of them
	metres q.Metre  // mains cable that is ours
}

func (b *burden) add(o burden) {
	b.points, b.silent = b.points+o.points, b.silent+o.silent
	b.watts, b.led = b.watts+o.watts, b.led+o.led
	b.leak, b.each = b.leak+o.leak, max(b.each, o.each)
	b.metres += o.metres
}

// supplied is what the rules about supply and control share, worked out once.
type supplied struct {
	on      []burden
	control []int  // nearest gear ahead of a node that switches it in use, -1 none
	cut     []bool // something ahead of a node opens all live conductors
	primary []int  // per system the input node of its source, -1 for the mains
	// A node lies beyond another when its place in a walk is within its span.
	first, last []int
}

// supplied works it out; a second call does nothing.
func (c *Context) supplied() *supplied {
	if c.supply != nil {
		return c.supply
	}
	n := len(c.Net.Nodes)
	s := &supplied{on: make([]burden, n), control: make([]int, n), cut: make([]bool, n), first: make([]int, n), last: make([]int, n)}
	c.supply = s
	for i := range s.control {
		s.control[i] = -1
		s.first[i], s.last[i] = -1, -2
	}
	for _, i := range c.Tree.Order {
		s.on[i] = c.own(i)
		up := c.Tree.Up(c.Net, i)
		if up < 0 {
			continue
		}
		s.control[i], s.cut[i] = s.control[up], s.cut[up] || c.opens(up)
		if g := c.Net.Nodes[up].Gear; g != nil && g.Controls() {
			s.control[i] = up
		}
	}
	for k := len(c.Tree.Order) - 1; k > 0; k-- {
		i := c.Tree.Order[k]
		s.on[c.Tree.Up(c.Net, i)].add(c.upward(c.Tree.Parent[i], s.on[i]))
	}
	s.primary = make([]int, len(c.Net.Systems))
	for k := range s.primary {
		s.primary[k] = -1
	}
	for b := range c.Net.Branches {
		if br := &c.Net.Branches[b]; br.Converter != nil {
			s.primary[c.Net.Nodes[br.To].System] = br.From
		}
	}
	c.span(s)
	return s
}

// own is what one node alone adds.
func (c *Context) own(i int) burden {
	n := &c.Net.Nodes[i]
	var b burden
	switch {
	case n.Kind == network.LampNode && len(n.Loads) > 0:
		for k := range n.Loads {
			b.watts += n.Loads[k].Power
		}
		if electronic := driven(n); electronic {
			b.led = b.watts
			if !n.Tail {
				b.points = 1
			}
		}
	case n.Kind != network.PrimaryNode:
		return b
	}
	if n.System != 0 || n.Tail {
		return b
	}
	if n.Fitting == nil || n.Fitting.Leakage <= 0 {
		b.silent = 1
	} else {
		b.leak, b.each = n.Fitting.Leakage, n.Fitting.Leakage
	}
	return b
}

// driven reports whether a lamp has electronics: all but filaments and plain
// resistors. From memory.
func driven(n *network.Node) bool {
	for k := range n.Loads {
		switch n.Loads[k].Law {
		case network.Filament, network.Resistive:
			return false
		}
	}
	return len(n.Loads) > 0
}

// upward is what a burden looks like from the other end of the branch that
// feeds it: behind a source it is one point, with the losses of the source.
func (c *Context) upward(b int, o burden) burden {
	br := &c.Net.Branches[b]
	if cv := br.Converter; cv != nil {
		w := cv.NoLoad
		if cv.Efficiency > 0 {
			w += o.watts / q.Watt(cv.Efficiency)
		}
		return burden{points: 1, watts: w, led: w}
	}
	if c.Net.Nodes[br.From].System == 0 && br.Cable != nil && !br.Existing {
		o.metres += br.Length
	}
	return o
}

// opens reports whether something at a node opens all live conductors beyond.
func (c *Context) opens(i int) bool {
	n := &c.Net.Nodes[i]
	for k := range n.Devices {
		if n.Devices[k].Switching {
			return true
		}
	}
	return n.Gear != nil && n.Gear.Switching || n.Kind == network.SupplyNode && c.Net.Supply.Switched
}

// span numbers the nodes in the order of a walk that finishes each branch
// before the next.
func (c *Context) span(s *supplied) {
	if len(c.Tree.Order) == 0 {
		return
	}
	place := 0
	stack := []int{c.Tree.Order[0]}
	for len(stack) > 0 {
		i := stack[len(stack)-1]
		if s.first[i] < 0 {
			s.first[i] = place
			place++
			for _, b := range c.Tree.Kids[i] {
				stack = append(stack, c.kid(b, i))
			}
			continue
		}
		s.last[i] = place - 1
		stack = stack[:len(stack)-1]
	}
}

// kid returns the node at the other end of a branch.
func (c *Context) kid(b, i int) int {
	if br := &c.Net.Branches[b]; br.From != i {
		return br.From
	}
	return c.Net.Branches[b].To
}

// beyond reports whether node i lies beyond node k or is it.
func (s *supplied) beyond(i, k int) bool { return s.first[k] <= s.first[i] && s.first[i] <= s.last[k] }
