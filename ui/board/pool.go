package board

import (
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// pool keeps a few canvas objects and hands them out again at every change,
// because making objects anew costs more than moving them. Objects are shown
// in the order of their kind: rectangles, lines, circles, plates, texts.
type pool struct {
	rects   shelf[*canvas.Rectangle]
	lines   shelf[*canvas.Line]
	circles shelf[*canvas.Circle]
	plates  shelf[*canvas.Rectangle] // that texts stand on
	texts   shelf[*canvas.Text]
}

// shelf is the pool of one kind of object.
type shelf[T fyne.CanvasObject] struct {
	box   *fyne.Container
	make  func() T
	items []T
	used  int
}

func (s *shelf[T]) next() T {
	if s.used == len(s.items) {
		o := s.make()
		s.items = append(s.items, o)
		s.box.Add(o)
	}
	s.used++
	return s.items[s.used-1]
}

// end hides what was not handed out since the shelf was last begun.
func (s *shelf[T]) end() {
	for _, o := range s.items[s.used:] {
		if o.Visible() {
			o.Hide()
		}
	}
	s.used = 0
}

func (p *pool) init() *fyne.Container {
	boxes := [5]*fyne.Container{}
	out := &fyne.Container{}
	for i := range boxes {
		boxes[i] = &fyne.Container{}
		out.Add(boxes[i])
	}
	p.rects = shelf[*canvas.Rectangle]{box: boxes[0], make: func() *canvas.Rectangle { return canvas.NewRectangle(nil) }}
	p.lines = shelf[*canvas.Line]{box: boxes[1], make: func() *canvas.Line { return canvas.NewLine(nil) }}
	p.circles = shelf[*canvas.Circle]{box: boxes[2], make: func() *canvas.Circle { return canvas.NewCircle(nil) }}
	p.plates = shelf[*canvas.Rectangle]{box: boxes[3], make: p.rects.make}
	p.texts = shelf[*canvas.Text]{box: boxes[4], make: func() *canvas.Text { return canvas.NewText("", nil) }}
	return out
}

func (p *pool) end() {
	p.rects.end()
	p.lines.end()
	p.circles.end()
	p.plates.end()
	p.texts.end()
}

// hollow is the area in square units from which an empty rectangle is shown as
// four bars: the toolkit goes over every pixel of a rectangle, empty or not,
// which for one of the board's size takes as long as the plan itself.
const hollow = 100 * 100

// rect shows a rectangle; fill or stroke may be nil.
func (p *pool) rect(at fyne.Position, size fyne.Size, fill, stroke color.Color, width float32) {
	if fill == nil && size.Width*size.Height >= hollow && 2*width < min(size.Width, size.Height) {
		inner := size.Height - 2*width
		p.rect(at, fyne.NewSize(size.Width, width), stroke, nil, 0)
		p.rect(at.AddXY(0, size.Height-width), fyne.NewSize(size.Width, width), stroke, nil, 0)
		p.rect(at.AddXY(0, width), fyne.NewSize(width, inner), stroke, nil, 0)
		p.rect(at.AddXY(size.Width-width, width), fyne.NewSize(width, inner), stroke, nil, 0)
		return
	}
	show(p.rects.next(), at, size, fill, stroke, width)
}

// plate shows a rectangle that a text stands on: over all lines.
func (p *pool) plate(at fyne.Position, size fyne.Size, fill, stroke color.Color, width float32) {
	show(p.plates.next(), at, size, fill, stroke, width)
}

func show(r *canvas.Rectangle, at fyne.Position, size fyne.Size, fill, stroke color.Color, width float32) {
	if r.FillColor != fill || r.StrokeColor != stroke || r.StrokeWidth != width {
		r.FillColor, r.StrokeColor, r.StrokeWidth = fill, stroke, width
		r.Refresh()
	}
	r.Move(at)
	r.Resize(size)
	r.Show()
}

// line shows a straight line.
func (p *pool) line(a, b fyne.Position, c color.Color, width float32) {
	l := p.lines.next()
	if l.Position1 != a || l.Position2 != b || l.StrokeColor != c || l.StrokeWidth != width || l.Hidden {
		l.Position1, l.Position2, l.StrokeColor, l.StrokeWidth, l.Hidden = a, b, c, width, false
		l.Refresh()
	}
}

// path shows a polyline; what is far outside the size is left out, so that a
// zoomed-in line does not reach for coordinates that no driver holds.
func (p *pool) path(points []fyne.Position, c color.Color, width float32, size fyne.Size) {
	for i := 1; i < len(points); i++ {
		if a, b, ok := clip(points[i-1], points[i], size); ok {
			p.line(a, b, c, width)
		}
	}
}

// ring shows an empty circle about a place.
func (p *pool) ring(at fyne.Position, radius float32, c color.Color, width float32) {
	o := p.circles.next()
	if o.StrokeColor != c || o.StrokeWidth != width {
		o.StrokeColor, o.StrokeWidth = c, width
		o.Refresh()
	}
	o.Move(at.SubtractXY(radius, radius))
	o.Resize(fyne.NewSquareSize(2 * radius))
	o.Show()
}

// square shows an empty square about a place.
func (p *pool) square(at fyne.Position, half float32, fill, c color.Color, width float32) {
	p.rect(at.SubtractXY(half, half), fyne.NewSquareSize(2*half), fill, c, width)
}

// text shows a line of text with its upper left corner at a place.
func (p *pool) text(s string, at fyne.Position, c color.Color, size float32) {
	p.styled(s, at, c, size, fyne.TextStyle{})
}

func (p *pool) styled(s string, at fyne.Position, c color.Color, size float32, style fyne.TextStyle) {
	t := p.texts.next()
	if t.Text != s || t.Color != c || t.TextSize != size || t.TextStyle != style {
		t.Text, t.Color, t.TextSize, t.TextStyle = s, c, size, style
		t.Refresh()
	}
	t.Move(at)
	t.Resize(t.MinSize())
	t.Show()
}

// clip cuts a line to the size with a margin around it.
func clip(a, b fyne.Position, size fyne.Size) (fyne.Position, fyne.Position, bool) {
	const room = 50
	x0, y0, x1, y1 := float64(a.X), float64(a.Y), float64(b.X), float64(b.Y)
	from, to := 0.0, 1.0
	for _, e := range [4][2]float64{
		{x0 - x1, x0 + room}, {x1 - x0, float64(size.Width) + room - x0},
		{y0 - y1, y0 + room}, {y1 - y0, float64(size.Height) + room - y0},
	} {
		switch d, q := e[0], e[1]; {
		case d == 0 && q < 0:
			return a, b, false
		case d < 0:
			from = math.Max(from, q/d)
		case d > 0:
			to = math.Min(to, q/d)
		}
	}
	if from > to {
		return a, b, false
	}
	at := func(t float64) fyne.Position {
		return fyne.NewPos(float32(x0+t*(x1-x0)), float32(y0+t*(y1-y0)))
	}
	return at(from), at(to), true
}
