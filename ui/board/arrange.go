package board

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/tool"
)

// Pointer returns where the pointer is on the plan, moved by hand or by keys;
// ok is false when it is elsewhere.
func (b *Board) Pointer() (at geom.Point, ok bool) {
	return b.view.plan(b.in.pointer), b.in.inside || b.in.keyed
}

// Hit returns what lies under the pointer, and where that is. With something
// selected its legs and corners come before what lies on top.
func (b *Board) Hit() (tool.Hit, geom.Point) {
	at := b.view.plan(b.in.pointer)
	s := b.session.Scheme()
	if s == nil {
		return tool.Hit{Vertex: tool.NoVertex, Leg: tool.NoVertex}, at
	}
	return tool.Pick(s, at, b.view.length(pickUnits)), at
}

// nudged turns Alt with an arrow, which the driver takes for a shortcut, back
// into a key for the tool.
func (b *Board) nudged(s fyne.Shortcut) bool {
	c, ok := s.(*desktop.CustomShortcut)
	if !ok || c.Modifier != fyne.KeyModifierAlt || !arrows[keyNames[c.KeyName]] {
		return false
	}
	if b.Tool().Name() == tool.NameSelect {
		b.send(tool.Event{Kind: tool.Key, Key: keyNames[c.KeyName], Mods: tool.Modifiers{Alt: true}})
	}
	return true
}

// padlock marks a locked thing that is selected: a small lock at the corner of
// its box, or at the middle of what it is drawn as.
func (o *over) padlock(s *doc.Scheme, id doc.ID) {
	e, kind := doc.Find(s, id)
	if kind == doc.NoKind || !doc.Locked(e) {
		return
	}
	b := o.board
	at := b.view.at(tool.Extent(s, id).Centre())
	if _, ok := doc.PlaceOf(e); ok {
		at = at.AddXY(boxUnits, -boxUnits)
	} else if line := outline(s, id); len(line) > 1 {
		m := (len(line) - 1) / 2
		at = b.view.at(geom.Around(line[m], line[m+1]).Centre())
	}
	o.pool.ring(at.SubtractXY(0, 4), 3.5, o.mark, 1.5)
	o.pool.rect(at.SubtractXY(5, 3), fyne.NewSize(10, 8), o.paper, o.mark, 1.5)
}
