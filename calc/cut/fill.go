package cut

import "slices"

// fill enumerates the fills of one drum.
type fill struct {
	k      *packing
	drum   int
	counts []int
	loss   float64
	allow  int // steps that may be wasted
	limit  int // fills still wanted
	out    []way
}

// from goes on with size j and the smaller ones in room steps.
func (f *fill) from(j, room int) {
	k := f.k
	sizes := k.s.p.sizes
	if k.effort <= 0 || f.limit <= 0 || f.loss-k.s.table.most(j, room) > k.margin+noise || room-int(k.s.reach.most(j, room)) > f.allow {
		return
	}
	for j < len(sizes) && (k.left[j] == 0 || sizes[j] > room) {
		j++
	}
	if j == len(sizes) {
		f.note(room)
		return
	}
	was := f.loss
	for n := min(k.left[j], room/sizes[j]); n >= 0; n-- {
		f.counts[j] += n
		k.left[j] -= n
		f.loss = was - float64(n)*k.by.worth[j]
		f.from(j+1, room-n*sizes[j])
		f.counts[j] -= n
		k.left[j] += n
	}
	f.loss = was
}

// note keeps a fill unless a better one stands for it.
func (f *fill) note(room int) {
	k := f.k
	if room > f.allow || f.loss > k.margin+noise {
		return
	}
	k.effort--
	if k.sums.beaten(k.s.p.sizes, f.counts, k.left, room) {
		return
	}
	f.limit--
	f.out = append(f.out, way{f.drum, slices.Clone(f.counts), room, max(f.loss, 0)})
}

// subsets holds which lengths some of the pieces of a fill add up to.
type subsets struct {
	one, more []bool // by one piece, by two or more
}

// beaten reports whether a piece that is left could take the place of some of
// the fill: of a shorter piece, or of several that are together no longer, in
// the drum with so many steps of room. Any plan with the fill stays one when
// they change places, so the fill need not be tried (the dominance of Martello
// and Toth, "Lower bounds and reduction procedures for the bin packing
// problem", Discrete Applied Mathematics 28, 1990).
func (b *subsets) beaten(sizes, counts, left []int, room int) bool {
	longest := slices.IndexFunc(left, func(n int) bool { return n > 0 })
	if longest < 0 {
		return false
	}
	b.add(sizes, counts, sizes[longest])
	for j := longest; j < len(sizes); j++ {
		if left[j] == 0 {
			continue
		}
		for sum := sizes[j]; sum >= max(sizes[j]-room, 0); sum-- {
			// Nothing at all (sum 0) is the piece put in beside the rest.
			if b.more[sum] || (sum < sizes[j] && (sum == 0 || b.one[sum])) {
				return true
			}
		}
	}
	return false
}

// add works out the sums up to a length.
func (b *subsets) add(sizes, counts []int, upTo int) {
	if len(b.one) <= upTo {
		b.one, b.more = make([]bool, upTo+1), make([]bool, upTo+1)
	}
	one, more := b.one[:upTo+1], b.more[:upTo+1]
	clear(one)
	clear(more)
	for i, n := range counts {
		for range n {
			for sum := upTo; sum > sizes[i]; sum-- {
				if more[sum-sizes[i]] || one[sum-sizes[i]] {
					more[sum] = true
				}
			}
			if sizes[i] <= upTo {
				one[sizes[i]] = true
			}
		}
	}
}
