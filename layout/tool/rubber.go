package tool

import (
	"fmt"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

const rubberHint = "Left to right takes what lies inside, right to left also what it touches; Shift adds to the selection"

// rubber selects with a rectangle: dragged to the right what lies wholly
// inside, dragged to the left also what it touches.
type rubber struct {
	set  *Defaults
	from geom.Point
	was  []doc.ID
}

// Name implements Tool.
func (rubber) Name() string { return NameSelect }

// Handle implements Tool.
func (t rubber) Handle(e Event, w *World) Verdict {
	switch e.Kind {
	case Move:
		box := geom.Around(t.from, e.At)
		v := Verdict{Hint: rubberHint, Overlay: Overlay{Rubber: &box, Crossing: t.crossing(e), NoteAt: e.At}}
		v.Overlay.Note = fmt.Sprintf("%d inside", len(t.caught(e, w)))
		if v.Overlay.Crossing {
			v.Overlay.Note = fmt.Sprintf("%d touched", len(t.caught(e, w)))
		}
		return v
	case Up:
		if e.Button != LeftButton {
			break
		}
		ids := t.caught(e, w)
		if e.Mods.Shift || e.Mods.Control {
			ids = Union(t.was, ids)
		}
		return Verdict{Next: NewSelect(t.set), Hint: selectHint, Select: ids, Selects: true}
	case Cancel:
		return Verdict{Next: NewSelect(t.set), Hint: selectHint}
	case Key:
		if e.Key == KeyEscape {
			return Verdict{Next: NewSelect(t.set), Hint: selectHint}
		}
	}
	return Verdict{Hint: rubberHint}
}

// crossing reports whether the band was dragged to the left.
func (t rubber) crossing(e Event) bool { return e.At.X < t.from.X }

func (t rubber) caught(e Event, w *World) []doc.ID {
	box := geom.Around(t.from, e.At)
	if t.crossing(e) {
		return touched(w.Scheme, box)
	}
	return inside(w.Scheme, box)
}

// inside returns the ids of what lies wholly in the rectangle.
func inside(s *doc.Scheme, box geom.Rect) []doc.ID {
	var ids []doc.ID
	for _, id := range everything(s) {
		r := Extent(s, id)
		if !r.Empty() && box.Contains(r.Min) && box.Contains(r.Max) {
			ids = append(ids, id)
		}
	}
	return ids
}

// touched returns the ids of what has any part in the rectangle: of an area
// its edge, so that a band on a lawn does not take the lawn, of a mark and of
// anything else that stands at a point its place.
func touched(s *doc.Scheme, box geom.Rect) []doc.ID {
	var ids []doc.ID
	doc.Each(s, func(e doc.Entity, k doc.Kind) {
		if k == doc.ZoneKind || !box.Overlaps(Extent(s, e.Key())) {
			return
		}
		if p, ok := doc.PlaceOf(e); ok {
			if box.Contains(p.At) {
				ids = append(ids, e.Key())
			}
			return
		}
		if path, closed := cornersOf(s, e.Key()); path == nil || passes(path, closed, box) {
			ids = append(ids, e.Key())
		}
	})
	return ids
}

// passes reports whether a polyline has a point in the rectangle.
func passes(path []geom.Point, closed bool, box geom.Rect) bool {
	lo, hi := box.Min, box.Max
	ring := []geom.Point{lo, {X: hi.X, Y: lo.Y}, hi, {X: lo.X, Y: hi.Y}}
	in := false
	geom.Edges(path, closed, func(a, b geom.Point) {
		in = in || box.Contains(a) || box.Contains(b)
		geom.Edges(ring, true, func(c, d geom.Point) { in = in || geom.Apart(a, b, c, d) == 0 })
	})
	return in
}

// Union returns the ids of a, then those of b that a has not.
func Union(a, b []doc.ID) []doc.ID {
	out := append([]doc.ID(nil), a...)
	for _, id := range b {
		if !holds(a, id) {
			out = append(out, id)
		}
	}
	return out
}
