package geom

import "math"

// Ruler is a straight line to snap to: the segment from A to B, or the whole
// line through them when Endless.
type Ruler struct {
	A, B    Point
	Endless bool
}

// Foot returns the point of the ruler nearest to p and the distance to it. A
// point that lies on the ruler within a micrometre, which is how exactly any
// point can be stored, is its own foot. A ruler without length is the point A.
func (r Ruler) Foot(p Point) (Point, Length) {
	x, y := r.foot(p)
	if math.Hypot(x-float64(p.X), y-float64(p.Y)) <= 1 {
		return p, 0
	}
	q := Point{Length(math.Round(x)), Length(math.Round(y))}
	return q, Distance(p, q)
}

// Off returns the distance from p to the ruler in micrometres, unrounded.
func (r Ruler) Off(p Point) float64 {
	x, y := r.foot(p)
	return math.Hypot(x-float64(p.X), y-float64(p.Y))
}

// Part returns where the foot of p lies: 0 at A, 1 at B, below 0 or above 1
// beyond them. ok is false for a ruler without length.
func (r Ruler) Part(p Point) (t float64, ok bool) {
	dx, dy := float64(r.B.X-r.A.X), float64(r.B.Y-r.A.Y)
	if dx == 0 && dy == 0 {
		return 0, false
	}
	return (float64(p.X-r.A.X)*dx + float64(p.Y-r.A.Y)*dy) / (dx*dx + dy*dy), true
}

func (r Ruler) foot(p Point) (x, y float64) {
	t, ok := r.Part(p)
	if !ok {
		return float64(r.A.X), float64(r.A.Y)
	}
	if !r.Endless {
		t = min(max(t, 0), 1)
	}
	return float64(r.A.X) + t*float64(r.B.X-r.A.X), float64(r.A.Y) + t*float64(r.B.Y-r.A.Y)
}

// Slide returns the point q of a level or upright ruler moved along it to the
// nearest line of the grid that it reaches; q itself on a ruler at a slant, or
// without a grid.
func (r Ruler) Slide(q Point, spacing Length) Point {
	to := q
	switch {
	case spacing <= 0:
		return q
	case r.A.Y == r.B.Y && r.A.X != r.B.X:
		to.X = roundTo(q.X, spacing)
	case r.A.X == r.B.X && r.A.Y != r.B.Y:
		to.Y = roundTo(q.Y, spacing)
	}
	if r.Off(to) > 1 {
		return q // beyond the end
	}
	return to
}

// Meet returns where two rulers cross, rounded to the micrometre; ok is false
// when they do not, or at less than 3°, where the place would hang on the last
// digit of theirs.
func Meet(a, b Ruler) (p Point, ok bool) {
	ux, uy := float64(a.B.X-a.A.X), float64(a.B.Y-a.A.Y)
	vx, vy := float64(b.B.X-b.A.X), float64(b.B.Y-b.A.Y)
	turn := ux*vy - uy*vx
	const least = 0.052 // sine of 3°
	if math.Abs(turn) <= least*math.Hypot(ux, uy)*math.Hypot(vx, vy) {
		return p, false
	}
	t := (float64(b.A.X-a.A.X)*vy - float64(b.A.Y-a.A.Y)*vx) / turn
	x, y := float64(a.A.X)+t*ux, float64(a.A.Y)+t*uy
	if math.Abs(x) > math.MaxInt64/4 || math.Abs(y) > math.MaxInt64/4 {
		return p, false
	}
	p = Point{Length(math.Round(x)), Length(math.Round(y))}
	return p, a.Off(p) <= 1 && b.Off(p) <= 1
}

// Beside returns the ruler moved by d to the left of the way from A to B, to
// the right when d is negative; ok is false for a ruler without length.
func (r Ruler) Beside(d Length) (Ruler, bool) {
	dx, dy := float64(r.B.X-r.A.X), float64(r.B.Y-r.A.Y)
	n := math.Hypot(dx, dy)
	if n == 0 {
		return r, false
	}
	v := Point{Length(math.Round(-dy / n * float64(d))), Length(math.Round(dx / n * float64(d)))}
	return Ruler{r.A.Add(v), r.B.Add(v), r.Endless}, true
}
