package light

import (
	"math"
	"slices"
)

// Eye is where somebody stands and looks. The picture plane stays upright, so
// that walls do: looking up or down moves the horizon.
type Eye struct {
	At      Vec     // z above ground
	Bearing float64 // radians anticlockwise from +x
	Tilt    float64 // radians up from level
	Field   float64 // radians from the left edge of the picture to the right one
}

// Solid is something upright that is seen: a prism over a closed outline or a
// screen along an open one, from Base to Top, as Blocker. Side and Cap are what
// its sides and its top and underside reflect.
type Solid struct {
	Outline   []Spot
	Closed    bool
	Base, Top float64
	Side, Cap RGB
}

// Ball is the crown of a tree: round on the plan with the radius R, Half high
// from its middle to its top.
type Ball struct {
	At      Vec
	R, Half float64
	Rho     RGB
	ways    []blocker // all but the crown's own, which would darken its near side
}

// nearest is how far before the eye things begin to be seen, metres.
const nearest = 0.05

// seen is what a pixel shows. depth is the distance along the axis of the view.
type seen struct {
	depth float64 // +Inf for the sky
	at, n Vec     // point and unit normal of its surface, towards the eye
	rho   RGB
	level bool // the ground
	ball  *Ball
}

// camera is an eye with a picture of w by h pixels before it:
//
//	x = w/2 + f·u/t, y = y0 - f·(z - z_eye)/t
//
// for what lies t metres ahead and u to the right, f = (w/2)/tan(field/2). y0 is
// the horizon: h/2 + f·tan(tilt).
type camera struct {
	eye         Eye
	ahead, side Spot // unit, on the plan
	w, h        int
	f, horizon  float64
}

func newCamera(e Eye, w, h int) camera {
	s, c := math.Sincos(e.Bearing)
	f := float64(w) / 2 / math.Tan(e.Field/2)
	return camera{eye: e, ahead: Spot{c, s}, side: Spot{s, -c}, w: w, h: h, f: f, horizon: float64(h)/2 + f*math.Tan(e.Tilt)}
}

// ray returns the way on the plan of a column of pixels, by the metre ahead.
func (c *camera) ray(x int) Spot {
	u := (float64(x) + 0.5 - float64(c.w)/2) / c.f
	return Spot{c.ahead.X + u*c.side.X, c.ahead.Y + u*c.side.Y}
}

// rise returns how far a row of pixels rises by the metre ahead.
func (c *camera) rise(y int) float64 { return (c.horizon - float64(y) - 0.5) / c.f }

// place returns where a point shows and how far ahead it lies.
func (c *camera) place(p Vec) (x, y, depth float64) {
	dx, dy := p.X-c.eye.At.X, p.Y-c.eye.At.Y
	depth = dx*c.ahead.X + dy*c.ahead.Y
	u := dx*c.side.X + dy*c.side.Y
	return float64(c.w)/2 + c.f*u/depth, c.horizon - c.f*(p.Z-c.eye.At.Z)/depth, depth
}

// face is an upright side as one column meets it.
type face struct {
	t         float64
	base, top float64
	n         Vec
	rho       *RGB
}

// lid is the stretch of a column within a prism, for its top and underside.
type lid struct {
	from, to  float64
	base, top float64
	rho       *RGB
}

// column is all that a column of pixels can show, the nearest side first. Since
// the picture plane is upright a column is one way on the plan, so that solids
// are met once a column and not once a pixel.
type column struct {
	eye   Vec
	way   Spot
	faces []face
	lids  []lid
	balls []*Ball
	ts    []float64
}

// cast finds what a column meets.
func (k *column) cast(eye Vec, way Spot, solids []Solid, balls []Ball) {
	k.eye, k.way, k.faces, k.lids, k.balls = eye, way, k.faces[:0], k.lids[:0], k.balls[:0]
	for i := range solids {
		k.solid(&solids[i])
	}
	slices.SortStableFunc(k.faces, func(a, b face) int {
		switch {
		case a.t < b.t:
			return -1
		case a.t > b.t:
			return 1
		}
		return 0
	})
	for i := range balls {
		b := &balls[i]
		dx, dy := b.At.X-eye.X, b.At.Y-eye.Y
		w := math.Hypot(way.X, way.Y)
		if math.Abs(dx*way.Y-dy*way.X) < b.R*w && dx*way.X+dy*way.Y > -b.R*w {
			k.balls = append(k.balls, b)
		}
	}
}

// solid adds the sides and the lids of one solid. One that the eye stands in is
// left out: somebody in a doorway looks out of the house.
func (k *column) solid(s *Solid) {
	n := len(s.Outline)
	first := len(k.faces)
	k.ts = k.ts[:0]
	for i := range s.Outline {
		if i == n-1 && !s.Closed {
			break
		}
		p, r := s.Outline[i], s.Outline[(i+1)%n]
		ex, ey := r.X-p.X, r.Y-p.Y
		det := k.way.X*ey - k.way.Y*ex
		if det == 0 {
			continue
		}
		px, py := p.X-k.eye.X, p.Y-k.eye.Y
		// Half open, so that a corner that two sides share is met once.
		if a := (px*k.way.Y - py*k.way.X) / det; a < 0 || a >= 1 && (s.Closed || a > 1) {
			continue
		}
		t := (px*ey - py*ex) / det
		if t <= 0 {
			continue
		}
		k.ts = append(k.ts, t)
		if t < nearest {
			continue
		}
		normal := Vec{X: ey, Y: -ex}.Unit()
		if normal.X*k.way.X+normal.Y*k.way.Y > 0 {
			normal = normal.Mul(-1)
		}
		k.faces = append(k.faces, face{t, s.Base, s.Top, normal, &s.Side})
	}
	if !s.Closed || len(k.ts) == 0 {
		return
	}
	slices.Sort(k.ts)
	from := 0
	if len(k.ts)%2 == 1 { // over, under or within it
		if k.eye.Z >= s.Base && k.eye.Z <= s.Top {
			k.faces = k.faces[:first]
			return
		}
		k.lids = append(k.lids, lid{nearest, k.ts[0], s.Base, s.Top, &s.Cap})
		from = 1
	}
	for i := from; i+1 < len(k.ts); i += 2 {
		k.lids = append(k.lids, lid{k.ts[i], k.ts[i+1], s.Base, s.Top, &s.Cap})
	}
}

// at returns the point of the column a way ahead that rises so much by the metre.
func (k *column) at(t, rise float64) Vec {
	return Vec{k.eye.X + t*k.way.X, k.eye.Y + t*k.way.Y, k.eye.Z + t*rise}
}

// look returns what a pixel of the column shows.
func (k *column) look(rise float64) seen {
	out := seen{depth: math.Inf(1)}
	if rise < 0 && k.eye.Z > 0 {
		out.depth, out.level, out.n = -k.eye.Z/rise, true, Up
	}
	for i := range k.faces {
		f := &k.faces[i]
		if f.t >= out.depth {
			break
		}
		if z := k.eye.Z + f.t*rise; z >= f.base && z <= f.top {
			out = seen{depth: f.t, n: f.n, rho: *f.rho}
			break
		}
	}
	for i := range k.lids {
		l := &k.lids[i]
		z, n := l.top, Up
		if rise > 0 {
			z, n = l.base, Up.Mul(-1)
		}
		if rise == 0 || z == 0 {
			continue
		}
		if t := (z - k.eye.Z) / rise; t >= l.from && t <= l.to && t < out.depth {
			out = seen{depth: t, n: n, rho: *l.rho}
		}
	}
	for _, b := range k.balls {
		k.ball(b, rise, &out)
	}
	if !math.IsInf(out.depth, 1) {
		out.at = k.at(out.depth, rise)
	}
	if out.level {
		out.at.Z = 0
	}
	return out
}

// ball puts a ball before what was seen so far, where it is nearer.
func (k *column) ball(b *Ball, rise float64, out *seen) {
	// Heights are stretched so that it is a sphere.
	s := b.R / b.Half
	v := Vec{k.way.X, k.way.Y, rise * s}
	d := b.At.Sub(k.eye)
	d.Z *= s
	a, h, c := v.Dot(v), v.Dot(d), d.Dot(d)-b.R*b.R
	disc := h*h - a*c
	if disc <= 0 || c <= 0 {
		return
	}
	t := (h - math.Sqrt(disc)) / a
	if t < nearest || t >= out.depth {
		return
	}
	n := k.at(t, rise).Sub(b.At)
	n.Z *= s * s
	*out = seen{depth: t, n: n.Unit(), rho: b.Rho, ball: b}
}
