package tool

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

const (
	turnHandleHint = "Drag to turn the picture about its middle; with keys M, then [ ] { }, or its angle under Properties"
	turningHint    = "Let go to turn the picture; whole degrees, Shift keeps to 15°, Alt to none, or type the angle and Return; Esc puts it back"
)

// Steps of the handle that turns the picture, degrees: as a drag comes, with Shift
// and with Alt, which is how exactly a file keeps the angle.
const turnStep, turnCoarse, turnFine = 1.0, aimCoarse, 0.01

// turning turns the picture about its middle by its handle.
type turning struct {
	back  Tool // takes over at the end
	was   doc.Underlay
	from  geom.Point // where the pointer took hold
	begun bool       // it has moved further than a click
	typed entry
	op    edit.Operation // nil before anything is turned
	angle float64        // that the picture has now
}

// newTurning returns the state that begins with a press on the handle.
func newTurning(back Tool, u doc.Underlay, press Event) Tool {
	return turning{back: back, was: u, from: press.At, angle: u.Turn}
}

// Name implements Tool.
func (t turning) Name() string { return t.back.Name() }

// Handle implements Tool. Every key is taken: a slip of the finger must not take
// another tool or move the pointer.
func (t turning) Handle(e Event, w *World) Verdict {
	end := Verdict{Next: t.back, Hint: hintOf(t.back), Used: true}
	framed := t.back.Name() == NameMovePicture // which shows the edge of the picture
	if framed && w.Scheme.Plan.Underlay.Present() {
		end.Overlay = outline(w.Scheme.Plan.Underlay)
	}
	next, how := t.typing(e)
	t.typed = next
	switch {
	case e.Kind == Cancel, e.Kind == Key && e.Key == KeyEscape && how == notTyped:
		end.Cancel = true
		return end
	case e.Kind == Up && e.Button == LeftButton, how == typedEnd:
		op, _, err := t.turned(e)
		if err != nil && how == typedEnd {
			v := t.show(e, w)
			v.Refused = err.Error()
			return v
		}
		if end.Commit = op; err != nil || op == nil {
			end.Commit, end.Cancel = nil, true
		} else if framed {
			end.Overlay = outlineAfter(op, w)
		}
		return end
	case e.Kind == Move && geom.Distance(t.from, e.At) > e.Reach/2:
		t.begun = true
	}
	return t.show(e, w)
}

// typing gives an event to the angle that is typed: digits, a point, a minus, and
// the sign of a direction, which changes nothing.
func (t turning) typing(e Event) (entry, typing) {
	if e.Kind == Rune && strings.ContainsRune("0123456789.,-<", e.Rune) {
		return t.typed.with(e.Rune), typedOn
	}
	if e.Kind == Rune {
		return t.typed, notTyped
	}
	return t.typed.answer(e, false)
}

// turned returns what the gesture comes to: nil for nothing.
func (t turning) turned(e Event) (op edit.Operation, angle float64, err error) {
	angle = t.was.Turn
	middle := t.was.Middle()
	switch {
	case t.typed != "":
		text := strings.TrimPrefix(string(t.typed), "<")
		angle, err = strconv.ParseFloat(text, 64)
		if err != nil || !(math.Abs(angle) <= wholeTurn) {
			return nil, t.angle, fmt.Errorf("found angle %q, expected degrees clockwise from upright, such as 12.5 or -3", text)
		}
	case t.begun && e.At != middle && t.from != middle:
		step := turnStep
		switch {
		case e.Mods.Alt:
			step = turnFine
		case e.Mods.Shift:
			step = turnCoarse
		}
		angle += geom.Bearing(middle, e.At) - geom.Bearing(middle, t.from)
		angle = math.Round(angle/step) * step
	}
	if angle = math.Remainder(angle, wholeTurn); math.Abs(angle-t.was.Turn) < turnFine/2 {
		return nil, angle, nil
	}
	return edit.TurnPicture{To: angle}, angle, nil
}

// show previews the picture as it is turned.
func (t turning) show(e Event, w *World) Verdict {
	v := Verdict{Hint: turningHint, Used: true}
	op, angle, err := t.turned(e)
	if err == nil {
		t.op, t.angle = op, angle
	}
	u := w.Scheme.Plan.Underlay
	v.Preview, v.Cancel = t.op, t.op == nil
	if t.op != nil {
		if after, err := t.op.Apply(w.Scheme); err == nil {
			u = after.Plan.Underlay
		}
	}
	v.Overlay, v.Next = gripped(u), t
	if t.begun || t.typed != "" {
		v.Overlay.Note, v.Overlay.NoteAt = "turned "+degrees(u.Turn), e.At
	}
	if t.typed != "" {
		v.Overlay.Typed = string(t.typed) + "_ °"
	}
	return v
}

// degrees writes an angle as short as it is kept.
func degrees(deg float64) string { return strconv.FormatFloat(deg, 'f', -1, 64) + "°" }

// hintOf returns what a tool says that the picture is handed back to.
func hintOf(t Tool) string {
	if t.Name() == NameMovePicture {
		return pictureHint
	}
	return selectHint
}
