package tool

import (
	"fmt"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

const rubberHint = "Let go to select what lies inside; Shift adds to the selection"

// rubber selects what lies wholly inside a rectangle.
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
		in := inside(w.Scheme, box)
		return Verdict{
			Hint:    rubberHint,
			Overlay: Overlay{Rubber: &box, Note: fmt.Sprintf("%d inside", len(in)), NoteAt: e.At},
		}
	case Up:
		if e.Button != LeftButton {
			break
		}
		ids := inside(w.Scheme, geom.Around(t.from, e.At))
		if e.Mods.Shift || e.Mods.Control {
			ids = union(t.was, ids)
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

func union(a, b []doc.ID) []doc.ID {
	out := append([]doc.ID(nil), a...)
	for _, id := range b {
		if !holds(a, id) {
			out = append(out, id)
		}
	}
	return out
}
