package board

import (
	"slices"

	"fyne.io/fyne/v2"

	"duskwire/layout/doc"
	"duskwire/layout/scene"
)

// Ringer keeps the ring of the keyboard, which plan and circuit share as they do the
// selection.
type Ringer interface {
	Ring() doc.ID
	WalkRing(by int, shown func(doc.ID) bool) bool
	TakeRinged() bool
	DropRing() bool
}

// FollowRing shows the ring where it is now.
func (d *Diagram) FollowRing() {
	if d.active {
		d.marks()
	}
}

// ringed returns what the ring is on, "" when that is not drawn here.
func (d *Diagram) ringed() doc.ID {
	if d.cfg.Ring == nil || d.drawing == nil {
		return ""
	}
	id := d.cfg.Ring.Ring()
	if !d.draws(id) {
		return ""
	}
	return id
}

// draws reports whether an entity stands in the drawing.
func (d *Diagram) draws(id doc.ID) bool {
	_, _, ok := d.drawing.Bounds(id)
	return ok && id != ""
}

// walkRing takes the ring to the next or the previous thing that is drawn, in the
// order of the file as on the plan.
func (d *Diagram) walkRing(by int) {
	d.prepare()
	if d.cfg.Ring == nil || d.drawing == nil || !d.cfg.Ring.WalkRing(by, d.draws) {
		return
	}
	id := d.ringed()
	d.marked = ""
	d.reveal(id)
	d.owe(id)
	d.marks()
}

// dropRing takes the ring away, when it is seen, and reports whether it was.
func (d *Diagram) dropRing() bool { return d.ringed() != "" && d.cfg.Ring.DropRing() }

// KeyDown implements desktop.Keyable.
func (d *Diagram) KeyDown(e *fyne.KeyEvent) { d.space = e.Name == fyne.KeySpace }

// KeyUp implements desktop.Keyable: a tap on the space bar, which repeats as long as
// it is held, adds what the ring is on to what is selected, or takes it out.
func (d *Diagram) KeyUp(e *fyne.KeyEvent) {
	if e.Name == fyne.KeySpace && d.space && d.ringed() != "" {
		d.cfg.Ring.TakeRinged()
	}
	d.space = false
}

// corners shows the ring as the plan does: four corners about a thing, and a line
// along a run.
func (d *Diagram) corners(id doc.ID) {
	const clear = 6 // units between the box of the selection and the ring
	mark, paper := overColour(d.palette), nrgba(d.palette.Paper)
	if s, ok := d.drawing.Symbol(id); ok {
		half := max(float32((max(s.RX, s.RY)+1)*d.k), handleUnits) + clear
		at := d.at(s.At)
		d.pool.corners(at.SubtractXY(half, half), at.AddXY(half, half), paper, mark, d.size)
		return
	}
	r, ok := d.drawing.RunOf(id)
	if !ok {
		return
	}
	d.pool.path(d.places(r.Path), mark, 1.5, d.size)
	lo, hi := r.Path[0], r.Path[0]
	for _, p := range r.Path {
		lo = scene.XY{X: min(lo.X, p.X), Y: min(lo.Y, p.Y)}
		hi = scene.XY{X: max(hi.X, p.X), Y: max(hi.Y, p.Y)}
	}
	d.pool.corners(d.at(lo).SubtractXY(ringArm, ringArm), d.at(hi).AddXY(ringArm, ringArm), paper, mark, d.size)
}

// places returns the places of a path in the widget.
func (d *Diagram) places(path []scene.XY) []fyne.Position {
	out := make([]fyne.Position, len(path))
	for i, p := range path {
		out[i] = d.at(p)
	}
	return out
}

// ringSays is the hint of the ring, "" without one.
func (d *Diagram) ringSays() string {
	id := d.ringed()
	if id == "" {
		return ""
	}
	return ringHint(doc.TagOf(d.frame.Scheme, id), slices.Contains(d.selected, id))
}
