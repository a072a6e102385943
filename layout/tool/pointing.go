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
		next := t.drag(w)
		v := next.Handle(e, w)
		if v.Next == nil {
			v.Next = next
		}
		return v
	case Up:
		if e.Button == LeftButton {
			return t.click()
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
func (t pointing) drag(w *World) Tool {
	if !t.grab {
		return rubber{set: t.set, from: t.start.At, was: t.was}
	}
	if len(w.Selection) == 1 && (t.hit.Vertex != NoVertex || t.hit.Leg != NoVertex) {
		return newVertexDrag(t.set, w.Scheme, t.hit)
	}
	return newDragging(t.set, w, t.start.At, t.hit)
}

func (t pointing) click() Verdict {
	v := Verdict{Next: NewSelect(t.set), Hint: selectHint, Selects: true}
	more := t.start.Mods.Shift || t.start.Mods.Control
	switch {
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
