package ui

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"duskwire/layout/tool"
	"duskwire/ui/panel"
)

// standLines are the keys of the standing view, for the list of keys.
func standLines() []tool.KeyLine {
	return []tool.KeyLine{
		{Keys: "← → ↑ ↓", What: "Look round by 5°, up and down by 3°; with Shift by 1°; so does a drag"},
		{Keys: "+ −", What: "Look closer, wider; so does the wheel"},
		{Keys: "PgUp PgDn", What: "The eye point before, the next one"},
		{Keys: "Return", What: "Keep where it looks now"},
		{Keys: "Esc", What: "Back to the plan"},
	}
}

// standView is the picture of the standing view. It has the keyboard like the plan
// has.
type standView struct {
	widget.BaseWidget
	of     *standing
	raster *canvas.Raster
	ring   panel.Ring
	img    *image.RGBA
}

func newStandView(of *standing) *standView {
	v := &standView{of: of, ring: panel.NewRing()}
	v.raster = canvas.NewRaster(func(w, h int) image.Image {
		if v.img == nil {
			out := image.NewRGBA(image.Rect(0, 0, 1, 1))
			out.Set(0, 0, color.Black)
			return out
		}
		return v.img
	})
	v.ExtendBaseWidget(v)
	return v
}

// CreateRenderer implements fyne.Widget.
func (v *standView) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.NewStack(v.raster, v.ring))
}

// MinSize implements fyne.Widget.
func (v *standView) MinSize() fyne.Size { return fyne.NewSize(160, 90) }

// Resize implements fyne.Widget.
func (v *standView) Resize(size fyne.Size) {
	if size != v.Size() {
		v.BaseWidget.Resize(size)
		v.of.ask()
	}
}

// pixels is the size of the picture, at most about so many that it stays quick.
func (v *standView) pixels() (w, h int) {
	const most = 900_000
	scale := float64(1)
	if c := fyne.CurrentApp().Driver().CanvasForObject(v); c != nil {
		scale = float64(c.Scale())
	}
	x, y := float64(v.Size().Width)*scale, float64(v.Size().Height)*scale
	if n := x * y; n > most {
		k := math.Sqrt(most / n)
		x, y = x*k, y*k
	}
	return int(x), int(y)
}

func (v *standView) show(img *image.RGBA) {
	v.img = img
	v.raster.Refresh()
}

// TypedKey implements fyne.Focusable.
func (v *standView) TypedKey(e *fyne.KeyEvent) {
	turn, tilt := 5.0, 3.0
	if modifiers().Shift {
		turn, tilt = 1, 1
	}
	switch e.Name {
	case fyne.KeyLeft:
		v.of.turn(-turn, 0)
	case fyne.KeyRight:
		v.of.turn(turn, 0)
	case fyne.KeyUp:
		v.of.turn(0, tilt)
	case fyne.KeyDown:
		v.of.turn(0, -tilt)
	case fyne.KeyPageUp:
		v.of.next(-1)
	case fyne.KeyPageDown:
		v.of.next(1)
	case fyne.KeyReturn, fyne.KeyEnter:
		v.of.keep()
	case fyne.KeyEscape:
		v.of.win.focusPlan()
	default:
		panel.PassKey(v, e)
	}
}

// TypedRune implements fyne.Focusable.
func (v *standView) TypedRune(r rune) {
	switch r {
	case '+', '=':
		v.of.widen(1 / 1.2)
	case '-', '_':
		v.of.widen(1.2)
	default:
		panel.PassRune(v, r)
	}
}

// FocusGained implements fyne.Focusable.
func (v *standView) FocusGained() { v.ring.Show() }

// FocusLost implements fyne.Focusable.
func (v *standView) FocusLost() { v.ring.Hide() }

// Tapped implements fyne.Tappable.
func (v *standView) Tapped(*fyne.PointEvent) { v.of.win.win.Canvas().Focus(v) }

// Dragged implements fyne.Draggable: what is seen goes with the pointer.
func (v *standView) Dragged(e *fyne.DragEvent) {
	k := v.of.eye.Field / float64(max(v.Size().Width, 1))
	v.of.turn(-float64(e.Dragged.DX)*k, float64(e.Dragged.DY)*k)
}

// DragEnd implements fyne.Draggable.
func (v *standView) DragEnd() {}

// Scrolled implements fyne.Scrollable.
func (v *standView) Scrolled(e *fyne.ScrollEvent) {
	switch {
	case e.Scrolled.DY > 0:
		v.of.widen(1 / 1.1)
	case e.Scrolled.DY < 0:
		v.of.widen(1.1)
	}
}
