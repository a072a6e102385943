package tool

import (
	"fmt"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

const (
	crownHint     = "Let go at the edge of the crown; Alt lets go of the steps, Esc cancels"
	crownHover    = "Drag to the edge of the crown, or type its radius under Properties"
	placeTreeHint = "Press at the trunk and drag to the edge of the crown, or click; =x,y types the place; Esc goes back to Select"
)

// crownDrag sets the crown of a tree by the handle at its edge.
type crownDrag struct {
	set   *Defaults
	was   *doc.Mark
	moved edit.Operation
}

// Name implements Tool.
func (crownDrag) Name() string { return NameSelect }

// Handle implements Tool.
func (t crownDrag) Handle(e Event, w *World) Verdict {
	back := Verdict{Next: NewSelect(t.set), Hint: selectHint}
	switch {
	case e.Kind == Move:
		c := *t.was
		v := Verdict{Hint: crownHint, Overlay: crownTo(&c, e, w)}
		t.moved = edit.SetMark{Mark: &c}
		v.Preview, v.Next = t.moved, t
		return v
	case e.Kind == Up && e.Button == LeftButton:
		back.Commit, back.Cancel = t.moved, t.moved == nil
		return back
	case e.Kind == Cancel, e.Kind == Key && e.Key == KeyEscape:
		back.Cancel = true
		return back
	}
	return Verdict{Hint: crownHint}
}

// crownTo gives a tree the crown that reaches to the pointer, and no smaller one than
// its trunk; the overlay shows its radius.
func crownTo(m *doc.Mark, e Event, w *World) Overlay {
	r, to := radiusTo(e, w, m.Place.At)
	m.Crown = max(r, m.Radius)
	return Overlay{
		Snap: caughtMark(to), NoteAt: to.at, Note: fmt.Sprintf("crown %.2f m", m.Crown.Metres()),
		Lines: [][]geom.Point{{m.Place.At, geom.Toward(m.Place.At, geom.Bearing(m.Place.At, e.At), m.Crown)}},
	}
}

// CrownHandle returns the handle that sets the crown of a tree: at its edge, to the
// right, but clear of the trunk. ok is false for anything else.
func CrownHandle(s *doc.Scheme, id doc.ID, reach geom.Length) (at geom.Point, ok bool) {
	m, ok := s.Marks.Get(id)
	if !ok || m.Kind != "tree" {
		return at, false
	}
	return m.Place.At.Add(geom.Point{X: max(m.Crown, 3*reach)}), true
}

// crownHit is the hit on that handle of the tree which alone is selected.
func crownHit(w *World, at geom.Point, reach geom.Length) (Hit, bool) {
	if len(w.Selection) != 1 {
		return Hit{}, false
	}
	p, ok := CrownHandle(w.Scheme, w.Selection[0], reach)
	if !ok || geom.Distance(at, p) > reach {
		return Hit{}, false
	}
	return Hit{ID: w.Selection[0], Vertex: 0, Leg: NoVertex}, true
}

// markHint is what the tool for marks says: of a tree more than of the others.
func markHint(d *Defaults) string {
	if d.Ground.Mark.Kind == "tree" {
		return placeTreeHint
	}
	return "Click to place it, or type =x,y; Esc goes back to Select"
}

// crowns reports whether the button is held and has been drawn away from a tree that
// is being placed, which sets its crown.
func (t placing) crowns(e Event) bool {
	return t.kind.name == NameMark && t.set.Ground.Mark.Kind == "tree" && t.op != nil && geom.Distance(t.pressed, e.At) > 2*e.Reach
}

// crown previews the tree where it was pressed, with the crown as far as the pointer.
func (t placing) crown(e Event, w *World) Verdict {
	v := t.putAt(w, t.at)
	next, ok := v.Next.(placing)
	if !ok || next.op == nil {
		return v
	}
	m := *next.op.(edit.Place).Entity.(*doc.Mark)
	v.Overlay = crownTo(&m, e, w)
	next.op = edit.Place{Entity: &m}
	v.Preview, v.Next, v.Hint = next.op, next, crownHint
	return v
}
