package cut

import (
	"cmp"
	"encoding/binary"
	"math"
	"slices"
)

// packing looks for a way to cut all pieces from one shopping list. It takes
// the longest piece that is left and decides where it goes: by the metre, or
// into a drum of some kind together with as much more as that holds. Two
// budgets close a branch: the steps that may still be wasted, and the worth.
type packing struct {
	s      *search
	ways   int
	effort int
	capped bool // something was left out

	left   []int // of each size
	n      []int // drums left
	room   int   // steps by the metre left
	spare  int
	margin float64
	stack  []pattern
	seen   map[string]int // most room by the metre that a rest was tried with

	by     *prices
	length []float64
	sums   subsets
}

const noise = 1e-6

func (s *search) newPacking(by *prices, l list, ways, effort int) *packing {
	k := &packing{s: s, ways: ways, effort: effort, left: slices.Clone(s.p.demand), n: slices.Clone(l.n),
		room: l.room, spare: l.spare, margin: by.margin(l) * by.need, by: by, length: s.p.lengths(), seen: map[string]int{}}
	s.table.fill(by.worth)
	s.reach.fill(k.length)
	return k
}

// run returns whether it went through everything, and whether it found a way,
// which is then on the stack.
func (k *packing) run() (done, found bool) {
	found = k.descend()
	return !k.capped && k.effort > 0, found
}

// way is one way to cut the longest piece left.
type way struct {
	drum   int // -1 by the metre
	counts []int
	waste  int
	loss   float64 // of worth
}

func (k *packing) descend() bool {
	size := slices.IndexFunc(k.left, func(n int) bool { return n > 0 })
	if size < 0 {
		return true
	}
	if k.effort--; k.effort <= 0 || k.known() {
		return false
	}
	if k.s.p.widest <= fineLimit && !k.holds() {
		return false
	}
	for _, w := range k.list(size) {
		k.take(w, 1)
		if k.descend() {
			return true
		}
		k.take(w, -1)
	}
	return false
}

// fineLimit is the length of a drum in steps up to which both tables are made
// anew for what is left at every node.
const fineLimit = 2000

// holds reports whether the drums left could hold the rest, by length and by
// worth, when of each size only what is left is put in.
func (k *packing) holds() bool {
	p := k.s.p
	k.effort -= 2 * k.s.fee
	k.s.reach.fillWith(k.length, k.left)
	k.s.table.fillWith(k.by.worth, k.left)
	spare, margin := k.spare, k.margin
	for d, n := range k.n {
		if n > 0 {
			c := p.drums[d].capacity
			spare -= n * (c - int(k.s.reach.most(0, c)))
			margin -= float64(n) * (k.by.drum[d] - k.s.table.most(0, c))
		}
	}
	return spare >= 0 && margin >= -noise*k.by.need
}

// take follows a way, or goes back.
func (k *packing) take(w way, sign int) {
	steps := 0
	for i, n := range w.counts {
		k.left[i] -= sign * n
		steps += n * k.s.p.sizes[i]
	}
	offer := k.s.p.metreO
	if w.drum >= 0 {
		k.n[w.drum] -= sign
		offer = k.s.p.drums[w.drum].offer
	} else {
		k.room -= sign * steps
	}
	k.spare -= sign * w.waste
	k.margin -= float64(sign) * w.loss
	if sign > 0 {
		k.stack = append(k.stack, pattern{offer, w.counts})
	} else {
		k.stack = k.stack[:len(k.stack)-1]
	}
}

// known reports whether the same rest was tried before, and notes it otherwise.
func (k *packing) known() bool {
	key := make([]byte, 0, 2*(len(k.left)+len(k.n)))
	for _, n := range k.left {
		key = binary.AppendUvarint(key, uint64(n))
	}
	for _, n := range k.n {
		key = binary.AppendUvarint(key, uint64(n))
	}
	if room, ok := k.seen[string(key)]; ok && k.room <= room {
		return true
	}
	k.seen[string(key)] = k.room
	return false
}

// list returns the ways to cut the longest piece left, least toll first. A
// narrow search looks at the fills that waste least, and only at some of them.
func (k *packing) list(size int) []way {
	if k.ways == 0 {
		return k.sorted(k.fills(size, k.spare, math.MaxInt))
	}
	const some = 8
	for allow := 0; ; allow = 2*allow + 1 {
		out := k.fills(size, min(allow, k.spare), some*k.ways)
		if len(out) >= k.ways || allow >= k.spare {
			k.capped = k.capped || allow < k.spare || len(out) > k.ways
			out = k.sorted(out)
			return out[:min(k.ways, len(out))]
		}
	}
}

// fills returns the ways to cut the longest piece left that waste so much at
// most; no more than limit of each drum.
func (k *packing) fills(size, allow, limit int) []way {
	var out []way
	p := k.s.p
	for d := range p.drums {
		if k.n[d] == 0 || p.drums[d].capacity < p.sizes[size] {
			continue
		}
		f := fill{k: k, drum: d, counts: make([]int, len(k.left)), loss: k.by.drum[d] - k.by.worth[size], allow: allow, limit: limit}
		f.counts[size] = 1
		k.left[size]--
		f.from(size, p.drums[d].capacity-p.sizes[size])
		k.left[size]++
		k.capped = k.capped || f.limit <= 0
		out = append(out, f.out...)
	}
	if k.room >= p.sizes[size] {
		if loss := k.by.step*float64(p.sizes[size]) - k.by.worth[size]; loss <= k.margin+noise {
			counts := make([]int, len(k.left))
			counts[size] = 1
			out = append(out, way{-1, counts, 0, loss})
		}
	}
	return out
}

func (k *packing) sorted(list []way) []way {
	slices.SortStableFunc(list, func(a, b way) int { return cmp.Compare(k.toll(a), k.toll(b)) })
	return list
}

// toll is the share of both budgets that a way takes, in steps of a hundredth:
// of ways that are alike the one with the longest pieces comes first, which
// keeps the short ones for the end.
func (k *packing) toll(w way) int {
	const some = 1e-300 // lest nothing be divided by nothing
	return int(100*w.loss/(k.margin+noise*k.by.need+some)) + int(100*float64(w.waste)/(float64(k.spare)+0.5))
}
