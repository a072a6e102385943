package scene

import "math"

// lines is the number of sample lines a pixel row in polygon fills; along a
// line coverage is exact.
const lines = 4

// polygon fills a ring by the even-odd rule and strokes its outline.
func (b *band) polygon(ps []XY, st *Style) {
	if len(ps) < 3 {
		return
	}
	if st.Fill.A > 0 {
		b.ring = b.ring[:0]
		for _, p := range ps {
			b.ring = append(b.ring, XY{p.X * b.k, p.Y * b.k})
		}
		b.fill(b.ring, st.Fill)
	}
	b.polyline(ps, st, true)
}

// fill paints a ring given in pixels. Each row adds the spans of its sample
// lines as differences, which one sweep then sums up.
func (b *band) fill(ring []XY, c Colour) {
	lo, hi := bounds(ring)
	if hi.X <= 0 || lo.X >= b.maxX || hi.Y <= b.minY || lo.Y >= b.maxY {
		return
	}
	y0, y1 := max(b.y0, int(math.Floor(lo.Y))), min(b.y1-1, int(math.Floor(hi.Y)))
	x0, x1 := max(0, int(math.Floor(lo.X))), min(b.w-1, int(math.Floor(hi.X)))
	b.levels.start(ring)
	for y := y0; y <= y1; y++ {
		any := false
		for s := range lines {
			b.xs = b.levels.at(float64(y)+(float64(s)+0.5)/lines, b.xs[:0])
			for i := 0; i+1 < len(b.xs); i += 2 {
				any = true
				b.span(b.xs[i], b.xs[i+1])
			}
		}
		if any {
			b.sweep(y, x0, x1, c)
		}
	}
}

// span adds the stretch from p to q to the differences of coverage: an edge
// at x inside pixel i gives that pixel 1-frac(x) and the next the rest.
func (b *band) span(p, q float64) {
	p, q = max(0, min(p, b.maxX)), max(0, min(q, b.maxX))
	if p >= q {
		return
	}
	i := int(p)
	f := float32(p - float64(i))
	b.cover[i] += 1 - f
	b.cover[i+1] += f
	i = int(q)
	f = float32(q - float64(i))
	b.cover[i] -= 1 - f
	b.cover[i+1] -= f
}

// sweep sums the differences of row y, paints it and clears them.
func (b *band) sweep(y, x0, x1 int, c Colour) {
	pix := b.pix[4*y*b.w : 4*(y+1)*b.w]
	var sum float32
	cover := b.cover[:x1+3]
	for x := x0; x <= x1; x++ {
		if d := cover[x]; d != 0 {
			sum += d
			cover[x] = 0
		}
		if sum > lines-0.01 && c.A == 255 {
			px := pix[4*x : 4*x+4 : 4*x+4]
			px[0], px[1], px[2], px[3] = c.R, c.G, c.B, 255
		} else if sum > 0.01 {
			blend(pix[4*x:], c, uint32(sum*(255.0/lines)+0.5))
		}
	}
	cover[x1+1], cover[x1+2] = 0, 0
}
