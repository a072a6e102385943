package scene

import (
	"math"

	"duskwire/layout/doc"
)

// Measures of a dimension on paper, millimetres, after ISO 129-1 (from memory):
// thin lines, extension lines that leave a gap at what is measured and pass the
// dimension line, strokes at 45° at its ends, the figure above the line, to be
// read from below or from the right.
const (
	extensionGap  = 0.8
	extensionPast = 1.5
	strokeHalf    = 1.1 // half of the length across and up of an end stroke
	figureGap     = 0.7 // between line and figure
	figureTail    = 1.5 // how far the line goes on under a figure beyond its end
	leastMeasured = 1.5 // a shorter line shows no figure on a screen
)

// figure is the lettering of a dimension, which comes after the symbols.
type figure struct {
	item Item
	at   XY
}

// dimensions draws the dimension lines and keeps their figures for later.
func (b *builder) dimensions() (figures []figure) {
	for _, d := range b.in.Scheme.Dimensions.All() {
		if b.in.skips(d.ID) {
			continue
		}
		if f, ok := b.dimension(d); ok {
			figures = append(figures, f)
		}
	}
	return figures
}

// dimension draws one dimension line and returns its figure.
func (b *builder) dimension(d *doc.Dimension) (f figure, ok bool) {
	sh := doc.ShapeOf(b.in.Scheme, d)
	p, q := b.at(sh.A), b.at(sh.B)
	from, to := b.at(sh.From), b.at(sh.To)
	text := sh.Read()
	w := TextWidth(text, capLabel, false)
	if !b.seesBox([]XY{p, q, from, to}, w+3) {
		return f, false
	}
	length := math.Hypot(q.X-p.X, q.Y-p.Y)
	u := XY{1, 0}
	switch {
	case length > 1e-9:
		u = XY{(q.X - p.X) / length, (q.Y - p.Y) / length}
	case d.Kind == doc.Vertical:
		u = XY{0, -1}
	}
	if u.X < -1e-9 || math.Abs(u.X) <= 1e-9 && u.Y > 0 { // read from below or from the right
		p, q, u = q, p, XY{-u.X, -u.Y}
		from, to = to, from
	}
	up := XY{u.Y, -u.X} // above the figure's line
	inside := w+2*strokeHalf+1 <= length
	end := q
	if !inside {
		end = XY{q.X + u.X*(figureTail+w), q.Y + u.Y*(figureTail+w)}
	}
	id := string(d.ID)
	pen := Style{Stroke: b.pal.Soft, Width: fine}
	b.add(Item{Kind: Segments, Layer: LayerDimensions, Entity: id, Style: pen, Points: b.extensions(p, q, end, from, to)})
	pen.Width = medium
	b.add(Item{Kind: Segments, Layer: LayerDimensions, Entity: id, Style: pen, Points: b.endStrokes(u, p, q)})
	b.free.stroke(p, end, hurtLine)
	b.standAt(id, XY{(p.X + q.X) / 2, (p.Y + q.Y) / 2}, 1)
	if b.in.Screen && length < leastMeasured {
		return f, false
	}
	s := (length - w) / 2
	if !inside {
		s = length + figureTail
	}
	at := XY{p.X + u.X*s + up.X*figureGap, p.Y + u.Y*s + up.Y*figureGap}
	b.free.takeTurned(XY{at.X + up.X*capLabel, at.Y + up.Y*capLabel}, u, XY{-up.X, -up.Y}, w, capLabel, hurtLabel)
	return figure{Item{Entity: id, Text: text, Size: capLabel, Turn: math.Atan2(0-u.Y, u.X) * 180 / math.Pi,
		Style: Style{Fill: b.pal.Ink}}, at}, true
}

// extensions returns the strokes of the dimension line and of the lines that
// lead to it from what is measured.
func (b *builder) extensions(p, q, end, from, to XY) []XY {
	out := append(b.pts(6)[:0], p, end)
	for _, e := range [2][2]XY{{from, p}, {to, q}} {
		dx, dy := e[1].X-e[0].X, e[1].Y-e[0].Y
		n := math.Hypot(dx, dy)
		if n <= extensionGap {
			continue // the line stands on what it measures
		}
		out = append(out, XY{e[0].X + dx/n*extensionGap, e[0].Y + dy/n*extensionGap},
			XY{e[1].X + dx/n*extensionPast, e[1].Y + dy/n*extensionPast})
	}
	return out
}

// endStrokes returns the strokes at 45° to the line at its ends.
func (b *builder) endStrokes(u XY, ends ...XY) []XY {
	v := XY{(u.X + u.Y) * strokeHalf, (u.Y - u.X) * strokeHalf} // u turned by 45° towards above
	out := b.pts(2 * len(ends))
	for i, p := range ends {
		out[2*i], out[2*i+1] = XY{p.X - v.X, p.Y - v.Y}, XY{p.X + v.X, p.Y + v.Y}
	}
	return out
}

// letterFigures writes the figures.
func (b *builder) letterFigures(figures []figure) {
	for _, f := range figures {
		p := b.pts(1)
		p[0] = f.at
		f.item.Kind, f.item.Layer, f.item.Points, f.item.Halo = Text, LayerDimensions, p, true
		b.add(f.item)
	}
}
