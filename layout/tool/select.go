package tool

import (
	"strings"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// nudge is how far an arrow key with Alt moves the selection; with Shift it is
// ten steps of the grid.
const nudge = geom.Millimetre

const selectHint = "Click to select, drag to move, drag over empty ground to select many"

// selecting is the resting state: nothing is held down.
type selecting struct {
	set    *Defaults
	corner corner // the one that keys work on
	// from is where the chosen corner was when it was first joined to the next thing.
	from *geom.Point
}

// NewSelect returns the tool that selects, moves, bends and deletes.
func NewSelect(d *Defaults) Tool { return selecting{set: d} }

// Name implements Tool.
func (selecting) Name() string { return NameSelect }

// Handle implements Tool.
func (t selecting) Handle(e Event, w *World) Verdict {
	switch e.Kind {
	case Move:
		h := hitAt(w, e)
		return t.marked(Verdict{Overlay: Overlay{Hover: h.ID, Grip: h.Turn}, Hint: hoverHint(w, h)}, w)
	case Down:
		if e.Button == LeftButton {
			return t.down(e, w)
		}
	case Key:
		if at, ok := t.corner.at(w); ok {
			if v, ok := t.cornerKey(e, w, at); ok {
				return v
			}
		}
		return t.key(e, w)
	case Rune:
		if v, ok := t.cornerRune(e, w); ok {
			return v
		}
		if v, ok := t.legRune(e, w); ok {
			return v
		}
	}
	return t.marked(Verdict{Hint: selectHint}, w)
}

func hoverHint(w *World, h Hit) string {
	switch {
	case h.Aim:
		return aimHandleHint
	case h.Turn:
		return turnHandleHint
	case h.ID == "" || len(w.Selection) != 1 || w.Selection[0] != h.ID:
		return selectHint
	case doc.KindOf(w.Scheme, h.ID) == doc.DimensionKind && h.Vertex != NoVertex:
		return "Drag to measure from another place; click it, then J or the arrows"
	case doc.KindOf(w.Scheme, h.ID) == doc.DimensionKind:
		return "Drag to move the dimension line"
	case h.Vertex != NoVertex && doc.KindOf(w.Scheme, h.ID) == doc.MarkKind:
		return crownHover
	case joinedEnd(w.Scheme, h):
		return endHover
	case h.Vertex != NoVertex:
		return "Drag to move this corner; click it, then Del takes it out"
	case h.Middle > 0:
		return "Drag to put a corner in here"
	case h.Leg != NoVertex:
		return "Drag to put a bend in the run here; 1 to 6 turn this leg " + strings.Join(edit.Supports, ", ")
	}
	return selectHint
}

func (t selecting) down(e Event, w *World) Verdict {
	h := hitAt(w, e)
	v := Verdict{Hint: selectHint}
	if h.Turn {
		next := newTurning(NewSelect(t.set), w.Scheme.Plan.Underlay, e)
		return Verdict{Next: next, Hint: turningHint, Overlay: Overlay{Grip: true}}
	}
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
		if e.Mods.Control {
			return t.aimKey(e, w)
		}
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
	v.Commit = edit.MovePoints{IDs: together(w.Scheme, w.Selection), By: arrow(e, w)}
	return v
}

// arrow returns how far an arrow key moves: a step of the grid, with Shift ten
// of them, with Alt a millimetre.
func arrow(e Event, w *World) geom.Point {
	step := w.Scheme.Plan.Grid
	switch {
	case e.Mods.Alt || step <= 0:
		step = nudge
	case e.Mods.Shift:
		step *= 10
	}
	return map[string]geom.Point{
		KeyUp: {Y: step}, KeyDown: {Y: -step}, KeyLeft: {X: -step}, KeyRight: {X: step},
	}[e.Key]
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
