package scene

import (
	"math"

	"duskwire/layout/geom"
)

// overPicture is how strongly the grid covers a picture, out of 255: its lines show
// on light and on dark and leave the picture readable.
const overPicture = 0x60

// grid draws the snap grid, thinned to steps of at least 4 mm on paper. Over a
// picture its lines are half transparent and of a grey between light and dark.
func (b *builder) grid() {
	step := b.in.Scheme.Plan.Grid
	if step <= 0 {
		step = geom.Metre / 2
	}
	for n := 0; float64(step)*b.k < 4; n++ {
		step *= geom.Length([]int{2, 5}[n%2])
	}
	g := gridLines{}
	if b.lies() && b.in.Scheme.Plan.Underlay.Fade < 1 {
		for _, c := range b.in.Scheme.Plan.Underlay.Corners() {
			g.under = append(g.under, b.at(c))
		}
	}
	lo, hi := b.view.Plan(XY{0, b.h}), b.view.Plan(XY{b.w, 0})
	for x := lo.X/step - 1; x <= hi.X/step+1; x++ {
		px := b.at(geom.Point{X: x * step}).X
		g.line(XY{px, 0}, XY{px, b.h})
	}
	for y := lo.Y/step - 1; y <= hi.Y/step+1; y++ {
		py := b.at(geom.Point{Y: y * step}).Y
		g.line(XY{0, py}, XY{b.w, py})
	}
	b.add(Item{Kind: Segments, Layer: LayerGrid, Points: g.paper, Style: Style{Stroke: b.pal.Grid, Width: fine}})
	if len(g.picture) > 0 {
		c := mixed(b.pal.Ink, b.pal.Paper, 0.5)
		c.A = overPicture
		b.add(Item{Kind: Segments, Layer: LayerGrid, Points: g.picture, Style: Style{Stroke: c, Width: fine}})
	}
}

// gridLines parts lines into what lies over the picture and what lies beside it.
type gridLines struct {
	under          []XY // corners of the picture, in order; none without one
	paper, picture []XY
}

func (g *gridLines) line(p, q XY) {
	lo, hi := shareIn(p, q, g.under)
	if lo >= hi {
		g.paper = append(g.paper, p, q)
		return
	}
	at := func(t float64) XY { return XY{p.X + t*(q.X-p.X), p.Y + t*(q.Y-p.Y)} }
	g.picture = append(g.picture, at(lo), at(hi))
	if lo > 0 {
		g.paper = append(g.paper, p, at(lo))
	}
	if hi < 1 {
		g.paper = append(g.paper, at(hi), q)
	}
}

// shareIn returns from where to where, as shares of the way from p to q, a stroke
// lies in a convex ring; lo is not below hi when it does not.
func shareIn(p, q XY, ring []XY) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	dx, dy := q.X-p.X, q.Y-p.Y
	for i, a := range ring {
		c := ring[(i+1)%len(ring)]
		ex, ey := c.X-a.X, c.Y-a.Y
		d := dx*ey - dy*ex
		if d == 0 {
			continue // side by side
		}
		if s := ((a.X-p.X)*dy - (a.Y-p.Y)*dx) / d; s < 0 || s > 1 {
			continue
		}
		t := ((a.X-p.X)*ey - (a.Y-p.Y)*ex) / d
		lo, hi = min(lo, t), max(hi, t)
	}
	return max(lo, 0), min(hi, 1)
}
