package cut

import (
	"math"
	"slices"
)

// search looks for a plan cheaper than the best one known. It asks one question
// after the other: can the pieces be cut for at most target, one unit less than
// the best plan costs? Only a few shopping lists come under it, and each of
// them is a packing of the pieces into drums that are given.
type search struct {
	p      *problem
	b      *bound
	best   solution
	unit   int64 // all costs are multiples of it, or round up to such
	effort int
	fee    int // effort of one table
	proved bool

	cover *cover
	reach *knapsack          // most length that sizes j ... bring into a room
	table *knapsack          // filled with the worths in use
	pool  []*prices          // worths that have closed a list, and those of the relaxation
	own   map[string]*prices // worths found for a list
	never map[string]int     // by shopping list: room by the metre known to be too little
}

func newSearch(p *problem, best solution, b *bound, effort int) *search {
	s := &search{p: p, b: b, best: best, effort: effort, cover: newCover(p), reach: newKnapsack(p), never: map[string]int{}, own: map[string]*prices{}, table: newKnapsack(p)}
	s.reach.fill(p.lengths())
	s.fee = 1 + len(p.sizes)*p.widest/500
	s.pool = append(s.pool, s.priced(slices.Clone(b.worth)), s.priced(p.lengths()))
	s.unit = p.rate
	for _, d := range p.drums {
		s.unit = int64(gcd(int(s.unit), int(d.cost)))
	}
	s.unit = max(s.unit, 1)
	return s
}

// cost is the cost of the best plan in units of the offers.
func (s *search) cost() int64 { return (s.best.cost + s.p.scale - 1) / s.p.scale }

// target is the largest cost that is cheaper than the best plan.
func (s *search) target() int64 {
	return min(s.best.cost-s.unit, (s.cost()-1)*s.p.scale)
}

// boundCost is the bound rounded up to a cost that a plan can have, in units
// of the offers.
func (s *search) boundCost() int64 {
	if s.proved {
		return s.cost()
	}
	least := max(s.b.value, s.cover.least(s.p.total))
	whole := int64(math.Ceil(least/float64(s.unit)-1e-6)) * s.unit
	return (whole + s.p.scale - 1) / s.p.scale
}

// widths are how many ways to fill a drum the search follows in each of its
// rounds, 0 all, and the share of the effort one list may take: narrow first,
// since a good plan found early spares most of the lists.
var widths = []struct {
	ways  int
	share int
}{{1, 2000}, {3, 500}, {10, 100}, {30, 50}, {0, 100}, {100, 20}, {0, 10}, {0, 1}}

// run asks until there is nothing left to try or the effort is spent. The
// first question is the boldest: can it be done for the bound?
func (s *search) run() {
	if bold := s.boundCost() * s.p.scale; bold < s.best.cost {
		lists, _ := s.lists(min(bold, s.target()))
		for _, w := range widths[:2] {
			if s.round(lists, w.ways, s.effort/w.share+1) {
				break
			}
		}
	}
	for _, w := range widths {
		for again := true; again; {
			lists, all := s.lists(s.target())
			if again = s.round(lists, w.ways, s.effort/w.share+1); again {
				continue
			}
			open := false
			for _, l := range lists {
				open = open || !s.hopeless(l)
			}
			if s.proved = all && !open; s.proved || s.effort <= 0 {
				return
			}
		}
	}
}

// thorough is from how many ways on a list gets worths of its own; before, it
// is only held against those that are there.
const thorough = 10

// round tries to pack the pieces from each list and returns true at the first
// that works.
func (s *search) round(lists []list, ways, quota int) bool {
	for _, l := range lists {
		if s.effort <= 0 {
			return false
		}
		if s.hopeless(l) {
			continue
		}
		c := s.prices(l, ways == 0 || ways >= thorough)
		if c.margin(l) < -noise {
			s.never[l.key()] = max(s.never[l.key()], l.room)
			continue
		}
		k := s.newPacking(c, l, ways, min(quota, s.effort))
		given := k.effort
		done, found := k.run()
		s.effort -= given - k.effort
		s.reach.fill(k.length)
		switch {
		case found:
			s.keep(k.stack)
			return true
		case done:
			s.never[l.key()] = max(s.never[l.key()], l.room)
		}
	}
	return false
}

// prices returns the worths to pack a list by.
func (s *search) prices(l list, own bool) *prices {
	best := s.pool[0]
	for _, c := range s.pool {
		if c.margin(l) < best.margin(l) {
			best = c
		}
	}
	key := l.key()
	if best.margin(l) < -noise || !own {
		return best
	}
	if c := s.own[key]; c != nil {
		return c
	}
	if c := s.priced(s.relaxed(l)); c.margin(l) < best.margin(l) {
		best = c
	}
	s.own[key] = best
	if best.margin(l) < -noise {
		s.pool = append(s.pool, best)
	}
	return best
}

// hopeless reports whether a list is known not to do.
func (s *search) hopeless(l list) bool {
	room, ok := s.never[l.key()]
	return ok && l.room <= room
}

// keep takes a plan for the best one, every drum changed for the cheapest on
// sale that holds its pieces.
func (s *search) keep(stack []pattern) {
	s.best = solution{}
	for _, pat := range stack {
		used, at := 0, -1
		for i, n := range pat.counts {
			used += n * s.p.sizes[i]
		}
		cost := s.p.rate * int64(used)
		if pat.offer != s.p.metreO {
			at = slices.IndexFunc(s.p.drums, func(d drum) bool { return d.offer == pat.offer })
			cost = s.p.drums[at].cost
		}
		for k, d := range s.p.drums {
			if d.have == 0 && d.capacity >= used && d.cost < cost {
				at, cost = k, d.cost
			}
		}
		if at >= 0 {
			pat.offer = s.p.drums[at].offer
		}
		s.best.patterns = append(s.best.patterns, pat)
		s.best.cost += cost
	}
}
