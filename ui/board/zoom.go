package board

import (
	"fyne.io/fyne/v2"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/tool"
)

// step is the enlargement of one notch of the wheel and one press of a key.
const step = 1.25

// ZoomIn enlarges the plan about the middle of the board.
func (b *Board) ZoomIn() { b.zoom(b.middle(), step) }

// ZoomOut makes the plan smaller about the middle of the board.
func (b *Board) ZoomOut() { b.zoom(b.middle(), 1/step) }

// ZoomFit shows the whole scheme, now and when the board changes its size,
// until the view is changed otherwise.
func (b *Board) ZoomFit() {
	b.fit = true
	if b.frame == nil || b.Size().Width < 1 {
		return
	}
	b.look(b.whole(b.everything()))
}

// everything is the rectangle around all that there is; an empty plan shows a garden's
// worth of grid, its origin lower left.
func (b *Board) everything() geom.Rect {
	r := doc.Bounds(b.frame.Scheme).Union(b.frame.Scheme.Plan.Underlay.Bounds())
	if r.Empty() {
		r = geom.Around(geom.Pt(0, 0), geom.Pt(15, 10))
	}
	return r
}

// FlyTo brings an entity into view and marks it until the next press. The view
// stays when the entity is well inside it already, so that one keeps one's
// bearings; otherwise the entity comes to the middle. The scale stays unless
// the entity would not fit; then the plan is made no smaller than it has to, never
// smaller than all of it would be, and the next flight goes back to the scale from
// before, unless the view was changed since.
func (b *Board) FlyTo(id doc.ID) {
	if b.frame == nil {
		return
	}
	r := tool.Extent(b.frame.Scheme, id)
	if r.Empty() {
		return
	}
	b.marked = id
	scale := b.view.denominator()
	if b.flown.view == b.view && b.flown.from > 0 {
		scale = b.flown.from
	}
	shown := viewAt(r.Centre(), scale, b.open()).area(b.open())
	if r.Width() > shown.Width() || r.Height() > shown.Height() {
		b.flyWide(r, scale)
		return
	}
	const edge = 30 // units that a symbol and its label need
	if inside := b.view.area(b.open()).Grow(-b.view.length(edge)); scale == b.view.denominator() && inside.Contains(r.Min) && inside.Contains(r.Max) {
		b.showLive()
		b.showOver()
		return
	}
	b.fit = false
	b.look(viewAt(r.Centre(), scale, b.open()))
}

// flight is where a flight went that had to make the plan smaller, and from which scale.
type flight struct {
	view view
	from float64
}

// flyWide shows a rectangle that does not fit at a scale.
func (b *Board) flyWide(r geom.Rect, scale float64) {
	size := b.open()
	const part = 0.12
	aside, above := min(ample.left, part*float64(size.Width)), min(ample.above, part*float64(size.Height))
	to := b.view.fittingIn(r, size, room{aside, aside, above, above})
	if all := b.whole(b.everything()); to.k > all.k {
		to = all
	}
	b.fit = false
	b.look(to)
	b.flown = flight{b.view, scale}
}

// Scale returns the denominator of the scale shown, 50 for 1:50.
func (b *Board) Scale() float64 { return b.view.denominator() }

// Area returns the rectangle of the plan that is shown.
func (b *Board) Area() geom.Rect { return b.view.area(b.Size()) }

// Where returns the place of a plan point in the board, in Fyne's units.
func (b *Board) Where(p geom.Point) fyne.Position { return b.view.at(p) }

// UnitsPerMetre returns how many of Fyne's units show a metre of the plan.
func (b *Board) UnitsPerMetre() float64 { return float64(geom.Metre) / b.view.k }

func (b *Board) middle() fyne.Position {
	return fyne.NewPos(b.Size().Width/2, b.Size().Height/2)
}

func (b *Board) zoom(at fyne.Position, factor float64) {
	b.fit = false
	b.view = b.view.zoomed(at, factor)
	if b.heavy() {
		b.base.soften()
	} else {
		b.base.redrawBare()
	}
	b.viewed()
	if b.in.held == holdLeft {
		// The pointer is over another place now.
		b.send(tool.Event{Kind: tool.Move, Button: tool.LeftButton, Mods: b.modifiers()})
	}
}

// look changes the view and draws everything anew.
func (b *Board) look(v view) {
	b.view = v
	b.base.redraw()
	b.viewed()
}

// viewed shows what lies over the base in a view that has changed.
func (b *Board) viewed() {
	b.night.follow()
	b.showLive()
	b.showOver()
	b.tell()
}

// pan moves the plan with the pointer; the base image is only moved.
func (b *Board) pan(dx, dy float32) {
	b.fit = false
	b.view = b.view.panned(float64(dx), float64(dy))
	b.base.follow()
	b.night.follow()
	b.showLive()
	b.showOver()
	b.tell()
}
