package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"duskwire/ui/panel"
)

var (
	_ fyne.Tappable     = (*toolButton)(nil)
	_ fyne.Focusable    = (*toolButton)(nil)
	_ desktop.Hoverable = (*toolButton)(nil)
)

// toolButton is one tool of the tray, or one view: its drawing, its name and its
// key. A bare one shows the drawing alone and tells the rest in its tip.
type toolButton struct {
	widget.BaseWidget
	tapped               func()
	on, hovered, focused bool
	ground               *canvas.Rectangle
	bar                  *canvas.Rectangle
	content              *fyne.Container
	name, letter         *widget.Label
	ring                 panel.Ring
	onFocus              func(fyne.CanvasObject) // brings it into view
	tips                 *panel.Tips
	tip                  panel.Tip
}

func newToolButton(name, key string, icon fyne.Resource, tapped func()) *toolButton {
	b := &toolButton{tapped: tapped, ground: canvas.NewRectangle(nil), bar: canvas.NewRectangle(nil), name: widget.NewLabel(name),
		letter: small(key), ring: panel.NewRing(), tip: panel.Tip{Head: name + "   " + key}}
	b.letter.Importance = widget.LowImportance
	b.content = container.NewBorder(nil, nil, container.NewPadded(panel.NewIcon(icon)), b.letter, b.name)
	b.ExtendBaseWidget(b)
	return b
}

// setTip says what the tip tells below name and key.
func (b *toolButton) setTip(tips *panel.Tips, what string) {
	b.tips, b.tip.Source = tips, what
}

// setBare leaves the drawing alone, or shows name and key beside it.
func (b *toolButton) setBare(bare bool) {
	b.name.Hidden, b.letter.Hidden = bare, bare
	b.Refresh()
}

// setKeyless leaves the key to the tip.
func (b *toolButton) setKeyless(keyless bool) {
	b.letter.Hidden = keyless
	b.Refresh()
}

func (b *toolButton) over() { b.tips.Over(b, func() panel.Tip { return b.tip }) }

func (b *toolButton) setOn(on bool) {
	if b.on == on {
		return
	}
	b.on = on
	b.name.TextStyle.Bold = on
	b.name.Refresh()
	b.shade()
}

// Tapped implements fyne.Tappable.
func (b *toolButton) Tapped(*fyne.PointEvent) {
	b.tips.Hide()
	b.tapped()
}

// FocusGained implements fyne.Focusable.
func (b *toolButton) FocusGained() {
	b.focused = true
	b.ring.Show()
	b.shade()
	if b.onFocus != nil {
		b.onFocus(b)
	}
	b.over()
}

// FocusLost implements fyne.Focusable.
func (b *toolButton) FocusLost() {
	b.focused = false
	b.ring.Hide()
	b.shade()
	b.tips.Off(b)
}

// TypedRune implements fyne.Focusable.
func (b *toolButton) TypedRune(r rune) { panel.PassRune(b, r) }

// TypedKey implements fyne.Focusable.
func (b *toolButton) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		b.tips.Hide()
		b.tapped()
	default:
		panel.PassKey(b, e)
	}
}

// MouseIn implements desktop.Hoverable.
func (b *toolButton) MouseIn(*desktop.MouseEvent) { b.hovered = true; b.shade(); b.over() }

// MouseMoved implements desktop.Hoverable.
func (b *toolButton) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (b *toolButton) MouseOut() { b.hovered = false; b.shade(); b.tips.Off(b) }

// shade shows whether the button is on or under the pointer.
func (b *toolButton) shade() {
	b.paint()
	b.ground.Refresh()
	b.bar.Refresh()
}

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
}

// CreateRenderer implements fyne.Widget.
func (b *toolButton) CreateRenderer() fyne.WidgetRenderer {
	b.paint()
	return &toolRenderer{b, []fyne.CanvasObject{b.ground, b.bar, b.content, b.ring}}
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
	r.button.ring.Resize(size)
}

func (r *toolRenderer) Refresh() {
	r.button.shade()
	r.button.content.Refresh()
	r.button.ring.Refresh()
}
