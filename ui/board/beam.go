package board

import (
	"fyne.io/fyne/v2"

	"duskwire/layout/doc"
	"duskwire/layout/tool"
)

// beam shows where a selected lamp points: the outline of its beam, the way to
// the handle that aims it, and the handle, a diamond, which no other mark is. A
// lamp that nobody has aimed yet has no outline, and a broken way.
func (o *over) beam(s *doc.Scheme, id doc.ID) {
	b := o.board
	m, ok := tool.AimMarkOf(s, b.frame.Stock, id, b.view.length(pickUnits))
	if !ok {
		return
	}
	from, to := b.view.at(m.Lamp), b.view.at(m.Handle)
	if m.Assumed {
		o.guide(from, to)
	} else {
		for _, line := range m.Outline {
			places := b.places(line)
			o.pool.path(places, o.paper, 4, b.Size())
			o.pool.path(places, o.mark, 1.5, b.Size())
		}
		o.pool.path([]fyne.Position{from, to}, o.mark, 1, b.Size())
	}
	if o.near(to) {
		const h = 8
		diamond := []fyne.Position{to.AddXY(0, -h), to.AddXY(h, 0), to.AddXY(0, h), to.AddXY(-h, 0), to.AddXY(0, -h)}
		o.pool.path(diamond, o.paper, 6, b.Size())
		o.pool.path(diamond, o.mark, 2.5, b.Size())
		o.pool.ring(to, 1.5, o.mark, 2)
	}
}
