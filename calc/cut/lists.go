package cut

import (
	"cmp"
	"encoding/binary"
	"slices"
)

// list is a shopping list: how many of each drum, and the steps that the rest
// of the money buys by the metre.
type list struct {
	n    []int
	cost int64
	room int // steps by the metre
	// spare is how many steps more there are than the pieces need.
	spare int
}

// key is the list without the metres.
func (l list) key() string {
	var key []byte
	for _, n := range l.n {
		key = binary.AppendUvarint(key, uint64(n))
	}
	return string(key)
}

// listLimit bounds the lists of one round.
const listLimit = 5000

// lister enumerates lists.
type lister struct {
	s      *search
	target int64
	order  []int // drums, dearest first
	n      []int
	out    []list
	all    bool
}

// lists returns the shopping lists for at most the target that could hold the
// pieces by length and by worth, and of which none is as good as another; the
// roomiest first. all is false when there were too many.
func (s *search) lists(target int64) (out []list, all bool) {
	e := &lister{s: s, target: target, n: make([]int, len(s.p.drums)), all: true}
	for k := range s.p.drums {
		e.order = append(e.order, k)
	}
	slices.SortStableFunc(e.order, func(a, b int) int { return cmp.Compare(s.p.drums[b].cost, s.p.drums[a].cost) })
	e.from(0, 0, 0)
	slices.SortStableFunc(e.out, func(a, b list) int { return cmp.Compare(b.spare, a.spare) })
	return e.out, e.all
}

// from goes on with the drum at place i of the order; cost and steps are those
// of the drums before.
func (e *lister) from(i int, cost int64, steps int) {
	p := e.s.p
	e.s.effort--
	if e.s.effort <= 0 {
		e.all = false
	}
	if float64(cost)+e.s.cover.least(p.total-steps) > float64(e.target)+1e-6 || !e.all {
		return
	}
	if i == len(e.order) {
		e.add(cost, steps)
		return
	}
	k := e.order[i]
	d := p.drums[k]
	most, least := e.most(k), 0
	if d.cost == 0 {
		least = most // taken in any case
	}
	for n := most; n >= least; n-- {
		if sum := cost + int64(n)*d.cost; sum <= e.target {
			e.n[k] = n
			e.from(i+1, sum, steps+n*d.capacity)
		}
	}
	e.n[k] = 0
}

// most is how many of a drum a list can want.
func (e *lister) most(k int) int {
	d := e.s.p.drums[k]
	n := e.s.p.count
	if d.capacity < e.s.p.sizes[len(e.s.p.sizes)-1] {
		n = 0
	}
	if d.have > 0 {
		n = min(n, d.have)
	}
	if d.cost > 0 {
		n = int(min(int64(n), e.target/d.cost))
	}
	return n
}

// add notes the list if it can do.
func (e *lister) add(cost int64, steps int) {
	p := e.s.p
	l := list{n: e.n, cost: cost}
	if p.rate > 0 {
		l.room = int(min((e.target-cost)/p.rate, int64(p.total)))
		l.room = e.s.whole(l.room)
	}
	l.spare = steps + l.room - p.total
	if l.spare < 0 || e.s.pool[0].margin(l) < -noise || e.beaten(cost) {
		return
	}
	if len(e.out) == listLimit {
		e.all = false
		return
	}
	l.n = slices.Clone(e.n)
	e.out = append(e.out, l)
}

// beaten reports whether one drum more, or a larger one for one on the list,
// comes under the target too, so that the list need not be tried. Money spent
// on it must not be missing by the metre.
func (e *lister) beaten(cost int64) bool {
	p := e.s.p
	spend := e.target - cost
	if p.rate > 0 {
		spend = 0
	}
	for k, d := range p.drums {
		if e.n[k] >= e.most(k) {
			continue
		}
		if d.cost <= spend {
			return true
		}
		for j, o := range p.drums {
			if e.n[j] > 0 && o.capacity < d.capacity && d.cost-o.cost <= spend {
				return true
			}
		}
	}
	return false
}

// whole takes off a room by the metre what no choice of pieces can fill.
func (s *search) whole(room int) int {
	if room > s.p.widest {
		return room
	}
	return int(s.reach.most(0, room))
}
