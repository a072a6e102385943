package board

import (
	"math"

	"fyne.io/fyne/v2"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/tool"
)

const (
	markHalf  = 7  // half the size of a snap mark
	wordSize  = 12 // text size of the word beside it
	mostDash  = 60 // dashes of one guide
	dashUnits = 6
)

// snapWords are the short words beside the snap marks, so that no kind is told
// by its shape alone. Corners, things and the grid show what they are.
var snapWords = map[geom.Rank]string{
	geom.RankFoot: "square", geom.RankCross: "crossing", geom.RankEdge: "edge", geom.RankAlong: "beside",
	geom.RankExtension: "in line", geom.RankTrack: "level", geom.RankAngle: "angle",
}

// snapMark shows what has caught the pointer: the guides that led there, a mark
// whose shape tells the kind, and a word. noted says that a note stands below.
func (o *over) snapMark(at geom.Point, c tool.Caught) {
	b := o.board
	for _, g := range c.Guides {
		o.guide(b.view.at(g.A), b.view.at(g.B))
	}
	p := b.view.at(at)
	o.shape(p, c)
	word := snapWords[c.Rank]
	if c.At != at {
		word = "" // typed, not caught
	}
	if c.Rank == geom.RankTrack && len(c.Guides) == 1 && c.Guides[0].A.X == at.X {
		word = "upright"
	}
	if word == "" {
		return
	}
	size := fyne.MeasureText(word, wordSize, fyne.TextStyle{})
	to := p.SubtractXY(size.Width+markHalf+7, size.Height+markHalf+3)
	to.X, to.Y = max(to.X, 5), max(to.Y, 4)
	o.pool.rect(to.SubtractXY(3, 1), size.AddWidthHeight(6, 2), o.paper, o.mark, 1)
	o.pool.text(word, to, o.ink, wordSize)
}

// shape draws the mark of a kind: a ring round a thing, a square on a corner, a
// right angle, a cross on its side for a crossing, a triangle on an edge, two
// rails beside a wall, a diamond in line, a bar with feet for level and upright,
// an angle, and an upright cross for the grid and for what was typed.
func (o *over) shape(p fyne.Position, c tool.Caught) {
	const h = markHalf
	line := func(x0, y0, x1, y1 float32) {
		o.pool.line(p.AddXY(x0, y0), p.AddXY(x1, y1), o.paper, 4) // on a bed of paper
		o.pool.line(p.AddXY(x0, y0), p.AddXY(x1, y1), o.mark, 2)
	}
	switch c.Rank {
	case geom.RankPoint:
		o.pool.ring(p, h+4, o.paper, 4)
		o.pool.ring(p, h+4, o.mark, 2)
		o.cross(p, 4)
	case geom.RankVertex:
		o.pool.square(p, 5, o.paper, o.mark, 2)
	case geom.RankFoot:
		line(-h, -h, -h, h)
		line(-h, h, h, h)
		line(-h, 0, 0, 0)
		line(0, 0, 0, h)
	case geom.RankCross:
		line(-h, -h, h, h)
		line(-h, h, h, -h)
	case geom.RankEdge:
		line(-h, h-1, h, h-1)
		line(-h, h-1, 0, -h)
		line(h, h-1, 0, -h)
	case geom.RankAlong:
		line(-h, -4, h, -4)
		line(-h, 4, h, 4)
		o.pool.square(p, 2, o.mark, o.mark, 1)
	case geom.RankExtension:
		line(-h, 0, 0, -h)
		line(0, -h, h, 0)
		line(h, 0, 0, h)
		line(0, h, -h, 0)
	case geom.RankTrack:
		if len(c.Guides) == 1 && c.Guides[0].A.X == c.At.X {
			line(0, -h, 0, h)
			line(-4, -h, 4, -h)
			line(-4, h, 4, h)
			break
		}
		line(-h, 0, h, 0)
		line(-h, -4, -h, 4)
		line(h, -4, h, 4)
	case geom.RankAngle:
		line(-h, h, h, h)
		line(-h, h, h-2, -h)
	default:
		line(-h, 0, h, 0)
		line(0, -h, 0, h)
	}
}

// guide shows a dashed line, as much of it as lies on the board.
func (o *over) guide(a, b fyne.Position) {
	a, b, ok := clip(a, b, o.board.Size())
	if !ok {
		return
	}
	dx, dy := b.X-a.X, b.Y-a.Y
	length := float32(math.Hypot(float64(dx), float64(dy)))
	if length < 1 {
		return
	}
	dash := max(float32(dashUnits), length/(2*mostDash))
	ux, uy := dx/length, dy/length
	for s := float32(0); s < length; s += 2 * dash {
		e := min(s+dash, length)
		o.pool.line(a.AddXY(ux*s, uy*s), a.AddXY(ux*e, uy*e), o.mark, 1)
	}
}

// dimension marks a dimension that is selected: its lines, with handles at what
// it measures between and a ring on the line, which moves it.
func (o *over) dimension(d *doc.Dimension, only bool) {
	b := o.board
	sh := doc.ShapeOf(b.frame.Scheme, d)
	places := b.places([]geom.Point{sh.From, sh.A, sh.B, sh.To})
	o.pool.path(places, o.paper, 6, b.Size())
	o.pool.path(places, o.mark, 3, b.Size())
	if !only {
		return
	}
	for _, p := range []fyne.Position{places[0], places[3]} {
		if o.near(p) {
			o.pool.square(p, handleUnits, o.paper, o.mark, 1.5)
		}
	}
	if mid := b.view.at(geom.Around(sh.A, sh.B).Centre()); o.near(mid) {
		o.pool.ring(mid, handleUnits, o.mark, 1.5)
	}
}
