package scene

import (
	"math"

	"golang.org/x/image/font/sfnt"
)

// Curve is one piece of a letter's outline in millimetres: a move (1 point),
// a line (1 point) or a cubic curve (3 points).
type Curve struct {
	Move bool
	N    int
	P    [3]XY
}

// Start returns the start of a text's baseline, whatever its anchor.
func Start(it *Item) XY {
	p := it.Points[0]
	w := TextWidth(it.Text, it.Size, it.Bold)
	switch it.Anchor {
	case Left:
		return p
	case Middle:
		w /= 2
	}
	sin, cos := math.Sincos(it.Turn * math.Pi / 180)
	return XY{p.X - w*cos, p.Y + w*sin}
}

// Outlines returns the outlines of a text item, for writers that draw its
// halo as a path.
func Outlines(it *Item) (out []Curve) {
	var buf sfnt.Buffer
	at := Start(it)
	size := FontSize(it.Size, it.Bold)
	sin, cos := math.Sincos(it.Turn * math.Pi / 180)
	face := faceOf(it.Bold)
	for _, r := range it.Text {
		var pen XY
		for _, c := range outline(&buf, r, it.Bold, size, it.Turn, at) {
			o := Curve{Move: c.op == sfnt.SegmentOpMoveTo, N: 1, P: c.pts}
			switch c.op {
			case sfnt.SegmentOpQuadTo: // raised to a cubic: controls two thirds of the way
				q, e := c.pts[0], c.pts[1]
				o.N = 3
				o.P = [3]XY{{pen.X + (q.X-pen.X)*2/3, pen.Y + (q.Y-pen.Y)*2/3}, {e.X + (q.X-e.X)*2/3, e.Y + (q.Y-e.Y)*2/3}, e}
			case sfnt.SegmentOpCubeTo:
				o.N = 3
			}
			pen = o.P[o.N-1]
			out = append(out, o)
		}
		a := face.advance(r) * size
		at = XY{at.X + a*cos, at.Y - a*sin}
	}
	return out
}

// HaloWidth is how far the halo of a text reaches beyond its letters, mm.
const HaloWidth = haloWidth
