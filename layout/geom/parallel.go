package geom

import (
	"errors"
	"math"
	"slices"
)

// longestMitre is how far, in distances, the corner of a parallel may stand
// from the corner it follows. A sharper corner, below about 23°, has none.
const longestMitre = 5

// Parallel returns the path moved by d to the left of its way, to the right
// when d is negative, with mitred corners: one point for each point, rounded.
// closed joins the last point with the first. Formula at a corner with the
// left normals m and n: p + d·(m + n)/(1 + m·n). A point as its neighbour is
// left out first; ok is false when a corner is too sharp or nothing has a
// length. Edges shorter than their corners take come out turned round; Beside
// refuses those.
func Parallel(path []Point, closed bool, d Length) (kept, moved []Point, ok bool) {
	kept = slices.Compact(slices.Clone(path))
	for closed && len(kept) > 1 && kept[0] == kept[len(kept)-1] {
		kept = kept[:len(kept)-1]
	}
	n := len(kept)
	if n < 2 {
		return nil, nil, false
	}
	normal := func(i int) (x, y float64) { // of the edge from i
		a, b := kept[i], kept[(i+1)%n]
		dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
		l := math.Hypot(dx, dy)
		return -dy / l, dx / l
	}
	closed = closed && n > 2
	moved = make([]Point, n)
	for i, p := range kept {
		before, after := (i+n-1)%n, i
		if !closed {
			before, after = max(i-1, 0), min(i, n-2)
		}
		mx, my := normal(before)
		nx, ny := normal(after)
		k := 1 + mx*nx + my*ny // twice the square of the cosine of half the turn
		if k*longestMitre*longestMitre < 2 {
			return nil, nil, false
		}
		moved[i] = Point{
			p.X + Length(math.Round(float64(d)*(mx+nx)/k)),
			p.Y + Length(math.Round(float64(d)*(my+ny)/k)),
		}
	}
	return kept, moved, true
}

// Reasons why nothing can lie beside a path.
var (
	ErrSharp  = errors.New("a corner of it is too sharp")
	ErrNarrow = errors.New("it bends back within that distance")
	ErrSquare = errors.New("the two ends come to lie on one spot")
)

// Beside returns the way along the parallel of a path at distance d (see
// Parallel) from the point on it nearest to a to the one nearest to b, both
// included. Round a closed path there are two ways: the one that passes nearer
// to by is taken.
func Beside(path []Point, closed bool, d Length, a, b, by Point) ([]Point, error) {
	kept, moved, ok := Parallel(path, closed, d)
	if !ok {
		return nil, ErrSharp
	}
	p := parallel{kept, moved, len(kept) - 1}
	if closed && len(kept) > 2 {
		p.edges = len(kept)
	}
	ea, fa := p.nearest(a)
	eb, fb := p.nearest(b)
	if ea < 0 || eb < 0 {
		return nil, ErrNarrow
	}
	if fa == fb {
		return nil, ErrSquare
	}
	on, okOn := p.way(ea, fa, eb, fb)
	back, okBack := p.way(eb, fb, ea, fa)
	slices.Reverse(back)
	switch {
	case !okOn && !okBack:
		return nil, ErrNarrow
	case !okOn || okBack && ToPath(by, back, false) < ToPath(by, on, false):
		return back, nil
	}
	return on, nil
}

// parallel is a path with its parallel and how many edges they have.
type parallel struct {
	kept, moved []Point
	edges       int
}

func (p parallel) edge(i int) Ruler {
	return Ruler{A: p.moved[i], B: p.moved[(i+1)%len(p.moved)]}
}

// whole reports whether edge i still runs as the edge it follows.
func (p parallel) whole(i int) bool {
	a, b := p.kept[i], p.kept[(i+1)%len(p.kept)]
	r := p.edge(i)
	return float64(b.X-a.X)*float64(r.B.X-r.A.X)+float64(b.Y-a.Y)*float64(r.B.Y-r.A.Y) > 0
}

// nearest returns the foot of q on the parallel and its edge, -1 for none.
func (p parallel) nearest(q Point) (edge int, foot Point) {
	edge = -1
	var least Length
	for i := range p.edges {
		if !p.whole(i) {
			continue
		}
		if f, d := p.edge(i).Foot(q); edge < 0 || d < least {
			edge, foot, least = i, f, d
		}
	}
	return edge, foot
}

// way returns the points from foot fa on edge ea on to foot fb on edge eb; ok
// is false when that leads over the end or over an edge turned round.
func (p parallel) way(ea int, fa Point, eb int, fb Point) (out []Point, ok bool) {
	out = []Point{fa}
	if ea == eb {
		r := p.edge(ea)
		ta, _ := r.Part(fa)
		if tb, _ := r.Part(fb); ta <= tb {
			return append(out, fb), true
		}
	}
	for i := ea; ; {
		if p.edges < len(p.moved) && i+1 >= p.edges {
			return nil, false // over the end
		}
		i = (i + 1) % p.edges
		if !p.whole(i) {
			return nil, false
		}
		if q := p.moved[i]; q != out[len(out)-1] {
			out = append(out, q)
		}
		if i == eb {
			break
		}
	}
	if fb != out[len(out)-1] {
		out = append(out, fb)
	}
	return out, len(out) > 1
}
