package tool

import (
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// pointing is the state between pressing the button and either letting go (a
// click) or moving away (a drag).
type pointing struct {
	set   *Defaults
	start Event
	hit   Hit
	was   []doc.ID // selection before the button went down
	// grab says that a drag moves what was hit; otherwise it selects with a
	// rubber band, so that ground is not moved by accident.
	grab bool
}

// Name implements Tool.
func (pointing) Name() string { return NameSelect }

// Handle implements Tool.
func (t pointing) Handle(e Event, w *World) Verdict {
	stay := Verdict{Hint: selectHint}
	switch e.Kind {
	case Move:
		if geom.Distance(t.start.At, e.At) <= e.Reach/2 {
			return stay
		}
		next := t.drag(w, e.Reach)
		v := next.Handle(e, w)
		if v.Next == nil {
			v.Next = next
		}
		return v
	case Up:
		if e.Button == LeftButton {
			return t.click(w)
		}
	case Cancel:
		return Verdict{Next: NewSelect(t.set), Hint: selectHint}
	case Key:
		if e.Key == KeyEscape {
			return Verdict{Next: NewSelect(t.set), Hint: selectHint, Select: t.was, Selects: true}
		}
	}
	return stay
}

// drag returns the state that a movement away from the start leads to.
func (t pointing) drag(w *World, reach geom.Length) Tool {
	if t.hit.Aim {
		return newAiming(t.set, w, t.hit, reach)
	}
	if !t.grab {
		return rubber{set: t.set, from: t.start.At, was: t.was}
	}
	if d, ok := w.Scheme.Dimensions.Get(t.hit.ID); ok && len(w.Selection) == 1 {
		return dimensionDrag{set: t.set, was: d, vertex: t.hit.Vertex}
	}
	if m, ok := w.Scheme.Marks.Get(t.hit.ID); ok && len(w.Selection) == 1 && t.hit.Vertex != NoVertex {
		return crownDrag{set: t.set, was: m}
	}
	if len(w.Selection) == 1 && (t.hit.Vertex != NoVertex || t.hit.Leg != NoVertex || t.hit.Middle > 0) {
		return newVertexDrag(t.set, w.Scheme, t.hit)
	}
	return newDragging(t.set, w, t.start.At, t.hit)
}

// cornered reports whether a thing has corners that can be chosen: the crown of a
// tree is only dragged, and typed under Properties.
func cornered(s *doc.Scheme, id doc.ID) bool { return doc.KindOf(s, id) != doc.MarkKind }

func (t pointing) click(w *World) Verdict {
	v := Verdict{Next: NewSelect(t.set), Hint: selectHint, Selects: true}
	more := t.start.Mods.Shift || t.start.Mods.Control
	switch {
	case t.hit.Aim:
		v.Select = t.was
	case !more && t.hit.Vertex != NoVertex && len(t.was) == 1 && t.was[0] == t.hit.ID && cornered(w.Scheme, t.hit.ID):
		return selecting{set: t.set}.choose(corner{t.hit.ID, t.hit.Vertex}, w)
	case t.hit.ID == "" && more:
		v.Select = t.was
	case t.hit.ID == "":
	case more:
		v.Select = toggled(t.was, t.hit.ID)
	default:
		v.Select = []doc.ID{t.hit.ID}
	}
	return v
}
