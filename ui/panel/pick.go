package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// Pick is a list to choose from with a border, and a ring while it has the
// focus.
type Pick struct {
	widget.Select
	// OnFocus is called when the keyboard comes here, to bring it into view.
	OnFocus func(fyne.CanvasObject)
	// onRune is asked first what a letter is for.
	onRune  func(rune) bool
	pointed bool // see Pointed
	ring    Ring
}

// NewPick returns an empty list; Object is what goes into a container.
func NewPick() *Pick {
	p := &Pick{ring: NewRing()}
	p.ExtendBaseWidget(p)
	return p
}

// Object returns the list with its border and its ring.
func (p *Pick) Object() fyne.CanvasObject { return container.NewStack(Framed(p), p.ring) }

// Tapped implements fyne.Tappable.
func (p *Pick) Tapped(e *fyne.PointEvent) {
	p.pointed = true
	p.Select.Tapped(e)
}

// Pointed reports whether the list was opened with the mouse last, not by keys.
func (p *Pick) Pointed() bool { return p.pointed }

// FocusGained implements fyne.Focusable.
func (p *Pick) FocusGained() {
	p.Select.FocusGained()
	p.ring.Show()
	if p.OnFocus != nil {
		p.OnFocus(p)
	}
}

// FocusLost implements fyne.Focusable.
func (p *Pick) FocusLost() {
	p.Select.FocusLost()
	p.ring.Hide()
}

// TypedKey implements fyne.Focusable.
func (p *Pick) TypedKey(e *fyne.KeyEvent) {
	if !PassKey(p, e) {
		p.pointed = false
		p.Select.TypedKey(e)
	}
}

// TypedRune implements fyne.Focusable.
func (p *Pick) TypedRune(r rune) {
	if p.onRune == nil || !p.onRune(r) {
		PassRune(p, r)
	}
}

// tick is a yes or no with a ring while it has the focus.
type tick struct {
	widget.Check
	onFocus func(fyne.CanvasObject)
	ring    Ring
}

func newTick(text string, changed func(bool)) *tick {
	c := &tick{ring: NewRing()}
	c.Text, c.OnChanged = text, changed
	c.ExtendBaseWidget(c)
	return c
}

func (c *tick) object() fyne.CanvasObject { return container.NewStack(c, c.ring) }

// FocusGained implements fyne.Focusable.
func (c *tick) FocusGained() {
	c.Check.FocusGained()
	c.ring.Show()
	if c.onFocus != nil {
		c.onFocus(c)
	}
}

// FocusLost implements fyne.Focusable.
func (c *tick) FocusLost() {
	c.Check.FocusLost()
	c.ring.Hide()
}

// TypedKey implements fyne.Focusable.
func (c *tick) TypedKey(e *fyne.KeyEvent) {
	if !PassKey(c, e) {
		c.Check.TypedKey(e)
	}
}

// TypedRune implements fyne.Focusable: Space ticks.
func (c *tick) TypedRune(r rune) {
	c.Check.TypedRune(r)
	PassRune(c, r)
}
