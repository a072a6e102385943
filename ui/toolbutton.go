package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

var (
	_ fyne.Tappable     = (*toolButton)(nil)
	_ fyne.Focusable    = (*toolButton)(nil)
	_ desktop.Hoverable = (*toolButton)(nil)
)

// toolButton is one tool of the tray: its drawing, its name and its key.
type toolButton struct {
	widget.BaseWidget
	tapped               func()
	on, hovered, focused bool
	ground               *canvas.Rectangle
	bar                  *canvas.Rectangle
	content              *fyne.Container
	name                 *widget.Label
}

func newToolButton(name, key string, icon fyne.Resource, tapped func()) *toolButton {
	b := &toolButton{tapped: tapped, ground: canvas.NewRectangle(nil), bar: canvas.NewRectangle(nil), name: widget.NewLabel(name)}
	letter := small(key)
	letter.Importance = widget.LowImportance
	b.content = container.NewBorder(nil, nil, container.NewPadded(widget.NewIcon(icon)), letter, b.name)
	b.ExtendBaseWidget(b)
	return b
}

func (b *toolButton) setOn(on bool) {
	if b.on == on {
		return
	}
	b.on = on
	b.name.TextStyle.Bold = on
	b.name.Refresh()
	b.Refresh()
}

// Tapped implements fyne.Tappable.
func (b *toolButton) Tapped(*fyne.PointEvent) { b.tapped() }

// FocusGained implements fyne.Focusable.
func (b *toolButton) FocusGained() { b.focused = true; b.Refresh() }

// FocusLost implements fyne.Focusable.
func (b *toolButton) FocusLost() { b.focused = false; b.Refresh() }

// TypedRune implements fyne.Focusable.
func (b *toolButton) TypedRune(rune) {}

// TypedKey implements fyne.Focusable.
func (b *toolButton) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		b.tapped()
	}
}

// MouseIn implements desktop.Hoverable.
func (b *toolButton) MouseIn(*desktop.MouseEvent) { b.hovered = true; b.Refresh() }

// MouseMoved implements desktop.Hoverable.
func (b *toolButton) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (b *toolButton) MouseOut() { b.hovered = false; b.Refresh() }

func (b *toolButton) paint() {
	th, v := b.Theme(), fyne.CurrentApp().Settings().ThemeVariant()
	b.ground.FillColor, b.ground.StrokeWidth = th.Color(theme.ColorNameHeaderBackground, v), 0
	b.ground.CornerRadius = 3
	b.bar.FillColor = th.Color(theme.ColorNameHeaderBackground, v)
	if b.on {
		b.ground.FillColor = th.Color(theme.ColorNameInputBackground, v)
		b.bar.FillColor = th.Color(theme.ColorNamePrimary, v)
	} else if b.hovered {
		b.ground.FillColor = th.Color(theme.ColorNameHover, v)
	}
	if b.focused {
		b.ground.StrokeColor, b.ground.StrokeWidth = th.Color(theme.ColorNamePrimary, v), 1.5
	}
}

// CreateRenderer implements fyne.Widget.
func (b *toolButton) CreateRenderer() fyne.WidgetRenderer {
	b.paint()
	return &toolRenderer{b, []fyne.CanvasObject{b.ground, b.bar, b.content}}
}

type toolRenderer struct {
	button  *toolButton
	objects []fyne.CanvasObject
}

func (r *toolRenderer) Destroy()                     {}
func (r *toolRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *toolRenderer) MinSize() fyne.Size           { return r.button.content.MinSize() }

func (r *toolRenderer) Layout(size fyne.Size) {
	r.button.ground.Resize(size)
	r.button.bar.Resize(fyne.NewSize(3, size.Height))
	r.button.content.Resize(size)
}

func (r *toolRenderer) Refresh() {
	r.button.paint()
	r.button.ground.Refresh()
	r.button.bar.Refresh()
}
