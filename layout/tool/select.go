package tool

import (
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// nudge is how far an arrow key with Shift moves the selection.
const nudge = 10 * geom.Millimetre

const selectHint = "Click to select, drag to move, drag over empty ground to select many"

// selecting is the resting state: nothing is held down.
type selecting struct{ set *Defaults }

// NewSelect returns the tool that selects, moves, bends and deletes.
func NewSelect(d *Defaults) Tool { return selecting{d} }

// Name implements Tool.
func (selecting) Name() string { return NameSelect }

// Handle implements Tool.
func (t selecting) Handle(e Event, w *World) Verdict {
	switch e.Kind {
	case Move:
		h := Pick(w.Scheme, e.At, e.Reach)
		return Verdict{Overlay: Overlay{Hover: h.ID}, Hint: hoverHint(w, h)}
	case Down:
		if e.Button == LeftButton {
			return t.down(e, w)
		}
	case Key:
		return t.key(e, w)
	}
	return Verdict{Hint: selectHint}
}

func hoverHint(w *World, h Hit) string {
	switch {
	case h.ID == "" || len(w.Selection) != 1 || w.Selection[0] != h.ID:
		return selectHint
	case h.Vertex != NoVertex:
		return "Drag to move this corner"
	case h.Leg != NoVertex:
		return "Drag to put a bend in the run here"
	}
	return selectHint
}

func (t selecting) down(e Event, w *World) Verdict {
	h := Pick(w.Scheme, e.At, e.Reach)
	v := Verdict{Hint: selectHint}
	grab := h.ID != "" && holds(w.Selection, h.ID)
	more := e.Mods.Shift || e.Mods.Control
	if !grab && !more && doc.KindOf(w.Scheme, h.ID).Joinable() {
		// Taking hold of a thing selects it at once, so that it can be dragged
		// in the same movement. Ground and runs must be selected first, so that
		// a drag over a lawn does not take the lawn along.
		v.Select, v.Selects, grab = []doc.ID{h.ID}, true, true
	}
	v.Next = pointing{set: t.set, start: e, hit: h, was: w.Selection, grab: grab}
	return v
}

func (t selecting) key(e Event, w *World) Verdict {
	v := Verdict{Hint: selectHint}
	switch e.Key {
	case KeyEscape:
		v.Selects, v.Used = true, true
	case KeyDelete, KeyBackSpace:
		v.Used = true
		if len(w.Selection) == 0 {
			v.Refused = "Nothing is selected, so nothing was deleted"
			return v
		}
		v.Commit, v.Selects = edit.Delete{IDs: w.Selection}, true
	case KeyUp, KeyDown, KeyLeft, KeyRight:
		v = t.nudge(e, w)
	case KeySelectAll:
		v.Select, v.Selects, v.Used = everything(w.Scheme), true, true
	}
	return v
}

func (t selecting) nudge(e Event, w *World) Verdict {
	v := Verdict{Hint: selectHint}
	if len(w.Selection) == 0 {
		return v // the arrows then move the pointer
	}
	v.Used = true
	step := w.Scheme.Plan.Grid
	if e.Mods.Shift || step <= 0 {
		step = nudge
	}
	by := map[string]geom.Point{
		KeyUp: {Y: step}, KeyDown: {Y: -step}, KeyLeft: {X: -step}, KeyRight: {X: step},
	}[e.Key]
	v.Commit = edit.MovePoints{IDs: together(w.Scheme, w.Selection), By: by}
	return v
}

// toggled returns the selection with the id added, or without it when it was in.
func toggled(ids []doc.ID, id doc.ID) []doc.ID {
	out := make([]doc.ID, 0, len(ids)+1)
	for _, i := range ids {
		if i != id {
			out = append(out, i)
		}
	}
	if len(out) == len(ids) {
		out = append(out, id)
	}
	return out
}
