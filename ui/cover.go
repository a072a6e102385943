package ui

import (
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
	inner := r.of.Content.MinSize().Min(size)
	at := fyne.NewPos((size.Width-inner.Width)/2, (size.Height-inner.Height)/2)
	for _, o := range []fyne.CanvasObject{r.back, r.of.Content} {
		o.Move(at)
		o.Resize(inner)
	}
	from, whole := at.SubtractXY(coverEdge, coverEdge), inner.AddWidthHeight(2*coverEdge, 2*coverEdge)
	panel.LayBars(r.edge, from, whole, coverEdge)
	panel.LayAround(r.dim, fyne.Position{}, size, from, whole)
}

// Refresh implements fyne.WidgetRenderer.
func (r *coverRenderer) Refresh() {
	r.paint()
	r.Layout(r.of.Size())
	for _, o := range r.objects {
		o.Refresh()
	}
}
