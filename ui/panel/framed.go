package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Framed draws the border of an entry around a list to choose from, which has
// none of its own: on a pale ground it could hardly be told from it.
func Framed(o fyne.CanvasObject) *fyne.Container { return container.NewStack(o, newFrame()) }

// Ring is a clear line round a button that has the focus; Fyne only tints it,
// which is hard to see on a coloured button or outdoors.
type Ring struct{ *frame }

// NewRing returns a ring that does not show yet.
func NewRing() Ring {
	r := Ring{newFrame()}
	r.focus = true
	r.Hide()
	return r
}

// Button is a button with a ring while it has the focus.
type Button struct {
	widget.Button
	// OnFocus is called when the keyboard comes here, to bring it into view.
	OnFocus func(fyne.CanvasObject)
	ring    Ring
	whole   string // see breaks
}

// NewButton returns a button; Object is what goes into a container.
func NewButton(text string, tapped func()) *Button {
	b := &Button{ring: NewRing()}
	b.Text, b.OnTapped = text, tapped
	b.ExtendBaseWidget(b)
	return b
}

// Object returns the button with its ring.
func (b *Button) Object() fyne.CanvasObject { return container.NewStack(b, b.ring) }

// FocusGained implements fyne.Focusable.
func (b *Button) FocusGained() {
	b.Button.FocusGained()
	b.ring.Show()
	if b.OnFocus != nil {
		b.OnFocus(b)
	}
}

// TypedKey implements fyne.Focusable: Return presses, as Space does.
func (b *Button) TypedKey(e *fyne.KeyEvent) {
	switch {
	case PassKey(b, e):
	case e.Name == fyne.KeyReturn, e.Name == fyne.KeyEnter:
		b.Button.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	default:
		b.Button.TypedKey(e)
	}
}

// TypedRune implements fyne.Focusable.
func (b *Button) TypedRune(r rune) { PassRune(b, r) }

// FocusLost implements fyne.Focusable.
func (b *Button) FocusLost() {
	b.Button.FocusLost()
	b.ring.Hide()
}

// under sets a list below its caption, closer than the caption's own padding
// would, and in line with the caption's words.
type under struct{}

// MinSize implements fyne.Layout.
func (under) MinSize(o []fyne.CanvasObject) fyne.Size {
	h := -float32(tuck) / 2
	for _, c := range o {
		if c.Visible() {
			h += c.MinSize().Height
		}
	}
	return fyne.NewSize(pairLeast, h)
}

// Layout implements fyne.Layout.
func (under) Layout(o []fyne.CanvasObject, size fyne.Size) {
	y, left := float32(0), theme.Size(theme.SizeNameInnerPadding)
	for i, c := range o {
		if !c.Visible() {
			continue
		}
		x := left
		if i == 0 { // the caption is padded already
			x = 0
		}
		h := c.MinSize().Height
		c.Move(fyne.NewPos(x, y))
		c.Resize(fyne.NewSize(size.Width-x, h))
		y += h
		if i == 0 {
			y -= tuck / 2
		}
	}
}

// snug stacks sentences closer than their own padding would.
type snug struct{}

func (snug) gap(o []fyne.CanvasObject, i int) float32 {
	_, label := o[i].(*widget.Label)
	if i > 0 && label {
		if _, before := o[i-1].(*widget.Label); before {
			return -tuck
		}
	}
	return 0
}

// MinSize implements fyne.Layout.
func (l snug) MinSize(o []fyne.CanvasObject) fyne.Size {
	w, h := float32(0), float32(0)
	for i, c := range o {
		m := c.MinSize()
		w, h = max(w, m.Width), h+m.Height+l.gap(o, i)
	}
	return fyne.NewSize(w, h)
}

// Layout implements fyne.Layout.
func (l snug) Layout(o []fyne.CanvasObject, size fyne.Size) {
	y := float32(0)
	for i, c := range o {
		y += l.gap(o, i)
		keepUnits(c, size.Width)
		c.Move(fyne.NewPos(0, y))
		c.Resize(fyne.NewSize(size.Width, c.MinSize().Height))
		// A label knows its wrapped height once it has its width.
		if h := c.MinSize().Height; h != c.Size().Height {
			c.Resize(fyne.NewSize(size.Width, h))
		}
		y += c.Size().Height
	}
}
