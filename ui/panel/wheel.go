package panel

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

var _ fyne.Scrollable = (*wheel)(nil)

// wheel lies unseen over a text entry and hands on the turns of the wheel: an
// entry would keep them to itself, and the form under the pointer would stand
// still.
type wheel struct {
	widget.BaseWidget
	turned func(*fyne.ScrollEvent)
}

func newWheel(turned func(*fyne.ScrollEvent)) *wheel {
	w := &wheel{turned: turned}
	w.ExtendBaseWidget(w)
	return w
}

// Scrolled implements fyne.Scrollable.
func (w *wheel) Scrolled(e *fyne.ScrollEvent) { w.turned(e) }

// CreateRenderer implements fyne.Widget.
func (w *wheel) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(canvas.NewRectangle(color.Transparent))
}
