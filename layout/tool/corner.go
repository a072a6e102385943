package tool

import (
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

const (
	cornerHint  = "Del takes this corner out, the arrows move it; , and . go to the next, I puts one in after it, Esc lets go"
	openEndHint = "Del takes this end back a corner, the arrows move it, J joins it to the next thing; , and . go to the next, Esc lets go"
)

// corner is one corner of the selected run, area or line, or one handle of the
// selected dimension, that was chosen by a click or by , and . ; of is "" for none.
type corner struct {
	of    doc.ID
	index int
}

// cornersOf returns the path of a run, area or line, or the handles of a dimension;
// closed says that its last corner joins the first.
func cornersOf(s *doc.Scheme, id doc.ID) (path []geom.Point, closed bool) {
	e, _ := doc.Find(s, id)
	switch e := e.(type) {
	case *doc.Run:
		return doc.RunPath(s, e), false
	case *doc.Line:
		return e.Path, false
	case *doc.Area:
		return e.Ring, true
	case *doc.Dimension:
		return handlesOf(s, e), false
	}
	return nil, false
}

// at returns the place of the corner, if it is one of the thing that alone is
// selected.
func (c corner) at(w *World) (geom.Point, bool) {
	if len(w.Selection) != 1 || w.Selection[0] != c.of {
		return geom.Point{}, false
	}
	path, _ := cornersOf(w.Scheme, c.of)
	if c.index >= len(path) {
		return geom.Point{}, false
	}
	return path[c.index], true
}

// next returns the corner that follows, backwards with by -1, among those of
// the thing that alone is selected.
func (c corner) next(w *World, by int) (corner, bool) {
	if len(w.Selection) != 1 {
		return c, false
	}
	path, _ := cornersOf(w.Scheme, w.Selection[0])
	n := len(path)
	if c.of != w.Selection[0] {
		c = corner{w.Selection[0], -1}
		if by < 0 {
			c.index = 0
		}
	}
	if n == 0 {
		return c, false
	}
	c.index = ((c.index+by)%n + n) % n
	return c, true
}

// Middles calls f for the handles in the middle of the edges of an area or
// line, which pull a new corner out. An edge that is short for the pick radius
// has none, and neither has a run: that can be pulled anywhere.
func Middles(s *doc.Scheme, id doc.ID, reach geom.Length, f func(edge int, at geom.Point)) {
	if k := doc.KindOf(s, id); k == doc.RunKind || k == doc.DimensionKind {
		return
	}
	path, closed := cornersOf(s, id)
	for i := range path {
		j := i + 1
		if j == len(path) {
			if !closed {
				return
			}
			j = 0
		}
		if geom.Distance(path[i], path[j]) > 5*reach {
			f(i, geom.Around(path[i], path[j]).Centre())
		}
	}
}

// hitAt returns what lies under the pointer. Handles of the thing that alone is
// selected come before what lies under them, but not before a symbol: only the ends
// of a dimension do.
func hitAt(w *World, e Event) Hit {
	if h, ok := pickAim(w, e); ok {
		return h
	}
	d, on := pickSelected(w, e.At, e.Reach)
	if on && d.Vertex != NoVertex {
		return d // else what is measured could never be let go of
	}
	h := Pick(w.Scheme, e.At, e.Reach)
	if h.ID == "" || doc.KindOf(w.Scheme, h.ID) == doc.AreaKind {
		if h, ok := pickTurn(w, e); ok {
			return h
		}
	}
	if h.Point || len(w.Selection) != 1 {
		return h
	}
	if c, ok := crownHit(w, e.At, e.Reach); ok {
		return c
	}
	if on {
		return d
	}
	id := w.Selection[0]
	path, _ := cornersOf(w.Scheme, id)
	vertex, near := NoVertex, e.Reach+1
	nearer := func(i int, p geom.Point) {
		if d := geom.Distance(e.At, p); d < near {
			vertex, near = i, d
		}
	}
	for i, p := range path {
		nearer(i, p)
	}
	EndHandles(w.Scheme, id, e.Reach, nearer)
	if vertex != NoVertex {
		return Hit{ID: id, Vertex: vertex, Leg: NoVertex}
	}
	Middles(w.Scheme, id, e.Reach, func(edge int, at geom.Point) {
		if d := geom.Distance(e.At, at); d < near {
			h, near = Hit{ID: id, Vertex: NoVertex, Leg: NoVertex, Middle: edge + 1}, d
		}
	})
	return h
}

// marked adds the chosen corner to what floats above the plan.
func (t selecting) marked(v Verdict, w *World) Verdict {
	if at, ok := t.corner.at(w); ok {
		v.Overlay.Corner = &at
		if v.Hint == selectHint {
			v.Hint = t.cornerHint(w)
		}
	}
	return v
}

// cornerHint says what the keys do with the chosen corner.
func (t selecting) cornerHint(w *World) string {
	r, _, end := isEnd(w.Scheme, t.corner)
	switch {
	case end && !OwnVertex(r, t.corner.index):
		return endHint
	case end:
		return openEndHint
	case doc.KindOf(w.Scheme, t.corner.of) != doc.DimensionKind:
		return cornerHint
	case t.corner.index == dimensionLine:
		return lineHint
	}
	return anchorHint
}

// choose makes a corner the chosen one.
func (t selecting) choose(c corner, w *World) Verdict {
	t.corner, t.from = c, nil
	return t.marked(Verdict{Next: t, Hint: selectHint, Used: true}, w)
}

// cornerKey lets a key work on the chosen corner; ok is false when it has
// nothing to do with it.
func (t selecting) cornerKey(e Event, w *World, at geom.Point) (v Verdict, ok bool) {
	none := Verdict{Next: NewSelect(t.set), Hint: selectHint, Used: true}
	d, dimension := w.Scheme.Dimensions.Get(t.corner.of)
	switch e.Key {
	case KeyEscape:
		return none, true
	case KeyDelete, KeyBackSpace:
		if dimension {
			return Verdict{}, false // it goes as a whole
		}
		none.Commit = edit.DeleteVertex{ID: t.corner.of, Index: t.corner.index}
		return none, true
	case KeyUp, KeyDown, KeyLeft, KeyRight:
		if dimension {
			return t.moveHandle(e, w, d, at), true
		}
		if _, _, end := isEnd(w.Scheme, t.corner); end {
			return t.moveEnd(e, w, at), true
		}
		at = at.Add(arrow(e, w))
		v = Verdict{Next: t, Hint: cornerHint, Used: true, Overlay: Overlay{Corner: &at}}
		v.Commit = edit.MoveVertex{ID: t.corner.of, Index: t.corner.index, To: at}
		return v, true
	}
	return Verdict{}, false
}

// cornerRune walks along the corners of what is selected, puts one in, and joins an
// end to the next thing.
func (t selecting) cornerRune(e Event, w *World) (v Verdict, ok bool) {
	by := 1
	at, chosen := t.corner.at(w)
	d, dimension := w.Scheme.Dimensions.Get(t.corner.of)
	switch e.Rune {
	case 'i', 'I':
		if !chosen || dimension {
			return Verdict{}, false
		}
		return t.insertAfter(w, at), true
	case 'j', 'J':
		if e.Rune == 'J' {
			by = -1
		}
		if _, _, end := isEnd(w.Scheme, t.corner); chosen && end {
			return t.joinNext(w, at, by), true
		}
		if chosen && dimension {
			return t.measureNext(w, d, at, by), true
		}
		return Verdict{}, false
	case ',':
		by = -1
	case '.':
	default:
		return Verdict{}, false
	}
	c, ok := t.corner.next(w, by)
	if !ok {
		return Verdict{}, false
	}
	return t.choose(c, w), true
}

// insertAfter puts a corner in the middle of the edge after the chosen one.
func (t selecting) insertAfter(w *World, at geom.Point) Verdict {
	path, closed := cornersOf(w.Scheme, t.corner.of)
	next := t.corner.index + 1
	if next == len(path) && !closed {
		v := t.choose(t.corner, w)
		v.Refused = "Nothing follows the last corner"
		return v
	}
	middle := geom.Around(at, path[next%len(path)]).Centre()
	t.corner.index = next
	return Verdict{
		Next: t, Hint: cornerHint, Used: true, Overlay: Overlay{Corner: &middle},
		Commit: edit.InsertVertex{ID: t.corner.of, Index: next, At: middle},
	}
}
