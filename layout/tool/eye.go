package tool

import (
	"fmt"
	"math"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

const (
	eyeHint  = "Drag from the eye to what it looks at, or click both; a drag moves one, Del removes it; Esc: Select"
	eyeLook  = "Let go or click at what it looks at; Shift keeps to 15°, Esc takes back"
	eyeMoved = "Let go to put the eye point down; Esc puts it back"
)

// eyeing places eye points for the standing view: a drag from the eye to what it
// looks at, or two clicks. One that is there is moved by a drag.
type eyeing struct {
	set   *Defaults
	begun bool
	from  geom.Point
	held  string // tag of the eye point that is moved
	moved bool
}

// NewEye returns the tool that places eye points.
func NewEye(d *Defaults) Tool { return eyeing{set: d} }

// Name implements Tool.
func (eyeing) Name() string { return NameEye }

// Handle implements Tool.
func (t eyeing) Handle(e Event, w *World) Verdict {
	rest := Verdict{Cancel: true, Next: eyeing{set: t.set}, Hint: eyeHint, Used: true}
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
		if t.held = eyeAt(w, e); t.held != "" {
			return Verdict{Next: t, Hint: eyeMoved}
		}
		t.begun, t.from = true, snapTo(e, w, snap{}).at
		return Verdict{Next: t, Hint: eyeLook, Used: true}
	}
	to := snapTo(e, w, snap{})
	return Verdict{Next: t, Hint: eyeHint, Overlay: Overlay{Snap: to.mark(), NoteAt: to.at, Note: "Eye point"}}
}

// look follows the pointer from the eye to what it looks at.
func (t eyeing) look(e Event, w *World) Verdict {
	how := snap{from: &t.from, step: fine}
	at := snapTo(e, w, how).at
	v := Verdict{Next: t, Hint: eyeLook, Used: e.Kind == Key && e.Key != "" && !arrowKey(e)}
	eye := doc.Eye{Tag: doc.FreeEyeTag(w.Scheme), Place: doc.Place{At: t.from, Height: doc.UsualEyeHeight}, Field: doc.UsualField}
	far := geom.Distance(t.from, at) > 2*e.Reach
	if at != t.from {
		eye.Bearing = math.Mod(math.Round(geom.Bearing(t.from, at)*10)/10, 360)
		v.Preview = edit.AddEye{Eye: eye}
		v.Overlay = Overlay{Lines: EyeLines(&eye, geom.Distance(t.from, at)), NoteAt: at, Note: fmt.Sprintf("looks %s", angle(eye.Bearing))}
	}
	if far && e.Button == LeftButton && (e.Kind == Up || e.Kind == Down) || at != t.from && e.Kind == Key && e.Key == KeyReturn {
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
	eye.Place.At = snapTo(e, w, snap{}).at
	op := edit.SetEye{Eye: eye}
	switch {
	case e.Kind == Move:
		t.moved = true
		return Verdict{Preview: op, Next: t, Hint: eyeMoved}
	case e.Kind == Up && e.Button == LeftButton:
		v := Verdict{Next: eyeing{set: t.set}, Hint: eyeHint, Cancel: !t.moved}
		if t.moved {
			v.Commit = op
		}
		return v
	}
	return Verdict{Next: t, Hint: eyeMoved}
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
