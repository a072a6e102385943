package ui

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"duskwire/ui/panel"
)

// cover lies over the whole window, dims it and shows one thing in its middle; what
// lies below gets neither pointer nor keys. The toolkit's own would draw round
// corners and a blurred shadow, for every point of a sheet that may be as large as
// the window: without a graphics card that alone held the window for 50 ms.
type cover struct {
	widget.BaseWidget
	Content fyne.CanvasObject
	over    fyne.Canvas
}

func newCover(content fyne.CanvasObject, over fyne.Canvas) *cover {
	c := &cover{Content: content, over: over}
	c.ExtendBaseWidget(c)
	return c
}

// Show puts the cover over everything else.
func (c *cover) Show() {
	c.over.Overlays().Add(c)
	c.BaseWidget.Show()
}

// Hide takes it away again, and whatever lies over it.
func (c *cover) Hide() {
	c.over.Overlays().Remove(c)
	c.BaseWidget.Hide()
}

// CreateRenderer implements fyne.Widget.
func (c *cover) CreateRenderer() fyne.WidgetRenderer {
	r := &coverRenderer{of: c, dim: panel.Bars(), edge: panel.Bars(), back: canvas.NewRectangle(nil)}
	for _, b := range append(r.dim, r.edge...) {
		r.objects = append(r.objects, b)
	}
	r.objects = append(r.objects, r.back, c.Content)
	r.paint()
	return r
}

// coverEdge is the line round what is shown.
const coverEdge = 1

type coverRenderer struct {
	of        *cover
	dim, edge []*canvas.Rectangle // round what is shown: nothing is drawn below it
	back      *canvas.Rectangle
	objects   []fyne.CanvasObject
}

func (r *coverRenderer) Destroy()                     {}
func (r *coverRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *coverRenderer) MinSize() fyne.Size           { return r.of.Content.MinSize() }

func (r *coverRenderer) paint() {
	th, v := r.of.Theme(), fyne.CurrentApp().Settings().ThemeVariant()
	for i := range r.dim {
		r.dim[i].FillColor = th.Color(theme.ColorNameShadow, v)
		r.edge[i].FillColor = th.Color(theme.ColorNameInputBorder, v)
	}
	r.back.FillColor = th.Color(theme.ColorNameOverlayBackground, v)
}

// Layout implements fyne.WidgetRenderer.
func (r *coverRenderer) Layout(size fyne.Size) {
	up, down := r.points(math.Ceil), r.points(math.Floor)
	inner := r.of.Content.MinSize()
	inner = fyne.NewSize(up(inner.Width), up(inner.Height)).Min(size)
	at := fyne.NewPos(down((size.Width-inner.Width)/2), down((size.Height-inner.Height)/2))
	for _, o := range []fyne.CanvasObject{r.back, r.of.Content} {
		o.Move(at)
		o.Resize(inner)
	}
	wide := up(coverEdge)
	from, whole := at.SubtractXY(wide, wide), inner.AddWidthHeight(2*wide, 2*wide)
	panel.LayBars(r.edge, from, whole, wide)
	panel.LayAround(r.dim, fyne.Position{}, size, from, whole)
}

// points rounds a length to whole points of the screen. The toolkit rounds the place
// and the size of a rectangle apart: parts that meet within a point would leave a
// light line between them or overlap in a dark one.
func (r *coverRenderer) points(round func(float64) float64) func(float32) float32 {
	scale := float64(r.of.over.Scale())
	if scale <= 0 { // not shown yet
		scale = 1
	}
	const rest = 1.0 / 1024 // what float32 leaves of a whole number is no point more or less
	return func(v float32) float32 {
		points := float64(v) * scale
		if near := math.Round(points); math.Abs(points-near) < rest {
			points = near
		}
		return float32(round(points) / scale)
	}
}

// Refresh implements fyne.WidgetRenderer.
func (r *coverRenderer) Refresh() {
	r.paint()
	r.Layout(r.of.Size())
	for _, o := range r.objects {
		o.Refresh()
	}
}
