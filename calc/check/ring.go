package check

import (
	"math/cmplx"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// rings returns the loops of the net that may carry current.
func (c *Context) rings() *network.Rings {
	c.prepare()
	return &c.plan.rings
}

// InRing reports whether a branch lies on a closed loop.
func (c *Context) InRing(b int) bool {
	r := c.rings()
	return r.On != nil && r.On[b]
}

// Closing reports whether a branch closes a loop: it is none of the tree's.
func (c *Context) Closing(b int) bool {
	return c.InRing(b) && c.Tree.Parent[c.Far(b)] != b
}

// OnRing reports whether a node lies on a closed loop.
func (c *Context) OnRing(node int) bool {
	r := c.rings()
	if r.On == nil {
		return false
	}
	for _, b := range c.around(node) {
		if r.On[b] {
			return true
		}
	}
	return false
}

// around returns the branches at a node, the one that feeds it first.
func (c *Context) around(node int) []int {
	var out []int
	if b := c.Tree.Parent[node]; b >= 0 {
		out = append(out, b)
	}
	out = append(out, c.Tree.Kids[node]...)
	for _, b := range c.rings().Closed {
		if br := &c.Net.Branches[b]; br.From == node || br.To == node {
			out = append(out, b)
		}
	}
	return out
}

// Flow returns the current that a branch carries, in A; of a converter its
// primary current. On no loop that is Through of its far end.
func (c *Context) Flow(b int) q.Ampere { return q.Ampere(cmplx.Abs(c.Solution.Current[b])) }

// leaving returns the current that a branch takes away from one of its nodes.
// The tree's branches count away from the supply, closing ones from From to To.
func (c *Context) leaving(b, node int) complex128 {
	i := c.Solution.Current[b]
	from := c.Net.Branches[b].From
	if c.Tree.Parent[c.Far(b)] == b {
		from = c.Tree.Up(c.Net, c.Far(b))
	}
	if from == node {
		return i
	}
	if c.Net.Branches[b].Converter != nil {
		i = c.Solution.Output[b]
	}
	return -i
}

// flowing adds up the currents that leave a node on a loop through its cables,
// or those that enter it.
func (c *Context) flowing(node int, out bool) q.Ampere {
	var sum complex128
	for _, b := range c.around(node) {
		i := c.leaving(b, node)
		if forward := real(i*cmplx.Conj(c.Solution.Voltage[node])) > 0; forward == out {
			sum += i
		}
	}
	return q.Ampere(cmplx.Abs(sum))
}

// backwards reports whether the current of a tree branch comes from its far
// end, as it may in a loop: along it the volts rise.
func (c *Context) backwards(b int) bool {
	return c.InRing(b) && real(c.leaving(b, c.Far(b))*cmplx.Conj(c.Solution.Voltage[c.Far(b)])) > 0
}

// fall returns the volts that a tree branch loses from its near to its far
// end by the basic method (see Drop), negative where the current of a loop
// comes the other way.
func (c *Context) fall(b int) float64 {
	v := c.PerMetre(b) * float64(c.Flow(b)) * float64(c.Net.Branches[b].Length)
	if c.backwards(b) {
		return -v
	}
	return v
}
