package board

import (
	"duskwire/layout/scene"
	"duskwire/layout/tool"
)

// eyeUnits is how far the edges of what an eye point sees are drawn.
const eyeUnits = 44

// SetEyes shows the eye points in every view, as while the standing view is open.
func (b *Board) SetEyes(on bool) {
	if b.eyed != on {
		b.eyed = on
		b.changed()
	}
}

// eyes shows the eye points: in the Dusk view, while one is placed, and while
// somebody looks from one.
func (o *over) eyes() {
	b := o.board
	if b.shows != scene.LookDusk && !b.eyed && b.session.Tool().Name() != tool.NameEye {
		return
	}
	for i := range b.frame.Scheme.Eyes {
		e := &b.frame.Scheme.Eyes[i]
		at := b.view.at(e.Place.At)
		if !o.near(at) {
			continue
		}
		for _, l := range tool.EyeLines(e, b.view.length(eyeUnits)) {
			places := b.places(l)
			o.pool.path(places, o.paper, 4, b.Size())
			o.pool.path(places, o.mark, 1.5, b.Size())
		}
		o.pool.ring(at, 5, o.paper, 5)
		o.pool.ring(at, 5, o.mark, 2)
		o.pool.text(e.Tag, at.AddXY(9, -7), o.ink, 12)
	}
}
