package board

import (
	"image/color"

	"fyne.io/fyne/v2"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/tool"
)

// walk selects the next or the previous entity in the order of the file.
func (b *Board) walk(by int) {
	id := b.beside(by, nil)
	if id == "" {
		return
	}
	b.in.ring = ""
	b.Select(id)
	if !b.view.area(b.Size()).Contains(tool.Extent(b.session.Scheme(), id).Centre()) {
		b.FlyTo(id)
	}
}

// walkRing takes the ring of the keyboard to the next or the previous entity. The
// selection stays as it is, so that things far apart in the file come together.
func (b *Board) walkRing(by int) {
	if b.Tool().Name() != tool.NameSelect {
		return // the space bar places things then
	}
	if !b.WalkRing(by, nil) {
		return
	}
	at := tool.Extent(b.session.Scheme(), b.in.ring).Centre()
	if !b.view.area(b.open()).Contains(at) {
		b.fit = false
		b.look(viewAt(at, b.view.denominator(), b.open()))
	}
}

// WalkRing takes the ring to the next or the previous of the entities that a view
// shows, nil for all; false when there is none.
func (b *Board) WalkRing(by int, shown func(doc.ID) bool) bool {
	id := b.beside(by, shown)
	if id == "" {
		return false
	}
	b.in.ring, b.marked = id, ""
	b.changed()
	return true
}

// beside returns the entity after the ring, else after what is selected, or before
// it, among those shown; "" when there is none.
func (b *Board) beside(by int, shown func(doc.ID) bool) doc.ID {
	s := b.session.Scheme()
	if s == nil {
		return ""
	}
	var ids []doc.ID
	ring := b.Ring()
	at, off := -1, 0 // off: where it begins is not shown and lies before ids[at]
	doc.Each(s, func(e doc.Entity, k doc.Kind) {
		if k == doc.ZoneKind {
			return
		}
		here := contains(b.session.Selection(), e.Key()) && (at < 0 || by > 0)
		if ring != "" {
			here = e.Key() == ring
		}
		show := shown == nil || shown(e.Key())
		if here {
			at, off = len(ids), 0
			if !show && by > 0 {
				off = -1
			}
		}
		if show {
			ids = append(ids, e.Key())
		}
	})
	if len(ids) == 0 {
		return ""
	}
	if at < 0 && by < 0 {
		at = 0
	}
	return ids[((at+off+by)%len(ids)+len(ids))%len(ids)]
}

// Ring returns what the ring of the keyboard is on, "" for nothing.
func (b *Board) Ring() doc.ID {
	if b.in.ring != "" && b.frame != nil && doc.KindOf(b.frame.Scheme, b.in.ring) == doc.NoKind {
		b.in.ring = "" // it was deleted
	}
	return b.in.ring
}

// ringed returns what the ring is on as long as the plan has it: with a tool in hand
// that draws, it is the circuit's, and the space bar places things here.
func (b *Board) ringed() doc.ID {
	if b.Tool().Name() != tool.NameSelect {
		return ""
	}
	return b.Ring()
}

// DropRing takes the ring away and reports whether there was one.
func (b *Board) DropRing() bool {
	was := b.Ring() != ""
	b.in.ring = ""
	if was {
		b.changed()
	}
	return was
}

// TakeRinged adds to the selection what the ring is on, or takes it out; false
// without a ring.
func (b *Board) TakeRinged() bool {
	id := b.Ring()
	if id == "" {
		return false
	}
	var ids []doc.ID
	for _, o := range b.session.Selection() {
		if o != id {
			ids = append(ids, o)
		}
	}
	if len(ids) == len(b.session.Selection()) {
		ids = append(ids, id)
	}
	b.Select(ids...)
	return true
}

// ringHint says what can be done with a ring.
func ringHint(tag string, selected bool) string {
	if selected {
		return tag + " is selected: Space takes it out; { and } take the ring on, Esc ends"
	}
	return tag + ": Space adds it to what is selected; { and } take the ring on, Esc ends"
}

const (
	ringClear = 20 // units between a thing and the corners of the ring
	ringArm   = 10 // length of an arm of a corner
)

// corners shows the ring: four corners about a thing, unlike the round mark of
// hover and the square of the selection, and a line along what is long.
func (o *over) corners(id doc.ID) {
	b := o.board
	r := tool.Extent(b.frame.Scheme, id)
	if r.Empty() {
		return
	}
	o.pool.path(b.places(outline(b.frame.Scheme, id)), o.mark, 1.5, b.Size())
	lo := b.view.at(geom.Point{X: r.Min.X, Y: r.Max.Y}).SubtractXY(ringClear, ringClear)
	hi := b.view.at(geom.Point{X: r.Max.X, Y: r.Min.Y}).AddXY(ringClear, ringClear)
	o.pool.corners(lo, hi, o.paper, o.mark, b.Size())
}

// corners shows the four corners of a ring, each of two arms on a bed of paper.
func (p *pool) corners(lo, hi fyne.Position, paper, mark color.Color, size fyne.Size) {
	for _, c := range [4][4]float32{{lo.X, lo.Y, 1, 1}, {hi.X, lo.Y, -1, 1}, {lo.X, hi.Y, 1, -1}, {hi.X, hi.Y, -1, -1}} {
		at := fyne.NewPos(c[0], c[1])
		arms := []fyne.Position{at.AddXY(c[2]*ringArm, 0), at, at.AddXY(0, c[3]*ringArm)}
		p.path(arms, paper, 6, size)
		p.path(arms, mark, 3, size)
	}
}
