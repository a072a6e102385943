package tool

import (
	"fmt"
	"math"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

const (
	eyeHint  = "Drag from the eye to what it looks at, or click both, or type =x,y; click or drag one that is there to move it, Del removes it; Esc: Select"
	eyeLook  = "Let go or click at what it looks at, or type <90, @1,2 or =4,2; Shift keeps to 15°, Esc takes back"
	eyeMoved = "Let go to put the eye point down; Esc puts it back"
	eyeTaken = "Click where the eye point goes, or " + typeShort + "; Esc puts it back"
)

// eyeing places eye points for the standing view: a drag from the eye to what it
// looks at, or two clicks. One that is there is moved by a drag, or by a click that
// takes it up and another that puts it down.
type eyeing struct {
	set   *Defaults
	begun bool
	from  geom.Point
	held  string // tag of the eye point that is moved
	down  geom.Point
	moved bool
	taken bool // the button is up again
	typed entry
}

// NewEye returns the tool that places eye points.
func NewEye(d *Defaults) Tool { return eyeing{set: d} }

// Name implements Tool.
func (eyeing) Name() string { return NameEye }

// Handle implements Tool.
func (t eyeing) Handle(e Event, w *World) Verdict {
	rest := Verdict{Cancel: true, Next: eyeing{set: t.set}, Hint: eyeHint, Used: true}
	next, how := t.typed.answer(e, t.begun || t.taken)
	if t.typed = next; how != notTyped {
		v := t.typing(e, w, how)
		v.Used = true
		return v
	}
	switch {
	case e.Kind == Cancel:
		return rest
	case e.Kind == Key && e.Key == KeyEscape && (t.begun || t.held != ""):
		return rest
	case e.Kind == Key && e.Key == KeyEscape:
		rest.Next, rest.Hint = NewSelect(t.set), selectHint
		return rest
	case e.Kind == Key && e.Key == KeyDelete && !t.begun && t.held == "":
		if tag := eyeAt(w, e); tag != "" {
			rest.Cancel, rest.Commit = false, edit.RemoveEye{Tag: tag}
			return rest
		}
		rest.Refused = "Point at an eye point to remove it"
		return rest
	case t.held != "":
		return t.move(e, w)
	case t.begun:
		return t.look(e, w)
	case e.Kind == Down && e.Button == LeftButton:
		if t.held = eyeAt(w, e); t.held != "" && t.typed == "" {
			t.down = e.At
			return Verdict{Next: t, Hint: eyeMoved}
		}
		t.held = ""
		return t.begin(e, w)
	}
	return t.show(e, w)
}

// typing shows what is typed, or takes it.
func (t eyeing) typing(e Event, w *World, how typing) Verdict {
	switch {
	case t.held != "":
		return t.move(e, w)
	case t.begun:
		return t.look(e, w)
	case how == typedEnd:
		return t.begin(e, w)
	}
	return t.show(e, w)
}

// begin takes where the eye is.
func (t eyeing) begin(e Event, w *World) Verdict {
	at, err := snapTo(e, w, snap{}).at, error(nil)
	if t.typed != "" {
		if at, err = t.typed.coordinates(); err != nil {
			v := t.show(e, w)
			v.Refused = err.Error()
			return v
		}
	}
	t.begun, t.from, t.typed = true, at, ""
	return Verdict{Next: t, Hint: eyeLook, Used: true}
}

// show shows where a click would put the eye.
func (t eyeing) show(e Event, w *World) Verdict {
	to := snapTo(e, w, snap{})
	v := Verdict{Next: t, Hint: eyeHint, Overlay: Overlay{Snap: to.mark(), NoteAt: to.at, Note: "Eye point"}}
	if t.typed != "" {
		at, err := t.typed.coordinates()
		v.Overlay.typed(t.typed, at, err)
	}
	return v
}

// look follows the pointer from the eye to what it looks at.
func (t eyeing) look(e Event, w *World) Verdict {
	to := snapTo(e, w, snap{from: &t.from, step: fine})
	at, err := to.at, error(nil)
	if t.typed != "" {
		at, err = t.typed.heading(t.from, to, gridOf(e, w), usualLeg)
	}
	v := Verdict{Next: t, Hint: eyeLook, Used: e.Kind == Key && e.Key != "" && !arrowKey(e)}
	enter := e.Kind == Key && e.Key == KeyReturn
	if err != nil {
		v.Overlay = Overlay{Typed: t.typed.shown(), NoteAt: to.at}
		if enter {
			v.Refused = err.Error()
		}
		return v
	}
	eye := doc.Eye{Tag: doc.FreeEyeTag(w.Scheme), Place: doc.Place{At: t.from, Height: doc.UsualEyeHeight}, Field: doc.UsualField}
	far := geom.Distance(t.from, at) > 2*e.Reach || e.Keyed && at != t.from
	if at != t.from {
		eye.Bearing = math.Mod(math.Round(geom.Bearing(t.from, at)*10)/10, 360)
		v.Preview = edit.AddEye{Eye: eye}
		v.Overlay = Overlay{Lines: EyeLines(&eye, geom.Distance(t.from, at)), NoteAt: at, Note: fmt.Sprintf("looks %s", angle(eye.Bearing)), Typed: t.typed.shown()}
		if t.typed != "" {
			v.Overlay.Leads = &at
		}
	}
	if far && e.Button == LeftButton && (e.Kind == Up || e.Kind == Down) || at != t.from && enter {
		v.Preview, v.Commit, v.Overlay = nil, edit.AddEye{Eye: eye}, Overlay{}
		v.Next, v.Hint = NewSelect(t.set), selectHint
	}
	return v
}

// move moves an eye point that is there.
func (t eyeing) move(e Event, w *World) Verdict {
	eye, ok := w.Scheme.Eye(t.held)
	if !ok {
		return Verdict{Cancel: true, Next: eyeing{set: t.set}, Hint: eyeHint}
	}
	to := snapTo(e, w, snap{})
	at, err := to.at, error(nil)
	if t.typed != "" {
		at, err = t.typed.aim(eye.Place.At, to, gridOf(e, w))
	}
	stay := Verdict{Next: t, Hint: eyeMoved, Overlay: Overlay{Snap: to.mark(), NoteAt: to.at}}
	if t.taken {
		stay.Hint = eyeTaken
	}
	stay.Overlay.typed(t.typed, at, err)
	enter := e.Kind == Key && e.Key == KeyReturn
	if err != nil {
		if enter {
			stay.Refused = err.Error()
		}
		return stay
	}
	t.moved = t.moved || t.typed != "" || e.Kind == Move && geom.Distance(e.At, t.down) > stillReach(e)
	if eye.Place.At = at; t.moved {
		stay.Preview = edit.SetEye{Eye: eye}
	}
	stay.Next = t
	up, down := e.Kind == Up && e.Button == LeftButton, e.Kind == Down && e.Button == LeftButton
	switch {
	case up && !t.moved && !t.taken:
		t.taken = true
		stay.Next, stay.Hint = t, eyeTaken
	case t.moved && (up && !t.taken || down && t.taken || enter):
		return Verdict{Commit: stay.Preview, Next: eyeing{set: t.set}, Hint: eyeHint, Used: true}
	case down || enter: // put down where it was
		return Verdict{Cancel: true, Next: eyeing{set: t.set}, Hint: eyeHint, Used: true}
	}
	return stay
}

// eyeAt returns the tag of the eye point under the pointer, "" for none.
func eyeAt(w *World, e Event) string {
	tag, least := "", 2*e.Reach
	for _, eye := range w.Scheme.Eyes {
		if d := geom.Distance(eye.Place.At, e.At); d <= least {
			tag, least = eye.Tag, d
		}
	}
	return tag
}

// EyeLines returns what an eye point is drawn with: the two edges of what it sees,
// so long, and the arc between them.
func EyeLines(e *doc.Eye, length geom.Length) [][]geom.Point {
	const pieces = 8
	line := []geom.Point{e.Place.At}
	for i := 0; i <= pieces; i++ {
		line = append(line, geom.Toward(e.Place.At, e.Bearing-e.Field/2+e.Field*float64(i)/pieces, length))
	}
	return [][]geom.Point{append(line, e.Place.At)}
}
