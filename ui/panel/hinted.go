package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

var (
	_ fyne.Focusable    = (*Hinted)(nil)
	_ fyne.Disableable  = (*Hinted)(nil)
	_ desktop.Hoverable = (*Hinted)(nil)
)

// Hinted is something with a tip: a figure whose working shows while the
// pointer or the keyboard is on it. Without a tip the keyboard passes it by.
type Hinted struct {
	widget.BaseWidget
	// Of makes the tip; nil for none.
	Of func() Tip
	// OnFocus is called when the keyboard comes here, to bring it into view.
	OnFocus func(fyne.CanvasObject)

	tips    func() *Tips
	content fyne.CanvasObject
	ring    Ring
}

// NewHinted returns the content with a tip, which tips shows.
func NewHinted(content fyne.CanvasObject, tips func() *Tips, of func() Tip) *Hinted {
	h := &Hinted{tips: tips, Of: of, content: content, ring: NewRing()}
	h.ExtendBaseWidget(h)
	return h
}

// MouseIn implements desktop.Hoverable.
func (h *Hinted) MouseIn(*desktop.MouseEvent) { h.tips().Over(h, h.Of) }

// MouseMoved implements desktop.Hoverable.
func (h *Hinted) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (h *Hinted) MouseOut() { h.tips().Off(h) }

// FocusGained implements fyne.Focusable.
func (h *Hinted) FocusGained() {
	h.ring.Show()
	canvas.Refresh(h) // the canvas does not know a ring that it never drew
	if h.OnFocus != nil {
		h.OnFocus(h)
	}
	h.tips().Over(h, h.Of)
}

// FocusLost implements fyne.Focusable.
func (h *Hinted) FocusLost() {
	h.ring.Hide()
	canvas.Refresh(h)
	h.tips().Off(h)
}

// TypedRune implements fyne.Focusable.
func (h *Hinted) TypedRune(r rune) { PassRune(h, r) }

// TypedKey implements fyne.Focusable.
func (h *Hinted) TypedKey(e *fyne.KeyEvent) { PassKey(h, e) }

// Disabled implements fyne.Disableable: what has no tip is no stop for Tab.
func (h *Hinted) Disabled() bool { return h.Of == nil }

// Enable implements fyne.Disableable.
func (h *Hinted) Enable() {}

// Disable implements fyne.Disableable.
func (h *Hinted) Disable() {}

// CreateRenderer implements fyne.Widget.
func (h *Hinted) CreateRenderer() fyne.WidgetRenderer {
	return &hintedRenderer{h, []fyne.CanvasObject{h.content, h.ring}}
}

type hintedRenderer struct {
	of      *Hinted
	objects []fyne.CanvasObject
}

func (r *hintedRenderer) Destroy()                     {}
func (r *hintedRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *hintedRenderer) MinSize() fyne.Size           { return r.of.content.MinSize() }

func (r *hintedRenderer) Layout(size fyne.Size) {
	r.of.content.Resize(size)
	r.of.ring.Resize(size)
}

func (r *hintedRenderer) Refresh() {
	r.of.content.Refresh()
	r.of.ring.Refresh()
}
