package board

import (
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/tool"
)

const (
	// pickUnits is the pick radius around the pointer.
	pickUnits = 10
	// A second press this soon and this near makes a double click.
	doubleTime  = 400 * time.Millisecond
	doubleUnits = 5
	// A right press that moves no further than this asks for the menu.
	menuUnits = 4
)

// hold is what the pressed button does.
type hold int

const (
	holdNone hold = iota
	holdLeft      // the tool has it
	holdPan       // the plan moves
)

// input is what is known of pointer and keyboard.
type input struct {
	pointer fyne.Position
	inside  bool
	keyed   bool // the pointer was moved by keys
	focused bool

	at    geom.Point   // where keys have put it
	step  geom.Length  // by so much, 0 by a jump
	jumps []geom.Point // where it was, and where it can jump to from there
	jump  int          // the one that it is on

	held   hold
	button desktop.MouseButton
	from   fyne.Position // where the button went down
	abs    fyne.Position // the same, in the window
	moved  bool          // further than a click

	lastPress time.Time
	lastAt    fyne.Position
	clicks    int

	space     bool // the space bar is down
	spaceUsed bool // and was used for something else than a click

	ring doc.ID // what the ring of the keyboard is on, see ringed
}

// MouseDown implements desktop.Mouseable.
func (b *Board) MouseDown(e *desktop.MouseEvent) {
	b.grabFocus()
	in := &b.in
	if in.held != holdNone {
		return // a second button in a gesture means nothing
	}
	in.pointer, in.inside, in.keyed = e.Position, true, false
	in.button, in.from, in.abs, in.moved = e.Button, e.Position, e.AbsolutePosition, false
	b.rest.off()
	b.marked, b.typed = "", typedView{} // a click is where it is seen
	if e.Button != desktop.MouseButtonPrimary || in.space {
		in.held, in.spaceUsed = holdPan, true
		b.showOver()
		return
	}
	in.held, in.ring = holdLeft, ""
	b.count(e.Position)
	b.send(tool.Event{Kind: tool.Down, Button: tool.LeftButton, Mods: b.modsOf(e), Clicks: in.clicks})
}

// count works out whether a press is the second of a double click. Fyne's own
// double tap would hold every single click back for 300 ms.
func (b *Board) count(at fyne.Position) {
	in := &b.in
	now := b.cfg.Now()
	if in.clicks == 1 && now.Sub(in.lastPress) <= doubleTime && near(at, in.lastAt, doubleUnits) {
		in.clicks = 2
	} else {
		in.clicks = 1
	}
	in.lastPress, in.lastAt = now, at
}

func near(a, b fyne.Position, units float64) bool {
	return math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y)) <= units
}

// MouseUp implements desktop.Mouseable. It does not come when the button is
// let go outside the board; DragEnd and MouseMoved make up for that.
func (b *Board) MouseUp(e *desktop.MouseEvent) {
	if b.in.held == holdNone || e.Button != b.in.button {
		return
	}
	b.in.pointer = e.Position
	b.release(b.modsOf(e))
}

// release ends what the held button did, at the pointer.
func (b *Board) release(mods tool.Modifiers) {
	was := b.in.held
	b.in.held = holdNone
	switch was {
	case holdLeft:
		b.send(tool.Event{Kind: tool.Up, Button: tool.LeftButton, Mods: mods, Clicks: b.in.clicks})
	case holdPan:
		if b.base.moved() {
			b.base.redraw()
		}
		b.showOver()
		if !b.in.moved && b.in.button == desktop.MouseButtonSecondary {
			b.menu(b.in.abs)
		}
	}
}

// menu selects what lies under the pointer and asks the window for the menu.
func (b *Board) menu(at fyne.Position) {
	if b.frame == nil || b.cfg.OnMenu == nil {
		return
	}
	var id doc.ID
	if s := b.session.Scheme(); s != nil {
		id = tool.Pick(s, b.view.plan(b.in.pointer), b.view.length(pickUnits)).ID
	}
	if id != "" && !contains(b.session.Selection(), id) {
		b.Select(id)
	}
	b.cfg.OnMenu(id, at)
}

// Dragged implements fyne.Draggable. The event carries no button and no
// modifiers: the button is the one that went down.
func (b *Board) Dragged(e *fyne.DragEvent) {
	b.moveTo(e.Position)
}

// DragEnd implements fyne.Draggable. Inside the board MouseUp has done the
// work already; outside it this is all that comes, after the focus was lost.
func (b *Board) DragEnd() {
	if b.in.held != holdNone {
		b.release(b.modifiers())
		b.grabFocus()
	}
}

// MouseIn implements desktop.Hoverable.
func (b *Board) MouseIn(e *desktop.MouseEvent) { b.MouseMoved(e) }

// MouseMoved implements desktop.Hoverable.
func (b *Board) MouseMoved(e *desktop.MouseEvent) {
	b.in.inside, b.in.keyed = true, false
	if b.in.held != holdNone && e.Button&b.in.button == 0 {
		// The button was let go where nobody told us.
		b.release(b.modifiers())
	}
	b.moveTo(e.Position)
}

// MouseOut implements desktop.Hoverable.
func (b *Board) MouseOut() {
	b.in.inside = false
	b.rest.off()
	b.showOver()
	b.tell()
}

// moveTo takes the pointer to a place: the plan or the tool follows.
func (b *Board) moveTo(p fyne.Position) {
	in := &b.in
	d := p.Subtract(in.pointer)
	in.pointer = p
	in.moved = in.moved || !near(p, in.from, menuUnits)
	if in.held == holdPan {
		b.pan(d.X, d.Y)
		return
	}
	e := tool.Event{Kind: tool.Move, Mods: b.modifiers()}
	if in.held == holdLeft {
		e.Button = tool.LeftButton
	}
	b.send(e)
	b.rests()
}

// Scrolled implements fyne.Scrollable: the wheel zooms at the pointer, with
// Shift, which Fyne delivers as a sideways scroll, it pans.
func (b *Board) Scrolled(e *fyne.ScrollEvent) {
	const notch = 25 // of Fyne, one click of a wheel
	b.in.pointer = e.Position
	b.rest.off()
	if e.Scrolled.DX != 0 {
		b.pan(e.Scrolled.DX*2, 0)
	}
	if e.Scrolled.DY != 0 {
		b.zoom(e.Position, math.Pow(step, float64(e.Scrolled.DY)/notch))
	}
}

// Cursor implements desktop.Cursorable.
func (b *Board) Cursor() desktop.Cursor {
	switch {
	case b.in.held == holdPan || b.in.space:
		return desktop.DefaultCursor
	case b.session.Overlay().Grip:
		return desktop.PointerCursor
	case b.session.Tool().Name() != tool.NameSelect:
		return desktop.CrosshairCursor
	case b.session.Overlay().Hover != "":
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}

// modsOf returns the modifiers of a press: those of the event, and those the
// driver knows of.
func (b *Board) modsOf(e *desktop.MouseEvent) tool.Modifiers {
	m := b.modifiers()
	m.Shift = m.Shift || e.Modifier&fyne.KeyModifierShift != 0
	m.Control = m.Control || e.Modifier&fyne.KeyModifierControl != 0
	m.Alt = m.Alt || e.Modifier&fyne.KeyModifierAlt != 0
	return m
}

func contains(ids []doc.ID, id doc.ID) bool {
	for _, i := range ids {
		if i == id {
			return true
		}
	}
	return false
}
