package cut

import "math"

// cover holds the least cost of drums whose capacities add up to at least a
// given length, whatever the pieces are. It is the other lower bound of the
// search: the relaxation knows how pieces fit together but buys fractions of
// drums, this one buys whole drums and lets pieces be cut anywhere.
type cover struct {
	grain int // steps per entry
	cost  []float64
}

// coverLimit bounds the entries of the table; a longer total is taken in
// coarser grains, drums rounded up and pieces down.
const coverLimit = 20_000

func newCover(p *problem) *cover {
	c := &cover{grain: max(1, (p.total+coverLimit-1)/coverLimit)}
	c.cost = make([]float64, p.total/c.grain+1)
	for l := 1; l < len(c.cost); l++ {
		c.cost[l] = math.Inf(1)
	}
	if p.metreO >= 0 {
		for l := range c.cost {
			c.cost[l] = float64(p.rate) * float64(l*c.grain)
		}
	}
	for _, d := range p.drums {
		c.add(d)
	}
	return c
}

// add lets the table use a drum, as often as there are.
func (c *cover) add(d drum) {
	size := (d.capacity + c.grain - 1) / c.grain
	if size <= 0 {
		return
	}
	if d.have == 0 {
		for l := 1; l < len(c.cost); l++ {
			c.cost[l] = min(c.cost[l], c.cost[max(l-size, 0)]+float64(d.cost))
		}
		return
	}
	for range min(d.have, len(c.cost)/size+1) {
		for l := len(c.cost) - 1; l > 0; l-- {
			c.cost[l] = min(c.cost[l], c.cost[max(l-size, 0)]+float64(d.cost))
		}
	}
}

// least returns the bound for a rest of so many steps; 0 or fewer cost nothing.
func (c *cover) least(steps int) float64 { return c.cost[max(steps, 0)/c.grain] }
