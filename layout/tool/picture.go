package tool

import (
	"fmt"
	"math"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

const (
	pictureHint = "Drag moves the picture, its handle or Shift+drag turns it; arrows nudge, [ ] turn 1°, { } 0.1°; Esc: Select"
	turnHint    = "Turning about the middle of the picture; Esc drops it"
)

// shifting moves and turns the picture under the plan.
type shifting struct {
	set  *Defaults
	held bool
	turn bool
	from geom.Point
	op   edit.Operation // of the gesture, nil before it has moved
}

// NewMovePicture returns the tool that moves and turns the picture under the
// plan.
func NewMovePicture(d *Defaults) Tool { return shifting{set: d} }

// Name implements Tool.
func (shifting) Name() string { return NameMovePicture }

// Handle implements Tool.
func (t shifting) Handle(e Event, w *World) Verdict {
	u := w.Scheme.Plan.Underlay
	idle := Verdict{Next: shifting{set: t.set}, Hint: pictureHint}
	switch {
	case e.Kind == Cancel || e.Kind == Key && e.Key == KeyEscape && t.held:
		idle.Cancel, idle.Used, idle.Overlay = true, true, outline(u)
		return idle
	case e.Kind == Key && e.Key == KeyEscape:
		return Verdict{Next: NewSelect(t.set), Hint: selectHint, Used: true}
	case !u.Present():
		return Verdict{Hint: noPicture, Refused: noPicture}
	case u.Lock:
		return Verdict{Hint: lockedHint, Refused: lockedHint}
	case e.Kind == Down && e.Button == LeftButton && onPictureMark(u, e):
		return Verdict{Next: newTurning(idle.Next, u, e), Hint: turningHint, Overlay: gripped(u)}
	case e.Kind == Down && e.Button == LeftButton:
		t.held, t.turn, t.from, t.op = true, e.Mods.Shift, e.At, nil
		return Verdict{Next: t, Hint: pictureHint, Overlay: outline(u)}
	case e.Kind == Move && t.held:
		return t.drag(e, w, u)
	case e.Kind == Up && e.Button == LeftButton && t.held:
		idle.Overlay = outline(u)
		if t.op != nil {
			idle.Commit, idle.Overlay = t.op, outlineAfter(t.op, w)
		}
		return idle
	case e.Kind == Key && !t.held:
		return t.nudge(e, w)
	case e.Kind == Rune && !t.held:
		return t.turnBy(e, w)
	}
	idle.Next, idle.Overlay = t, outline(u)
	if e.Kind == Move && onPictureMark(u, e) {
		idle.Hint, idle.Overlay = turnHandleHint, gripped(u)
	}
	return idle
}

// gripped is outline with the pointer on the handle.
func gripped(u doc.Underlay) Overlay {
	o := outline(u)
	o.Grip = true
	return o
}

// outline shows the edge of the picture.
func outline(u doc.Underlay) Overlay {
	c := u.Corners()
	return Overlay{Lines: [][]geom.Point{{c[0], c[1], c[2], c[3], c[0]}}}
}

// outlineAfter is outline of the picture as an operation leaves it, so that the edge
// goes with the picture and does not wait for the pointer.
func outlineAfter(op edit.Operation, w *World) Overlay {
	after, err := op.Apply(w.Scheme)
	if err != nil {
		return outline(w.Scheme.Plan.Underlay)
	}
	return outline(after.Plan.Underlay)
}

func (t shifting) drag(e Event, w *World, u doc.Underlay) Verdict {
	v := Verdict{Hint: pictureHint}
	if t.turn {
		v.Hint = turnHint
		middle := u.Middle()
		if geom.Distance(middle, t.from) == 0 || geom.Distance(middle, e.At) == 0 {
			v.Next = t
			return v
		}
		t.op = edit.TurnPicture{To: u.Turn + geom.Bearing(middle, e.At) - geom.Bearing(middle, t.from)}
	} else {
		t.op = edit.MovePicture{By: e.At.Sub(t.from)}
	}
	v.Preview, v.Next = t.op, t
	if after, err := t.op.Apply(w.Scheme); err == nil {
		n := after.Plan.Underlay
		v.Overlay = outline(n)
		v.Overlay.NoteAt = e.At
		if t.turn {
			v.Overlay.Note = fmt.Sprintf("%.2f°", n.Turn)
		} else {
			v.Overlay.Note = measure(t.from, e.At)
		}
	}
	return v
}

// nudge moves the picture by the grid, with Shift by a centimetre.
func (t shifting) nudge(e Event, w *World) Verdict {
	v := Verdict{Next: t, Hint: pictureHint, Overlay: outline(w.Scheme.Plan.Underlay)}
	step := w.Scheme.Plan.Grid
	if e.Mods.Shift || step <= 0 {
		step = geom.Centimetre
	}
	by, ok := map[string]geom.Point{
		KeyUp: {Y: step}, KeyDown: {Y: -step}, KeyLeft: {X: -step}, KeyRight: {X: step},
	}[e.Key]
	if ok {
		op := edit.MovePicture{By: by}
		v.Commit, v.Used, v.Overlay = op, true, outlineAfter(op, w)
	}
	return v
}

// turnBy turns the picture by a step of a key.
func (t shifting) turnBy(e Event, w *World) Verdict {
	u := w.Scheme.Plan.Underlay
	v := Verdict{Next: t, Hint: pictureHint, Overlay: outline(u)}
	by := map[rune]float64{'[': -1, ']': 1, '{': -0.1, '}': 0.1}[e.Rune]
	if by != 0 {
		// Rounded, so that ten steps of a tenth are one degree.
		op := edit.TurnPicture{To: math.Round((u.Turn+by)*100) / 100}
		v.Commit, v.Used, v.Overlay = op, true, outlineAfter(op, w)
	}
	return v
}
