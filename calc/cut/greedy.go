package cut

import "slices"

// greedy returns a plan by first fit, longest first: once for every offer that
// has no limit as the drum that is opened when nothing fits, each with every
// drum changed for the cheapest that still holds it; the cheapest of all, of
// equal ones that with the fewest drums.
func (p *problem) greedy() solution {
	var best solution
	found := false
	keep := func(s solution) {
		if !found || s.cost < best.cost || (s.cost == best.cost && len(s.patterns) < len(best.patterns)) {
			best, found = s, true
		}
	}
	for first := -1; first < len(p.drums); first++ {
		if first >= 0 && p.drums[first].have > 0 {
			continue
		}
		keep(p.firstFit(first))
	}
	return best
}

// open is a drum being filled.
type open struct {
	counts []int
	used   int
}

// firstFit packs longest first into drums of one offer; a piece that is longer
// than it, or every piece when the offer is -1, is bought alone as it is
// cheapest.
func (p *problem) firstFit(of int) solution {
	var list []*open
	for size, n := range p.demand {
		for range n {
			list = p.drop(list, size, of)
		}
	}
	have := make([]int, len(p.drums))
	var s solution
	for _, o := range list {
		pats, cost := p.buy(o, have)
		s.patterns = append(s.patterns, pats...)
		s.cost += cost
	}
	return s
}

// drop puts one piece into the first drum with room, or opens one.
func (p *problem) drop(list []*open, size, of int) []*open {
	if of >= 0 {
		for _, o := range list {
			if o.used+p.sizes[size] <= p.drums[of].capacity {
				o.counts[size]++
				o.used += p.sizes[size]
				return list
			}
		}
	}
	o := &open{make([]int, len(p.sizes)), p.sizes[size]}
	o.counts[size] = 1
	return append(list, o)
}

// buy returns the cheapest way to get the pieces of one drum: a drum of any
// offer that holds them, counting those that are limited, or each alone.
func (p *problem) buy(o *open, have []int) ([]pattern, int64) {
	at, cost := -1, int64(0)
	for k, d := range p.drums {
		if d.capacity >= o.used && (d.have == 0 || have[k] < d.have) && (at < 0 || d.cost < cost) {
			at, cost = k, d.cost
		}
	}
	if alone, sum, ok := p.alone(o); ok && (at < 0 || sum < cost) {
		return alone, sum
	}
	have[at]++
	return []pattern{{p.drums[at].offer, slices.Clone(o.counts)}}, cost
}

// alone buys every piece of a drum by the metre.
func (p *problem) alone(o *open) (pats []pattern, cost int64, ok bool) {
	if p.metreO < 0 {
		return nil, 0, false
	}
	for size, n := range o.counts {
		for range n {
			counts := make([]int, len(p.sizes))
			counts[size] = 1
			pats = append(pats, pattern{p.metreO, counts})
			cost += p.byMetre(size)
		}
	}
	return pats, cost, true
}
