package board

import (
	"fyne.io/fyne/v2"

	"duskwire/layout/scene"
)

const (
	turnUnits  = 7 // radius of the handle
	pivotUnits = 6 // half a stroke of the cross at the middle
)

// tellPicture says to the tools whether the picture under the plan is to be seen.
func (b *Board) tellPicture() {
	seen := b.frame != nil && b.frame.Under != nil && b.frame.Under.Picture != nil
	b.session.SetPictureShown(seen && b.shows != scene.LookDusk)
}

// turnHandle shows the handle that turns the picture: a disc on a stem, which no
// other handle has; under the pointer its edge is twice as heavy. While it is dragged
// a line leads to it from the middle, which has a cross.
func (o *over) turnHandle(grip bool) {
	b := o.board
	m, ok := b.session.PictureMark(b.frame.Scheme, b.view.area(b.open()), b.view.length(pickUnits))
	if !ok {
		return
	}
	foot, at := b.view.at(m.Foot), b.view.at(m.Handle)
	if m.Held {
		middle := b.view.at(m.Middle)
		o.pool.path([]fyne.Position{middle, at}, o.mark, 1, b.Size())
		if o.near(middle) {
			o.cross(middle, pivotUnits)
		}
	}
	if !o.near(at) && !o.near(foot) {
		return
	}
	o.pool.path([]fyne.Position{foot, at}, o.paper, 6, b.Size())
	o.pool.path([]fyne.Position{foot, at}, o.mark, 2.5, b.Size())
	edge := float32(2)
	if grip {
		edge *= 2
	}
	o.pool.ring(at, turnUnits+2, o.paper, turnUnits+2)
	o.pool.ring(at, turnUnits, o.mark, edge)
}
