package scene

import "math"

// field remembers which half-millimetre cells of the sheet are taken and how
// much it would hurt to letter over them.
type field struct {
	w, h  int
	cells []uint8
}

const cell = 0.5 // mm

// Hurt of lettering over things.
const (
	hurtLine   = 1
	hurtWall   = 2
	hurtRun    = 4
	hurtSymbol = 40
	hurtLabel  = 60
	hurtEdge   = 30 // per cell outside the sheet
)

func newField(width, height float64) *field {
	w, h := int(width/cell)+1, int(height/cell)+1
	return &field{w, h, make([]uint8, w*h)}
}

func (f *field) put(x, y int, hurt uint8) {
	if x < 0 || y < 0 || x >= f.w || y >= f.h {
		return
	}
	if c := &f.cells[y*f.w+x]; *c < hurt {
		*c = hurt
	}
}

// box takes the cells of a rectangle.
func (f *field) box(x0, y0, x1, y1 float64, hurt uint8) {
	ax, ay := max(0, int(math.Floor(x0/cell))), max(0, int(math.Floor(y0/cell)))
	bx, by := min(f.w-1, int(math.Floor(x1/cell))), min(f.h-1, int(math.Floor(y1/cell)))
	for y := ay; y <= by && ax <= bx; y++ {
		row := f.cells[y*f.w+ax : y*f.w+bx+1]
		for i, c := range row {
			row[i] = max(c, hurt)
		}
	}
}

// stroke takes the cells under a segment.
func (f *field) stroke(a, b XY, hurt uint8) {
	a, b, ok := clip(a, b, 0, 0, float64(f.w)*cell, float64(f.h)*cell)
	if !ok {
		return
	}
	n := int(max(math.Abs(b.X-a.X), math.Abs(b.Y-a.Y))/cell) + 1
	dx, dy := (b.X-a.X)/float64(n)/cell, (b.Y-a.Y)/float64(n)/cell
	x, y := a.X/cell, a.Y/cell
	for i := 0; i <= n; i++ {
		f.put(int(x), int(y), hurt)
		x, y = x+dx, y+dy
	}
}

// cost returns the hurt of lettering over a rectangle, or at least limit as
// soon as it gets that bad.
func (f *field) cost(x0, y0, x1, y1 float64, limit int) int {
	ax, ay := int(math.Floor(x0/cell)), int(math.Floor(y0/cell))
	bx, by := int(math.Floor(x1/cell)), int(math.Floor(y1/cell))
	sum := 0
	if ax < 0 || ay < 0 || bx >= f.w || by >= f.h {
		ow := max(0, -ax) + max(0, bx-f.w+1)
		oh := max(0, -ay) + max(0, by-f.h+1)
		sum = hurtEdge * (ow*(by-ay+1) + oh*(bx-ax+1))
		ax, ay, bx, by = max(0, ax), max(0, ay), min(f.w-1, bx), min(f.h-1, by)
	}
	for y := ay; y <= by && sum < limit; y++ {
		if ax > bx {
			break
		}
		for _, c := range f.cells[y*f.w+ax : y*f.w+bx+1] {
			sum += int(c)
		}
	}
	return sum
}

// turned visits the points of a turned rectangle, 0.9 mm apart along the text
// and less than a cell across it, so that no line slips through: it starts at
// o, goes l along u and h along v.
func turned(o, u, v XY, l, h float64, visit func(x, y int) bool) {
	nl, nh := int(l/0.9)+1, int(h/cell)+1
	for j := 0; j <= nh; j++ {
		q := h * float64(j) / float64(nh)
		for i := 0; i <= nl; i++ {
			p := l * float64(i) / float64(nl)
			x := int(math.Floor((o.X + u.X*p + v.X*q) / cell))
			y := int(math.Floor((o.Y + u.Y*p + v.Y*q) / cell))
			if !visit(x, y) {
				return
			}
		}
	}
}

// costTurned is cost for a turned rectangle.
func (f *field) costTurned(o, u, v XY, l, h float64, limit int) int {
	sum := 0
	turned(o, u, v, l, h, func(x, y int) bool {
		if x < 0 || y < 0 || x >= f.w || y >= f.h {
			sum += hurtEdge
		} else {
			sum += int(f.cells[y*f.w+x])
		}
		return sum < limit
	})
	return sum
}

// takeTurned takes the cells of a turned rectangle.
func (f *field) takeTurned(o, u, v XY, l, h float64, hurt uint8) {
	turned(o, u, v, l, h, func(x, y int) bool {
		f.put(x, y, hurt)
		f.put(x+1, y, hurt)
		return true
	})
}

// clip returns the part of segment ab inside a rectangle (Liang and Barsky).
func clip(a, b XY, x0, y0, x1, y1 float64) (XY, XY, bool) {
	dx, dy := b.X-a.X, b.Y-a.Y
	t0, t1 := 0.0, 1.0
	for _, e := range [4][2]float64{{-dx, a.X - x0}, {dx, x1 - a.X}, {-dy, a.Y - y0}, {dy, y1 - a.Y}} {
		p, q := e[0], e[1]
		if p == 0 {
			if q < 0 {
				return a, b, false
			}
			continue
		}
		if r := q / p; p < 0 {
			t0 = max(t0, r)
		} else {
			t1 = min(t1, r)
		}
	}
	if t0 > t1 {
		return a, b, false
	}
	return XY{a.X + t0*dx, a.Y + t0*dy}, XY{a.X + t1*dx, a.Y + t1*dy}, true
}

// clipRing returns the polygon cut to a rectangle (Sutherland and Hodgman).
func clipRing(ring []XY, x0, y0, x1, y1 float64) []XY {
	side := func(ps []XY, in func(XY) float64) []XY {
		var out []XY
		for i, p := range ps {
			q := ps[(i+len(ps)-1)%len(ps)]
			dp, dq := in(p), in(q)
			if dp >= 0 != (dq >= 0) {
				t := dq / (dq - dp)
				out = append(out, XY{q.X + t*(p.X-q.X), q.Y + t*(p.Y-q.Y)})
			}
			if dp >= 0 {
				out = append(out, p)
			}
		}
		return out
	}
	ring = side(ring, func(p XY) float64 { return p.X - x0 })
	ring = side(ring, func(p XY) float64 { return x1 - p.X })
	ring = side(ring, func(p XY) float64 { return p.Y - y0 })
	return side(ring, func(p XY) float64 { return y1 - p.Y })
}
