package scene

import "math"

// capsule fills all within p.half pixels of segment ac, by the distance of
// each pixel's centre: 1 inside, falling to 0 over one pixel at the edge.
// Each row visits only the pixels that the segment can reach.
func (b *band) capsule(a, c XY, p pen) {
	dx, dy := c.X-a.X, c.Y-a.Y
	length := math.Sqrt(dx*dx + dy*dy)
	reach := p.half + 0.5
	y0 := max(b.y0, int(math.Floor(min(a.Y, c.Y)-reach)))
	y1 := min(b.y1-1, int(math.Ceil(max(a.Y, c.Y)+reach)))
	if y0 > y1 {
		return
	}
	ux, uy := 1.0, 0.0 // a dot is a segment of no length
	if length > 1e-9 {
		ux, uy = dx/length, dy/length
	}
	s := strokeRow{b: b, p: p, ax: a.X, ay: a.Y, ux: ux, uy: uy, length: length, reach: reach}
	for y := y0; y <= y1; y++ {
		py := float64(y) + 0.5
		lo, hi := min(a.X, c.X), max(a.X, c.X)
		if uy != 0 { // the part of the segment that is near this row
			t0, t1 := (py-reach-a.Y)/uy, (py+reach-a.Y)/uy
			if t0 > t1 {
				t0, t1 = t1, t0
			}
			t0, t1 = max(0, t0), min(length, t1)
			if t0 > t1 {
				continue
			}
			lo, hi = a.X+ux*t0, a.X+ux*t1
			if lo > hi {
				lo, hi = hi, lo
			}
		}
		x0, x1 := max(0, int(math.Floor(lo-reach))), min(b.w-1, int(math.Ceil(hi+reach)))
		if x0 <= x1 {
			s.row(y, py, x0, x1)
		}
	}
}

// strokeRow paints one row of a capsule.
type strokeRow struct {
	b              *band
	p              pen
	ax, ay, ux, uy float64
	length, reach  float64
}

func (s *strokeRow) row(y int, py float64, x0, x1 int) {
	ex, ey := float64(x0)+0.5-s.ax, py-s.ay
	t := ex*s.ux + ey*s.uy // along the segment
	v := ey*s.ux - ex*s.uy // square to it
	pix := s.b.pix[4*(y*s.b.w+x0) : 4*(y*s.b.w+x1+1)]
	gain := 255 * s.p.strength
	for i := 0; i < len(pix); i += 4 {
		d := math.Abs(v)
		if t < 0 {
			d = math.Sqrt(t*t + v*v)
		} else if t > s.length {
			e := t - s.length
			d = math.Sqrt(e*e + v*v)
		}
		if cov := s.reach - d; cov > 0 {
			if cov > 1 {
				cov = 1
			}
			blend(pix[i:], s.p.colour, uint32(cov*gain+0.5))
		}
		t += s.ux
		v -= s.uy
	}
}

// circle fills and strokes a circle in one pass over its pixels.
func (b *band) circle(at XY, radius float64, st *Style) {
	cx, cy, r := at.X*b.k, at.Y*b.k, radius*b.k
	p := b.pen(st)
	ring := st.Width > 0 && st.Stroke.A > 0
	if !ring {
		p.half = 0
	}
	reach := r + p.half + 0.5
	y0, y1 := max(b.y0, int(cy-reach)), min(b.y1-1, int(cy+reach))
	inner := max(0, r-p.half-0.5) // all fill, no edge
	for y := y0; y <= y1; y++ {
		ey := float64(y) + 0.5 - cy
		q := reach*reach - ey*ey
		if q < 0 {
			continue
		}
		q = math.Sqrt(q)
		x0, x1 := max(0, int(cx-q)), min(b.w-1, int(cx+q))
		in0, in1 := x1+1, x1+1 // pixels wholly inside
		if q = inner*inner - ey*ey; q > 0 {
			q = math.Sqrt(q)
			in0 = max(x0, int(math.Ceil(cx-q-0.5)))
			in1 = max(in0, min(x1+1, int(math.Floor(cx+q+0.5))))
		}
		b.rim(y, x0, min(in0, x1+1), cx, ey, r, p, st, ring)
		b.level(y, in0, in1, st.Fill)
		b.rim(y, in1, x1+1, cx, ey, r, p, st, ring)
	}
}

// level paints the pixels from x0 up to x1 of a row.
func (b *band) level(y, x0, x1 int, c Colour) {
	if c.A == 0 || x0 >= x1 {
		return
	}
	pix := b.pix[4*(y*b.w+x0) : 4*(y*b.w+x1)]
	if c.A < 255 {
		for i := 0; i < len(pix); i += 4 {
			blend(pix[i:], c, 255)
		}
		return
	}
	for i := 0; i+3 < len(pix); i += 4 {
		pix[i], pix[i+1], pix[i+2], pix[i+3] = c.R, c.G, c.B, 255
	}
}

// rim paints the pixels of a row that the edge of a circle may touch.
func (b *band) rim(y, x0, x1 int, cx, ey, r float64, p pen, st *Style, ring bool) {
	for x := x0; x < x1; x++ {
		ex := float64(x) + 0.5 - cx
		d := math.Sqrt(ex*ex + ey*ey)
		px := b.pix[4*(y*b.w+x):]
		if st.Fill.A > 0 {
			if cov := r + 0.5 - d; cov > 0 {
				blend(px, st.Fill, uint32(255*min(1, cov)+0.5))
			}
		}
		if ring {
			if cov := p.half + 0.5 - math.Abs(d-r); cov > 0 {
				blend(px, p.colour, uint32(255*p.strength*min(1, cov)+0.5))
			}
		}
	}
}
