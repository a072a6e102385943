package geom

import "math"

// Arc is a part of a circle: it starts in the direction Start as seen from its
// centre and goes Sweep degrees on, anticlockwise when positive.
type Arc struct {
	Centre       Point
	Radius       float64 // micrometres
	Start, Sweep float64 // degrees; 0 is right, anticlockwise
}

// Through returns the arc from a over via to b; ok is false when the three lie
// on one line or the radius would be over 1,000 km. The centre is where the
// perpendicular bisectors of a-via and via-b meet, rounded to the micrometre.
func Through(a, via, b Point) (arc Arc, ok bool) {
	// Seen from a, so that large coordinates cost no digits.
	bx, by := float64(via.X-a.X), float64(via.Y-a.Y)
	cx, cy := float64(b.X-a.X), float64(b.Y-a.Y)
	d := 2 * (bx*cy - by*cx)
	b2, c2 := bx*bx+by*by, cx*cx+cy*cy
	// Sine of the angle at a under 1e-6: nobody can draw that as an arc.
	if b2 == 0 || c2 == 0 || math.Abs(d) <= 2e-6*math.Sqrt(b2*c2) {
		return arc, false
	}
	ux, uy := (cy*b2-by*c2)/d, (bx*c2-cx*b2)/d
	if r := math.Hypot(ux, uy); r > 1e12 {
		return arc, false
	}
	arc.Centre = Point{a.X + Length(math.Round(ux)), a.Y + Length(math.Round(uy))}
	arc.Radius = math.Hypot(float64(a.X-arc.Centre.X), float64(a.Y-arc.Centre.Y))
	arc.Start = Direction(arc.Centre, a)
	arc.Sweep = math.Mod(Direction(arc.Centre, b)-arc.Start+720, 360)
	if over := math.Mod(Direction(arc.Centre, via)-arc.Start+720, 360); over > arc.Sweep {
		arc.Sweep -= 360 // the other way round passes via
	}
	return arc, true
}

// At returns the point of the circle degrees on from the start of the arc.
func (a Arc) At(degrees float64) Point {
	sin, cos := math.Sincos((a.Start + degrees) * math.Pi / 180)
	return Point{
		a.Centre.X + Length(math.Round(a.Radius*cos)),
		a.Centre.Y + Length(math.Round(a.Radius*sin)),
	}
}

// Length returns the length of the arc: Radius·|Sweep|, Sweep in radians.
func (a Arc) Length() Length {
	return Length(math.Round(a.Radius * math.Abs(a.Sweep) * math.Pi / 180))
}

// Degrees returns the angle that a length along the circle subtends; a full
// turn for a circle without radius.
func (a Arc) Degrees(along Length) float64 {
	if a.Radius <= 0 {
		return 360
	}
	return float64(along) / a.Radius * 180 / math.Pi
}
