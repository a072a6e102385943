package scene

import (
	"cmp"
	"slices"
)

// levels cuts a ring with level lines, from the lowest Y to the highest. The
// edges wait in the order of their lower ends, and those that the line cuts
// stay nearly in order of X from line to line, so that a ring of 10,000 corners
// costs little more than the cuts themselves.
type levels struct {
	wait []edge
	next int // of wait
	live []edge
}

// edge is a side of a ring; p and q are its ends as the ring runs.
type edge struct {
	p, q XY
	top  float64 // larger Y
	x    float64 // where the present line cuts it
}

func (e *edge) low() float64 { return min(e.p.Y, e.q.Y) }

// start takes another ring.
func (l *levels) start(ring []XY) {
	l.wait, l.live, l.next = l.wait[:0], l.live[:0], 0
	for i, j := 0, len(ring)-1; i < len(ring); j, i = i, i+1 {
		if p, q := ring[i], ring[j]; p.Y != q.Y {
			l.wait = append(l.wait, edge{p: p, q: q, top: max(p.Y, q.Y)})
		}
	}
	slices.SortFunc(l.wait, func(a, b edge) int { return cmp.Compare(a.low(), b.low()) })
}

// at appends the sorted places where the level y cuts the ring. y must not be
// less than in the call before. An edge counts from its lower end on and up to,
// but not at, its upper one, so that a corner counts once.
func (l *levels) at(y float64, xs []float64) []float64 {
	l.live = slices.DeleteFunc(l.live, func(e edge) bool { return y >= e.top })
	old := len(l.live)
	for ; l.next < len(l.wait) && l.wait[l.next].low() <= y; l.next++ {
		if e := l.wait[l.next]; y < e.top {
			l.live = append(l.live, e)
		}
	}
	for i := range l.live {
		e := &l.live[i]
		e.x = e.p.X + (y-e.p.Y)/(e.q.Y-e.p.Y)*(e.q.X-e.p.X)
	}
	const few = 16
	if len(l.live)-old > few {
		slices.SortFunc(l.live, func(a, b edge) int { return cmp.Compare(a.x, b.x) })
	} else {
		settleEdges(l.live)
	}
	for i := range l.live {
		xs = append(xs, l.live[i].x)
	}
	return xs
}

// settleEdges sorts by insertion what is nearly sorted.
func settleEdges(live []edge) {
	for i := 1; i < len(live); i++ {
		if live[i-1].x <= live[i].x {
			continue
		}
		e, n := live[i], i
		for ; n > 0 && live[n-1].x > e.x; n-- {
			live[n] = live[n-1]
		}
		live[n] = e
	}
}

// slabs answers whether points lie in a ring (even-odd). The paper is cut into
// level strips, and a point looks only at the edges that reach into its own.
type slabs struct {
	ring []XY
	low  float64
	step float64
	in   [][]int32 // per strip: edges, by their first corner; nil for a small ring
}

// newSlabs prepares a ring; one of few corners needs no strips.
func newSlabs(ring []XY) *slabs {
	const few, most = 64, 1024
	s := &slabs{ring: ring}
	if len(ring) < few {
		return s
	}
	lo, hi := bounds(ring)
	n := min(len(ring)/4, most)
	s.low, s.step = lo.Y, (hi.Y-lo.Y)/float64(n)
	if !(s.step > 0) {
		return s
	}
	s.in = make([][]int32, n)
	for i, j := 0, len(ring)-1; i < len(ring); j, i = i, i+1 {
		from, to := s.strip(ring[i].Y), s.strip(ring[j].Y)
		for k := min(from, to); k <= max(from, to); k++ {
			s.in[k] = append(s.in[k], int32(i))
		}
	}
	return s
}

// strip is the number of the strip that a level falls into, the nearest one
// for levels beyond the ring.
func (s *slabs) strip(y float64) int {
	return int(min(max((y-s.low)/s.step, 0), float64(len(s.in)-1)))
}

// holds reports whether p lies in the ring.
func (s *slabs) holds(p XY) bool {
	if s.in == nil {
		return inside(p, s.ring)
	}
	in := false
	for _, i := range s.in[s.strip(p.Y)] {
		j := int(i) - 1
		if j < 0 {
			j = len(s.ring) - 1
		}
		if beneath(p, s.ring[i], s.ring[j]) {
			in = !in
		}
	}
	return in
}
