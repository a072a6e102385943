package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// Backdrop is a plain area in a colour of the theme, to lie behind something.
type Backdrop struct {
	widget.BaseWidget
	name fyne.ThemeColorName
	rect *canvas.Rectangle
}

// NewBackdrop returns an area in the named colour.
func NewBackdrop(name fyne.ThemeColorName) *Backdrop {
	g := &Backdrop{name: name, rect: canvas.NewRectangle(nil)}
	g.ExtendBaseWidget(g)
	return g
}

// CreateRenderer implements fyne.Widget.
func (g *Backdrop) CreateRenderer() fyne.WidgetRenderer {
	g.paint()
	return &groundRenderer{widget.NewSimpleRenderer(g.rect), g}
}

func (g *Backdrop) paint() {
	g.rect.FillColor = g.Theme().Color(g.name, fyne.CurrentApp().Settings().ThemeVariant())
}

type groundRenderer struct {
	fyne.WidgetRenderer
	ground *Backdrop
}

func (r *groundRenderer) Refresh() {
	r.ground.paint()
	r.ground.rect.Refresh()
}
