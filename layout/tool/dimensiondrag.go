package tool

import (
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

const dimensionDragHint = "Let go to place; Alt lets go of the grid, Esc puts it back"

// Parts of a dimension that can be dragged, as vertices of a hit.
const (
	dimensionFrom = iota
	dimensionTo
)

// dimensionDrag moves one end of what a dimension measures, or its line.
type dimensionDrag struct {
	set    *Defaults
	was    *doc.Dimension
	vertex int // dimensionFrom, dimensionTo, or NoVertex for the line
	moved  edit.Operation
}

// Name implements Tool.
func (dimensionDrag) Name() string { return NameSelect }

// Handle implements Tool.
func (t dimensionDrag) Handle(e Event, w *World) Verdict {
	back := Verdict{Next: NewSelect(t.set), Hint: selectHint}
	switch {
	case e.Kind == Move:
		return t.move(e, w)
	case e.Kind == Up && e.Button == LeftButton:
		back.Commit, back.Cancel = t.moved, t.moved == nil
		return back
	case e.Kind == Cancel, e.Kind == Key && e.Key == KeyEscape:
		back.Cancel = true
		return back
	}
	return Verdict{Hint: dimensionDragHint}
}

func (t dimensionDrag) move(e Event, w *World) Verdict {
	c := *t.was
	sh := doc.ShapeOf(w.Scheme, t.was)
	v := Verdict{Hint: dimensionDragHint}
	if t.vertex == NoVertex {
		s := snapTo(e, w, snap{})
		c.Offset = doc.OffsetAt(c.Kind, sh.From, sh.To, s.at)
	} else {
		other, anchor := sh.To, &c.From
		if t.vertex == dimensionTo {
			other, anchor = sh.From, &c.To
		}
		s := snapTo(e, w, snap{from: &other, step: fine, points: true})
		v.Overlay.Snap, v.Overlay.NoteAt = s.mark(), s.at
		if s.at == other {
			v.Refused, v.Next = "A dimension measures between two places", t
			return v
		}
		*anchor = s.anchor()
		v.Overlay.Note = between(other, s.at)
	}
	t.moved = edit.SetDimension{Dimension: &c}
	v.Preview, v.Next = t.moved, t
	return v
}

// pickDimension picks a dimension by the ends of what it measures, then by its
// dimension line, and, when it is crowded, after everything of the circuit.
func pickDimension(s *doc.Scheme, at geom.Point, reach geom.Length) Hit {
	hit, near := nothing(), reach+1
	for _, d := range s.Dimensions.All() {
		sh := doc.ShapeOf(s, d)
		if _, l := geom.Nearest(at, sh.A, sh.B); l < near {
			hit, near = Hit{ID: d.ID, Vertex: NoVertex, Leg: NoVertex}, l
		}
		for i, p := range []geom.Point{sh.From, sh.To} {
			if l := geom.Distance(at, p); l < near && p != sh.A && p != sh.B {
				hit, near = Hit{ID: d.ID, Vertex: i, Leg: NoVertex}, l
			}
		}
	}
	return hit
}

// pickSelected returns the hit on a part of the one selected dimension, before
// the things that it measures.
func pickSelected(w *World, at geom.Point, reach geom.Length) (Hit, bool) {
	if len(w.Selection) != 1 {
		return Hit{}, false
	}
	d, ok := w.Scheme.Dimensions.Get(w.Selection[0])
	if !ok {
		return Hit{}, false
	}
	sh := doc.ShapeOf(w.Scheme, d)
	for i, p := range []geom.Point{sh.From, sh.To} {
		if geom.Distance(at, p) <= reach {
			return Hit{ID: d.ID, Vertex: i, Leg: NoVertex}, true
		}
	}
	if _, l := geom.Nearest(at, sh.A, sh.B); l <= reach {
		return Hit{ID: d.ID, Vertex: NoVertex, Leg: NoVertex}, true
	}
	return Hit{}, false
}
