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
	return b.place(), b.in.inside || b.in.keyed
}

// Hit returns what lies under the pointer, and where that is. With something
// selected its legs and corners come before what lies on top.
func (b *Board) Hit() (tool.Hit, geom.Point) {
	at := b.place()
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
	if !ok || !arrows[keyNames[c.KeyName]] {
		return false
	}
	if m := c.Modifier &^ fyne.KeyModifierShift; m == fyne.KeyModifierControl && b.Tool().Name() == tool.NameSelect {
		b.send(tool.Event{Kind: tool.Key, Key: keyNames[c.KeyName], Mods: tool.Modifiers{Control: true, Shift: m != c.Modifier}})
		return true // it turns and tilts a beam
	}
	if c.Modifier != fyne.KeyModifierAlt {
		return false
	}
	if b.Tool().Name() == tool.NameSelect {
		b.send(tool.Event{Kind: tool.Key, Key: keyNames[c.KeyName], Mods: tool.Modifiers{Alt: true}})
	}
	return true
}

// padlock marks a locked run, line or area that is selected: the mark of the
// selection covers the lock that the plan draws at its middle.
func (o *over) padlock(s *doc.Scheme, id doc.ID) {
	e, kind := doc.Find(s, id)
	line := outline(s, id)
	if kind == doc.NoKind || !doc.Locked(e) || len(line) < 2 {
		return
	}
	m := (len(line) - 2) / 2
	at := o.board.view.at(geom.Around(line[m], line[m+1]).Centre())
	o.pool.ring(at.SubtractXY(0, 4), 3.5, o.mark, 1.5)
	o.pool.rect(at.SubtractXY(5, 3), fyne.NewSize(10, 8), o.paper, o.mark, 1.5)
}

// crown shows the handle that sets the crown of a tree.
func (o *over) crown(s *doc.Scheme, id doc.ID) {
	b := o.board
	if p, ok := tool.CrownHandle(s, id, b.view.length(pickUnits)); ok && o.near(b.view.at(p)) {
		o.pool.square(b.view.at(p), handleUnits, o.paper, o.mark, 1.5)
	}
}
