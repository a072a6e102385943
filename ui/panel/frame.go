package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// frame is an empty rectangle in the colour of the entries' borders.
type frame struct {
	widget.BaseWidget
	rect  *canvas.Rectangle
	inner *canvas.Rectangle   // the other colour of a ring
	bars  []*canvas.Rectangle // of a large one, in place of the rectangles
	focus bool                // shows where the keyboard is
}

// A ring is a line in one colour with a thinner one in another inside it, so
// that it stands out on a pale ground and on a coloured button alike.
const ringWidth, ringInner = 2, 1

// frameLarge is the height from which a frame is made of bars and has no round
// corners: what lies inside a rectangle is drawn too, point by point, though nothing
// of it is seen.
const frameLarge = 80

func newFrame() *frame {
	f := &frame{rect: canvas.NewRectangle(nil), inner: canvas.NewRectangle(nil)}
	f.ExtendBaseWidget(f)
	return f
}

func (f *frame) paint() {
	th, v := f.Theme(), fyne.CurrentApp().Settings().ThemeVariant()
	f.rect.StrokeColor = th.Color(theme.ColorNameInputBorder, v)
	f.rect.StrokeWidth = th.Size(theme.SizeNameInputBorder)
	f.rect.CornerRadius = th.Size(theme.SizeNameInputRadius)
	if f.focus {
		f.rect.StrokeColor, f.rect.StrokeWidth = th.Color(ColourRing, v), ringWidth
		f.inner.StrokeColor, f.inner.StrokeWidth = th.Color(ColourRingInner, v), ringInner
		f.inner.CornerRadius = f.rect.CornerRadius
	}
	for i, b := range f.bars {
		b.FillColor = f.rect.StrokeColor
		if i >= 4 {
			b.FillColor = f.inner.StrokeColor
		}
	}
}

// CreateRenderer implements fyne.Widget.
func (f *frame) CreateRenderer() fyne.WidgetRenderer {
	objects := []fyne.CanvasObject{f.rect}
	f.bars = Bars()
	if f.focus {
		objects = append(objects, f.inner)
		f.bars = append(f.bars, Bars()...)
	}
	for _, b := range f.bars {
		objects = append(objects, b)
	}
	f.paint()
	return &frameRenderer{f, objects}
}

type frameRenderer struct {
	frame   *frame
	objects []fyne.CanvasObject
}

func (r *frameRenderer) Destroy()                     {}
func (r *frameRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *frameRenderer) MinSize() fyne.Size           { return fyne.Size{} }

// Layout implements fyne.WidgetRenderer.
func (r *frameRenderer) Layout(size fyne.Size) {
	f := r.frame
	f.rect.Resize(size)
	f.inner.Move(fyne.NewPos(ringWidth, ringWidth))
	f.inner.Resize(size.SubtractWidthHeight(2*ringWidth, 2*ringWidth))
	large := size.Height >= frameLarge
	f.rect.Hidden, f.inner.Hidden = large, large
	for _, b := range f.bars {
		b.Hidden = !large
	}
	LayBars(f.bars[:4], fyne.NewPos(0, 0), size, f.rect.StrokeWidth)
	if f.focus {
		LayBars(f.bars[4:], f.inner.Position(), f.inner.Size(), ringInner)
	}
}

// Bars returns the four sides of a frame, see LayBars.
func Bars() []*canvas.Rectangle {
	bars := make([]*canvas.Rectangle, 4)
	for i := range bars {
		bars[i] = canvas.NewRectangle(nil)
	}
	return bars
}

// LayBars lays four bars along the edges of a rectangle, inside it. They do not
// overlap.
func LayBars(bars []*canvas.Rectangle, at fyne.Position, size fyne.Size, wide float32) {
	LayAround(bars, at, size, at.AddXY(wide, wide), size.SubtractWidthHeight(2*wide, 2*wide))
}

// LayAround lays four bars over what of an outer rectangle is not in an inner one.
// They do not overlap.
func LayAround(bars []*canvas.Rectangle, at fyne.Position, size fyne.Size, in fyne.Position, inner fyne.Size) {
	right, low := in.X+inner.Width, in.Y+inner.Height
	set := func(i int, x, y, toX, toY float32) {
		bars[i].Move(fyne.NewPos(x, y))
		bars[i].Resize(fyne.NewSize(max(0, toX-x), max(0, toY-y)))
	}
	set(0, at.X, at.Y, at.X+size.Width, in.Y)
	set(1, at.X, low, at.X+size.Width, at.Y+size.Height)
	set(2, at.X, in.Y, in.X, low)
	set(3, right, in.Y, at.X+size.Width, low)
}

// Refresh implements fyne.WidgetRenderer.
func (r *frameRenderer) Refresh() {
	r.frame.paint()
	for _, o := range r.objects {
		o.Refresh()
	}
}
