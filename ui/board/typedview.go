package board

import (
	"fyne.io/fyne/v2"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/tool"
)

// typedEdge is how far from the edge of the board a typed place is brought that lay
// outside.
const typedEdge = 60

// typedView has the view follow a place that is typed. Every character counts from
// the view as it was before the first, so that "100mm", which is a hundred metres on
// the way, leaves it where it was.
type typedView struct {
	on   bool
	from view // before the first character
	fit  bool
	set  view // as it was set last
	// The pointer stays on its place on the plan while the view moves below it: it may
	// be giving the direction.
	at      geom.Point
	pointer fyne.Position
}

// bringTyped pans the view to the place that what is typed leads to, when an event
// was typed: a pointer that moves, and a gesture, take the view nowhere.
func (b *Board) bringTyped(e tool.Event) {
	t := &b.typed
	o := b.session.Overlay()
	if o.Typed == "" || b.in.held != holdNone {
		b.endTyped(e)
		return
	}
	if e.Kind != tool.Rune && e.Kind != tool.Key {
		return
	}
	if !t.on || t.set != b.view || t.pointer != b.in.pointer {
		if !t.on || t.set != b.view {
			t.from, t.fit, t.set = b.view, b.fit, b.view
		}
		t.on, t.at, t.pointer = true, e.At, b.in.pointer
	}
	switch {
	case o.Leads != nil && onPlan(*o.Leads):
		size := b.open()
		p := t.from.at(*o.Leads)
		b.lookTyped(t.from.panned(float64(into(p.X, size.Width)), float64(into(p.Y, size.Height))))
	case e.Kind == tool.Key: // refused, or a character taken back: nothing lies out there
		b.lookTyped(t.from)
	}
}

// onPlan reports whether a plan may reach as far as a point.
func onPlan(p geom.Point) bool {
	return max(p.X, p.Y, -p.X, -p.Y) <= doc.Far
}

// into returns the least way that brings a place which is not seen inside an edge.
func into(at, size float32) float32 {
	edge := min(typedEdge, size/4)
	switch {
	case at < 0:
		return edge - at
	case at > size:
		return size - edge - at
	}
	return 0
}

// endTyped ends what was typed: taken by Return it leaves the view where it is, taken
// back it leaves it where it was.
func (b *Board) endTyped(e tool.Event) {
	t := b.typed
	if !t.on {
		return
	}
	back := e.Kind == tool.Key && e.Key != tool.KeyReturn
	if back && t.set == b.view {
		b.lookTyped(t.from)
	}
	b.typed = typedView{}
	if !back && t.set == b.view && t.set != t.from && b.in.held == holdNone {
		b.showHint() // the pointer is over another place now
	}
}

// lookTyped moves the view without a change of scale.
func (b *Board) lookTyped(v view) {
	t := &b.typed
	t.set = v
	if v == b.view {
		return
	}
	b.fit = v == t.from && t.fit
	b.view = v
	if b.in.keyed {
		b.in.pointer = v.at(b.in.at)
		t.pointer = b.in.pointer
	}
	b.base.follow()
	b.viewed()
}

// place returns where the pointer is on the plan while something is typed.
func (t *typedView) place(b *Board) (geom.Point, bool) {
	return t.at, t.on && t.set == b.view && t.pointer == b.in.pointer
}

// typed shows what is being typed, over the place, larger, and framed like a field;
// under it at the upper edge, and clear of the note, which has a top and a bottom.
func (o *over) typed(text string, at fyne.Position, top, bottom float32) {
	const frame, gap = 3, 6
	board := o.board.Size()
	text = typedEnd(text, board.Width-16)
	size := fyne.MeasureText(text, typedSize, fyne.TextStyle{})
	at = at.AddXY(14, -14-size.Height)
	at.X = max(8, min(at.X, board.Width-size.Width-8))
	if at.Y < 6 {
		at.Y += size.Height + 28
	}
	at.Y = max(6, min(at.Y, board.Height-size.Height-6)) // the place may lie out of sight
	if at.Y-frame < bottom && at.Y+size.Height+frame > top {
		if at.Y = top - gap - frame - size.Height; at.Y < 6 {
			at.Y = bottom + gap + frame
		}
	}
	o.pool.plate(at.SubtractXY(6, frame), size.AddWidthHeight(12, 2*frame), o.paper, o.mark, 2)
	o.pool.text(text, at, o.ink, typedSize)
}

// typedEnd returns as much of the end of what is typed, where the caret is, as fits a
// width.
func typedEnd(text string, width float32) string {
	end := []rune(text)
	for fyne.MeasureText(text, typedSize, fyne.TextStyle{}).Width > width && len(end) > 1 {
		end = end[1:]
		text = "…" + string(end)
	}
	return text
}
