package tool

import (
	"fmt"
	"math"
	"strings"
	"unicode"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// Hints of the scale tool, one a step.
const (
	scaleFrom  = "Scale 1/3: click one end of a length that you know on the picture, the longer the better; Esc goes back to Select"
	scaleTo    = "Scale 2/3: click its other end; Backspace takes the first point back"
	scaleType  = "Scale 3/3: type its true length, such as 12.5 m, and press Return"
	checkFrom  = "Check 1/3: click one end of another known length, best across the first; Esc leaves it unchecked"
	checkTo    = "Check 2/3: click its other end; Backspace takes the first point back"
	checkType  = "Check 3/3: type its true length and press Return"
	noPicture  = "There is no picture under the plan; choose one in the menu Picture"
	lockedHint = "The picture is locked in its place; unlock it in the menu Picture"
)

// scaling gives the picture under the plan its scale: two points and the true
// length between them, then the same again to check it.
type scaling struct {
	set   *Defaults
	check bool // the second round
	spots []doc.Spot
	typed string
	why   string // the last click or key was refused
}

// NewScale returns the tool that scales the picture under the plan and then
// checks the scale.
func NewScale(d *Defaults) Tool { return scaling{set: d} }

// NewScaleCheck returns the tool that only checks the scale.
func NewScaleCheck(d *Defaults) Tool { return scaling{set: d, check: true} }

// Name implements Tool.
func (scaling) Name() string { return NameScale }

// Handle implements Tool.
func (t scaling) Handle(e Event, w *World) Verdict {
	u := w.Scheme.Plan.Underlay
	leave := Verdict{Next: NewSelect(t.set), Hint: selectHint, Used: true}
	switch {
	case e.Kind == Cancel:
		return Verdict{Next: scaling{set: t.set, check: t.check}}
	case e.Kind == Key && e.Key == KeyEscape && (len(t.spots) == 0 || !u.Present()):
		return leave
	case !u.Present():
		return Verdict{Hint: noPicture, Refused: noPicture}
	case u.Lock && !t.check:
		return Verdict{Hint: lockedHint, Refused: lockedHint}
	case e.Kind == Key && e.Key == KeyEscape:
		return scaling{set: t.set, check: t.check}.show(e, w, true)
	case e.Kind == Down && e.Button == LeftButton && len(t.spots) < 2:
		return t.click(e, w)
	case e.Kind == Rune && len(t.spots) == 2:
		return t.letter(e, w)
	case e.Kind == Key && e.Key == KeyBackSpace && len(t.spots) > 0:
		return t.back().show(e, w, true)
	case e.Kind == Key && e.Key == KeyReturn && len(t.spots) == 2:
		return t.finish(e, w)
	}
	return t.show(e, w, false)
}

// click takes a point of the picture.
func (t scaling) click(e Event, w *World) Verdict {
	u := w.Scheme.Plan.Underlay
	s := u.SpotAt(e.At)
	why := ""
	switch {
	case s.X < 0 || s.Y < 0 || s.X > float64(u.Width) || s.Y > float64(u.Height):
		why = "That is beside the picture"
	case len(t.spots) == 1 && math.Hypot(s.X-t.spots[0].X, s.Y-t.spots[0].Y) < 1:
		why = "That is the first point again; take one well away from it"
	}
	if why != "" {
		return t.refuse(e, w, why)
	}
	t.why = ""
	t.spots = append(t.spots[:len(t.spots):len(t.spots)], s)
	return t.show(e, w, true)
}

// letter takes a character of the length.
func (t scaling) letter(e Event, w *World) Verdict {
	r := e.Rune
	if r == ',' {
		r = '.'
	}
	digit := unicode.IsDigit(r) && r < 0x80 || r == '.'
	if !digit && (t.typed == "" || !strings.ContainsRune("mc ", r)) || len(t.typed) > 20 {
		return t.show(e, w, true) // a slip of the finger must not take another tool
	}
	t.typed, t.why = t.typed+string(r), ""
	return t.show(e, w, true)
}

// back takes a character back, or a point.
func (t scaling) back() scaling {
	t.why = ""
	if t.typed != "" {
		t.typed = t.typed[:len(t.typed)-1]
	} else {
		t.spots = t.spots[:len(t.spots)-1]
	}
	return t
}

// finish carries the length out, and goes on to the check or back to Select.
func (t scaling) finish(e Event, w *World) Verdict {
	length, err := readLength(t.typed)
	if err != nil || length < geom.Millimetre {
		return t.refuse(e, w, fmt.Sprintf("Found %q, expected the true length such as 12.5, 12.5m or 850mm", t.typed))
	}
	m := doc.Measure{From: t.spots[0], To: t.spots[1], Length: length}
	if !t.check {
		return t.carry(edit.ScalePicture{Known: m}, w, e, scaling{set: t.set, check: true},
			func(*doc.Scheme) string { return checkFrom })
	}
	return t.carry(edit.CheckPicture{Check: m}, w, e, NewSelect(t.set), func(s *doc.Scheme) string {
		u := s.Plan.Underlay
		part, by, _ := u.CheckError()
		return "Check dimension: " + doc.Written(geom.ToGrid(geom.Point{X: u.Measured(u.Check)}, geom.Millimetre).X) + " on the picture, " + doc.Written(length) +
			" in truth: " + doc.OffText(part, by)
	})
}

// carry tries an operation, so that the tool stays where it is when it is
// refused.
func (t scaling) carry(op edit.Operation, w *World, e Event, next Tool, hint func(*doc.Scheme) string) Verdict {
	after, err := op.Apply(w.Scheme)
	if err != nil {
		return t.refuse(e, w, err.Error())
	}
	return Verdict{Commit: op, Next: next, Hint: hint(after), Used: true}
}

// refuse says why a click or a key did nothing, until the next one.
func (t scaling) refuse(e Event, w *World, why string) Verdict {
	t.why = why
	return t.show(e, w, true)
}

// show returns the verdict that only shows the state.
func (t scaling) show(e Event, w *World, used bool) Verdict {
	hints := [][]string{{scaleFrom, scaleTo, scaleType}, {checkFrom, checkTo, checkType}}
	round := 0
	if t.check {
		round = 1
	}
	v := Verdict{Next: t, Used: used, Hint: hints[round][len(t.spots)], Refused: t.why}
	u, at := w.Scheme.Plan.Underlay, e.At
	o := Overlay{NoteAt: at}
	if len(t.spots) < 2 {
		o.Snap = &at
	}
	if len(t.spots) > 0 {
		from := u.Place(t.spots[0])
		to := at
		if len(t.spots) == 2 {
			to = u.Place(t.spots[1])
			o.NoteAt = to
		}
		o.Lines = [][]geom.Point{{from, to}}
		if drawn := geom.Distance(from, to); t.check || u.Known.Given() {
			o.Note = fmt.Sprintf("%.3f m drawn", drawn.Metres())
		} else {
			o.Note = "how long?"
		}
	}
	if len(t.spots) == 2 {
		o.Typed = entry(t.typed).shown()
	}
	v.Overlay = o
	return v
}
