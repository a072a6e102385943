package geom

import (
	"cmp"
	"math"
	"slices"
)

// Overlaps reports whether two rectangles have a point in common.
func (r Rect) Overlaps(o Rect) bool {
	return r.set && o.set && r.Min.X <= o.Max.X && o.Min.X <= r.Max.X && r.Min.Y <= o.Max.Y && o.Min.Y <= r.Max.Y
}

// Apart returns the least distance between segments ab and cd; 0 where they
// cross or touch.
func Apart(a, b, c, d Point) Length {
	if _, ok := Cross(a, b, c, d); ok {
		return 0
	}
	_, least := Nearest(a, c, d)
	for _, end := range [][3]Point{{b, c, d}, {c, a, b}, {d, a, b}} {
		_, l := Nearest(end[0], end[1], end[2])
		least = min(least, l)
	}
	return least
}

// ToPath returns the least distance from p to a polyline; closed joins its
// last point with the first. A path of no points is infinitely far.
func ToPath(p Point, path []Point, closed bool) Length {
	least := Length(math.MaxInt64)
	Edges(path, closed, func(c, d Point) {
		_, l := Nearest(p, c, d)
		least = min(least, l)
	})
	return least
}

// Edges calls f for every edge of a polyline; closed adds the one from the
// last point to the first. A path of one point has one edge without length.
func Edges(path []Point, closed bool, f func(c, d Point)) {
	for i := 1; i < len(path); i++ {
		f(path[i-1], path[i])
	}
	if n := len(path); n == 1 || n > 2 && closed {
		f(path[n-1], path[0])
	}
}

// Within returns the part of segment ab, as parameters, that lies within reach
// of segment cd; ok is false for no part. Such a part is one interval, for the
// points within reach of a segment form a convex stadium: two circles and the
// band between them.
func Within(a, b, c, d Point, reach Length) (from, to float64, ok bool) {
	from, to = 1, 0
	take := func(t0, t1 float64) {
		if t0 = max(t0, 0); t0 <= min(t1, 1) {
			from, to, ok = min(from, t0), max(to, min(t1, 1)), true
		}
	}
	r := float64(reach)
	for _, end := range [2]Point{c, d} {
		if t0, t1, meets := chord(a, b, end, r); meets {
			take(t0, t1)
		}
	}
	if t0, t1, meets := band(a, b, c, d, r); meets {
		take(t0, t1)
	}
	return from, to, ok
}

// chord returns where the line ab, as parameters, lies within r of m.
func chord(a, b, m Point, r float64) (t0, t1 float64, ok bool) {
	dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
	px, py := float64(a.X-m.X), float64(a.Y-m.Y)
	l2 := dx*dx + dy*dy
	if l2 == 0 {
		return 0, 1, math.Hypot(px, py) <= r
	}
	// |p + t·d|² = r², solved about the foot of m for the sake of rounding.
	foot := -(px*dx + py*dy) / l2
	off := (px*dy - py*dx) / math.Sqrt(l2)
	half := r*r - off*off
	if half < 0 {
		return 0, 0, false
	}
	half = math.Sqrt(half / l2)
	return foot - half, foot + half, true
}

// band returns where the line ab, as parameters, lies in the rectangle of half
// width r about segment cd.
func band(a, b, c, d Point, r float64) (t0, t1 float64, ok bool) {
	l := math.Hypot(float64(d.X-c.X), float64(d.Y-c.Y))
	if l == 0 {
		return 0, 0, false
	}
	ux, uy := float64(d.X-c.X)/l, float64(d.Y-c.Y)/l
	local := func(p Point) (x, y float64) {
		px, py := float64(p.X-c.X), float64(p.Y-c.Y)
		return px*ux + py*uy, py*ux - px*uy
	}
	ax, ay := local(a)
	bx, by := local(b)
	t0, t1 = math.Inf(-1), math.Inf(1)
	for _, slab := range [2][4]float64{{ax, bx, 0, l}, {ay, by, -r, r}} {
		v, dv := slab[0], slab[1]-slab[0]
		if dv == 0 {
			if v < slab[2] || v > slab[3] {
				return 0, 0, false
			}
			continue
		}
		u0, u1 := (slab[2]-v)/dv, (slab[3]-v)/dv
		t0, t1 = max(t0, min(u0, u1)), min(t1, max(u0, u1))
	}
	if t0 > t1 {
		return 0, 0, false
	}
	return max(t0, 0), min(t1, 1), true
}

// Covered returns how much the intervals cover together; where they overlap it
// counts once. It sorts them.
func Covered(parts [][2]float64) float64 {
	slices.SortFunc(parts, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	sum, end := 0.0, math.Inf(-1)
	for _, p := range parts {
		if from := max(p[0], end); p[1] > from {
			sum += p[1] - from
			end = p[1]
		}
	}
	return sum
}
