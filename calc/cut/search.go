package cut

import (
	"cmp"
	"encoding/binary"
	"math"
	"slices"
)

// search looks for a plan cheaper than the best one known. It fills drum after
// drum, each with the longest piece that is left and as much more as it holds
// (a piece can always be moved to an earlier drum that has room, so fuller
// ones suffice), and gives up a branch when the reduced costs of its patterns
// add up to more than the gap between the bound and the best plan.
type search struct {
	p      *problem
	b      *bound
	best   solution
	unit   int64 // all costs are multiples of it
	effort int
	proved bool

	cover *cover

	left   []int // of each size
	rest   int   // steps of all that is left
	have   []int // of each limited drum
	stack  []pattern
	seen   map[string]float64
	cap    int  // patterns opened at one drum; 0 all
	capped bool // the cap has left something out
}

func newSearch(p *problem, best solution, b *bound, effort int) *search {
	s := &search{p: p, b: b, best: best, effort: effort, cover: newCover(p)}
	for _, d := range p.drums {
		s.unit = int64(gcd(int(s.unit), int(d.cost)))
	}
	for _, c := range p.metre {
		if c > 0 {
			s.unit = int64(gcd(int(s.unit), int(c)))
		}
	}
	s.unit = max(s.unit, 1)
	return s
}

// boundCost is the bound rounded up to a cost that a plan can have.
func (s *search) boundCost() int64 {
	if s.proved {
		return s.best.cost
	}
	least := max(s.b.value, s.cover.least(s.total()))
	return int64(math.Ceil(least/float64(s.unit)-1e-6)) * s.unit
}

// total is the length of all pieces in steps.
func (s *search) total() int {
	sum := 0
	for i, n := range s.p.demand {
		sum += n * s.p.sizes[i]
	}
	return sum
}

// beyond reports whether nothing cheaper than the best plan can come of a
// branch that has cost so much.
func (s *search) beyond(cost int64) bool {
	return float64(cost)+s.cover.least(s.rest) > float64(s.best.cost-s.unit)+1e-6
}

// gap is how much reduced cost a cheaper plan may still have.
func (s *search) gap() float64 { return float64(s.best.cost-s.unit) - s.b.value + 1e-6 }

// run goes through the tree a few times, wider each time: narrow first, since a
// good plan found early closes most of the rest.
func (s *search) run() {
	for _, width := range []int{1, 4, 30, 0} {
		if s.gap() < 0 || float64(s.best.cost) <= float64(s.boundCost()) {
			s.proved = true
			return
		}
		s.left, s.have, s.rest = slices.Clone(s.p.demand), make([]int, len(s.p.drums)), s.total()
		for i, d := range s.p.drums {
			s.have[i] = d.have
		}
		s.seen, s.cap, s.capped, s.stack = map[string]float64{}, width, false, s.stack[:0]
		before := s.effort
		if width > 0 {
			s.effort = min(before, before/10+1)
		}
		given := s.effort
		s.descend(0, 0)
		spent := given - s.effort
		if s.effort > 0 && !s.capped {
			s.proved = true
			return
		}
		s.effort = before - spent
	}
	s.proved = s.best.cost <= s.boundCost()
}

// descend fills the next drum. reduced and cost are those of the drums filled.
func (s *search) descend(reduced float64, cost int64) {
	size := slices.IndexFunc(s.left, func(n int) bool { return n > 0 })
	if size < 0 {
		if cost < s.best.cost {
			s.best.cost, s.best.patterns = cost, nil
			for _, p := range s.stack {
				s.best.patterns = append(s.best.patterns, pattern{p.offer, slices.Clone(p.counts)})
			}
		}
		return
	}
	if s.effort <= 0 || s.beyond(cost) || s.known(reduced) {
		return
	}
	list := s.choices(size, s.gap()-reduced)
	if s.cap > 0 && len(list) > s.cap {
		list, s.capped = list[:s.cap], true
	}
	for _, c := range list {
		if reduced+c.reduced > s.gap() || s.effort <= 0 {
			return // the rest cost as much or more
		}
		s.take(c, 1)
		s.stack = append(s.stack, pattern{c.offer, c.counts})
		s.descend(reduced+c.reduced, cost+c.cost)
		s.stack = s.stack[:len(s.stack)-1]
		s.take(c, -1)
	}
}

// take takes the pieces and the drum of a choice away, or puts them back.
func (s *search) take(c choice, sign int) {
	for i, n := range c.counts {
		s.left[i] -= sign * n
		s.rest -= sign * n * s.p.sizes[i]
	}
	if c.drum >= 0 && s.p.drums[c.drum].have > 0 {
		s.have[c.drum] -= sign
	}
}

// known reports whether the same rest was reached before at no more reduced
// cost, and notes it otherwise.
func (s *search) known(reduced float64) bool {
	key := make([]byte, 0, 2*(len(s.left)+len(s.have)))
	for _, n := range s.left {
		key = binary.AppendUvarint(key, uint64(n))
	}
	for _, n := range s.have {
		key = binary.AppendUvarint(key, uint64(n))
	}
	if was, ok := s.seen[string(key)]; ok && was <= reduced+1e-9 {
		return true
	}
	s.seen[string(key)] = reduced
	return false
}

// choice is one way to fill the next drum.
type choice struct {
	drum    int // -1 by the metre
	offer   int
	counts  []int
	cost    int64
	reduced float64
}

// choices lists the fills of the next drum that hold the longest piece left and
// have room for no other, with a reduced cost of at most gap, cheapest first.
func (s *search) choices(size int, gap float64) []choice {
	var list []choice
	for k, d := range s.p.drums {
		if d.capacity < s.p.sizes[size] || (d.have > 0 && s.have[k] == 0) {
			continue
		}
		f := fill{s: s, list: &list, drum: k, counts: make([]int, len(s.left)),
			gap: gap, reduced: float64(d.cost) - s.b.limit[k]}
		f.counts[size] = 1
		f.reduced -= s.b.worth[size]
		s.left[size]--
		f.from(size, d.capacity-s.p.sizes[size], math.MaxInt)
		s.left[size]++
	}
	if c := s.p.metre[size]; c >= 0 {
		if r := float64(c) - s.b.worth[size]; r <= gap {
			counts := make([]int, len(s.left))
			counts[size] = 1
			list = append(list, choice{-1, s.p.metreO, counts, c, r})
		}
	}
	slices.SortStableFunc(list, func(a, b choice) int { return cmp.Compare(a.reduced, b.reduced) })
	return list
}

// fill enumerates the fills of one drum.
type fill struct {
	s       *search
	list    *[]choice
	drum    int
	counts  []int
	gap     float64
	reduced float64
}

// from goes on with size j and the smaller ones in room steps; least is the
// smallest size that was left out although some were there.
func (f *fill) from(j, room, least int) {
	s := f.s
	if s.effort <= 0 || f.reduced-s.b.table.most(j, room) > f.gap {
		return
	}
	for j < len(s.left) && (s.left[j] == 0 || s.p.sizes[j] > room) {
		if s.left[j] > 0 {
			least = min(least, s.p.sizes[j])
		}
		j++
	}
	if j == len(s.left) {
		if room < least {
			s.effort--
			d := s.p.drums[f.drum]
			*f.list = append(*f.list, choice{f.drum, d.offer, slices.Clone(f.counts), d.cost, max(f.reduced, 0)})
		}
		return
	}
	was := f.reduced
	for n := min(s.left[j], room/s.p.sizes[j]); n >= 0; n-- {
		skipped := least
		if n < s.left[j] {
			skipped = min(least, s.p.sizes[j])
		}
		f.counts[j] += n
		f.reduced = was - float64(n)*s.b.worth[j]
		f.from(j+1, room-n*s.p.sizes[j], skipped)
		f.counts[j] -= n
	}
	f.reduced = was
}
