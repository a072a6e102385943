package light

import "math"

// Opening is the luminous opening of a lamp in its own frame, metres: a box
// centred on the photometric centre, or the ellipse within it. The zero Opening
// is a point.
type Opening struct {
	X, Y, Z float64 // extents along C0-C180, C90-C270 and upright
	Round   bool    // the opening in the plane X-Y is an ellipse
}

// Size returns the greatest extent.
func (o Opening) Size() float64 { return math.Max(o.X, math.Max(o.Y, o.Z)) }

// lm63Opening reads width (along 90-270), length (along 0-180) and height;
// negative figures mark round shapes, differently in 1995 and 2002 (the later
// from memory). A lone round figure is a disc.
func lm63Opening(w, l, h float64, units int) Opening {
	k := 1.0
	if units == 1 {
		k = 0.3048 // exact
	}
	o := Opening{X: math.Abs(l) * k, Y: math.Abs(w) * k, Z: math.Abs(h) * k}
	switch {
	case w < 0 && l == 0: // 1995: disc, sphere, upright cylinder
		o.X, o.Round = o.Y, true
	case w == 0 && l > 0 && h < 0: // 1995: cylinder along the length
		o.Y = o.Z
	case w > 0 && l == 0 && h < 0: // 1995: cylinder along the width
		o.X = o.Z
	case w < 0 || l < 0:
		o.Round = true
	}
	return o
}

// bounded keeps extents of files within what a lamp can have, 0 to 100 m.
func (o Opening) bounded() bool {
	for _, v := range []float64{o.X, o.Y, o.Z} {
		if !(v >= 0 && v <= 100) {
			return false
		}
	}
	return true
}

// parts returns the centres of equal elements none of which is longer than a
// fifth of distance d, at most maxParts; one at the centre for a point.
func (o Opening) parts(d float64) []Vec {
	n := func(size float64) int { return min(max(int(math.Ceil(5*size/d-1e-9)), 1), maxSide) }
	nx, ny, nz := n(o.X), n(o.Y), n(o.Z)
	for nx*ny*nz > maxParts {
		nx, ny, nz = (nx+1)/2, (ny+1)/2, (nz+1)/2
	}
	if o.Round && nx*ny > 1 { // the rim wants smaller elements
		nx, ny = max(nx, 8), max(ny, 8)
	}
	at := func(k, n int, size float64) float64 { return size * ((float64(k)+0.5)/float64(n) - 0.5) }
	out := make([]Vec, 0, nx*ny*nz)
	for i := 0; i < nx; i++ {
		for j := 0; j < ny; j++ {
			x, y := at(i, nx, o.X), at(j, ny, o.Y)
			if o.Round && nx*ny > 1 && sq(2*x/o.X)+sq(2*y/o.Y) > 1 {
				continue
			}
			for k := 0; k < nz; k++ {
				out = append(out, Vec{x, y, at(k, nz, o.Z)})
			}
		}
	}
	return out
}

const (
	maxSide  = 200
	maxParts = 4096
)

func sq(x float64) float64 { return x * x }

// near returns the distance from e, a point in the lamp frame, to the box.
func (o Opening) near(e Vec) float64 {
	out := func(v, size float64) float64 { return math.Max(math.Abs(v)-size/2, 0) }
	return Vec{out(e.X, o.X), out(e.Y, o.Y), out(e.Z, o.Z)}.Len()
}
