package board

import (
	"fyne.io/fyne/v2"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/tool"
)

// walk selects the next or the previous entity in the order of the file.
func (b *Board) walk(by int) {
	id := b.beside(by)
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
	id := b.beside(by)
	if id == "" {
		return
	}
	b.in.ring, b.marked = id, ""
	at := tool.Extent(b.session.Scheme(), id).Centre()
	if !b.view.area(b.open()).Contains(at) {
		b.fit = false
		b.look(viewAt(at, b.view.denominator(), b.open()))
	}
	b.changed()
}

// beside returns the entity after the ring, else after what is selected, or before
// it; "" on an empty plan.
func (b *Board) beside(by int) doc.ID {
	s := b.session.Scheme()
	if s == nil {
		return ""
	}
	var ids []doc.ID
	at := -1
	doc.Each(s, func(e doc.Entity, k doc.Kind) {
		if k == doc.ZoneKind {
			return
		}
		here := contains(b.session.Selection(), e.Key()) && (at < 0 || by > 0)
		if b.ringed() != "" {
			here = e.Key() == b.in.ring
		}
		if here {
			at = len(ids)
		}
		ids = append(ids, e.Key())
	})
	if len(ids) == 0 {
		return ""
	}
	if at < 0 && by < 0 {
		at = 0
	}
	return ids[((at+by)%len(ids)+len(ids))%len(ids)]
}

// ringed returns what the ring of the keyboard is on, "" for nothing.
func (b *Board) ringed() doc.ID {
	if b.in.ring != "" && b.frame != nil && doc.KindOf(b.frame.Scheme, b.in.ring) == doc.NoKind {
		b.in.ring = "" // it was deleted
	}
	return b.in.ring
}

// dropRing takes the ring away and reports whether there was one.
func (b *Board) dropRing() bool {
	was := b.ringed() != ""
	b.in.ring = ""
	return was
}

// addRinged adds to the selection what the ring is on, or takes it out; false
// without a ring.
func (b *Board) addRinged() bool {
	id := b.ringed()
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

// ringHint says what can be done with the ring.
func (b *Board) ringHint() string {
	says := ": Space adds it to what is selected; { and } take the ring on, Esc ends"
	if contains(b.session.Selection(), b.in.ring) {
		says = " is selected: Space takes it out; { and } take the ring on, Esc ends"
	}
	return doc.TagOf(b.frame.Scheme, b.in.ring) + says
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
	for _, c := range [4][4]float32{{lo.X, lo.Y, 1, 1}, {hi.X, lo.Y, -1, 1}, {lo.X, hi.Y, 1, -1}, {hi.X, hi.Y, -1, -1}} {
		o.corner(c[0], c[1], c[2]*ringArm, c[3]*ringArm)
	}
}

// corner shows two arms from a place, on a bed of paper.
func (o *over) corner(x, y, dx, dy float32) {
	at := fyne.NewPos(x, y)
	arms := []fyne.Position{at.AddXY(dx, 0), at, at.AddXY(0, dy)}
	o.pool.path(arms, o.paper, 6, o.board.Size())
	o.pool.path(arms, o.mark, 3, o.board.Size())
}
