// Package geom is plan geometry in integer micrometres. The plan's x axis
// points right (east at north angle 0) and its y axis up the sheet; heights
// are above ground. Distances are computed in float64 and are exact to one
// micrometre for plans of up to 1,000 km; stored coordinates never drift.
package geom

import "math"

// Length is a plan length or coordinate in micrometres.
type Length int64

// Units of plan length.
const (
	Micrometre Length = 1
	Millimetre        = 1000 * Micrometre
	Centimetre        = 10 * Millimetre
	Metre             = 1000 * Millimetre
)

// Metres returns the length of m metres, rounded to the nearest micrometre.
func Metres(m float64) Length { return Length(math.Round(m * float64(Metre))) }

// Metres returns the length in metres.
func (l Length) Metres() float64 { return float64(l) / float64(Metre) }

// Millimetres returns the length in millimetres.
func (l Length) Millimetres() float64 { return float64(l) / float64(Millimetre) }

// Point is a place on the plan.
type Point struct{ X, Y Length }

// Pt returns the point at x, y metres.
func Pt(x, y float64) Point { return Point{Metres(x), Metres(y)} }

// Add returns p + v.
func (p Point) Add(v Point) Point { return Point{p.X + v.X, p.Y + v.Y} }

// Sub returns p - v.
func (p Point) Sub(v Point) Point { return Point{p.X - v.X, p.Y - v.Y} }

// Distance returns the straight distance between two points.
func Distance(a, b Point) Length {
	return Length(math.Round(math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y))))
}

// PathLength returns the length of the polyline through ps; 0 for fewer than
// two points.
func PathLength(ps []Point) Length {
	var sum float64
	for i := 1; i < len(ps); i++ {
		sum += math.Hypot(float64(ps[i].X-ps[i-1].X), float64(ps[i].Y-ps[i-1].Y))
	}
	return Length(math.Round(sum))
}

// Nearest returns the point of segment ab nearest to p and its distance.
func Nearest(p, a, b Point) (Point, Length) {
	dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
	if dx == 0 && dy == 0 {
		return a, Distance(p, a)
	}
	t := (float64(p.X-a.X)*dx + float64(p.Y-a.Y)*dy) / (dx*dx + dy*dy)
	t = math.Max(0, math.Min(1, t))
	q := Point{a.X + Length(math.Round(t*dx)), a.Y + Length(math.Round(t*dy))}
	return q, Distance(p, q)
}

// Inside reports whether p lies in the polygon ring (even-odd rule, the last
// vertex joins the first). A point on an edge may fall either way.
func Inside(p Point, ring []Point) bool { return inside(float64(p.X), float64(p.Y), ring) }

func inside(px, py float64, ring []Point) bool {
	in := false
	for i, j := 0, len(ring)-1; i < len(ring); j, i = i, i+1 {
		a, b := ring[i], ring[j]
		if ay, by := float64(a.Y), float64(b.Y); (ay > py) != (by > py) {
			x := float64(a.X) + (py-ay)/(by-ay)*float64(b.X-a.X)
			if px < x {
				in = !in
			}
		}
	}
	return in
}
