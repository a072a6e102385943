package tool

import (
	"fmt"
	"math"
	"strings"

	"duskwire/calc/network"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// NameSection is the name of the tool that edits a run from the side.
const NameSection = "Section"

const (
	sectionHint = "Drag a leg or an end up or down; ← → choose, ↑ ↓ 50 mm, with Shift 10; Return types; 1 to 6 turn the support"
	levelHint   = "Let go to lay it there; Shift: steps of 10 mm, Alt: 1 mm; Esc cancels"
	typingHint  = "Type a depth or height such as 600 or 1.2m; Return takes it, Esc leaves it"
)

// Steps of levels: plain, with Shift, with Alt.
const (
	levelStep     = 50 * geom.Millimetre
	fineLevelStep = 10 * geom.Millimetre
)

// Section edits the one selected run from the side. Places of its events are
// places of the section: X is the distance along the run, Y the level above
// ground; Reach is the pick radius along, ReachUp that across.
type Section struct {
	set *Defaults
	// Run is the run whose part is chosen.
	Run doc.ID
	// Part is the chosen part: 0 the start of the run, then its legs from 1 on,
	// then its end.
	Part int

	held   bool
	moved  bool        // a preview is on
	grip   geom.Length // level of the part above that of the pointer
	level  geom.Length // where the gesture has brought it
	typing bool
	text   string
}

// NewSection returns the tool of the side strip.
func NewSection(d *Defaults) Section { return Section{set: d, Part: 1} }

// Name implements Tool.
func (Section) Name() string { return NameSection }

// Handle implements Tool.
func (t Section) Handle(e Event, w *World) Verdict {
	p := t.profile(w)
	if p == nil {
		return Verdict{Cancel: t.moved, Next: NewSection(t.set)}
	}
	if t.Run != p.Run.ID || t.Part > len(p.Legs)+1 {
		t = Section{set: t.set, Run: p.Run.ID, Part: 1}
	}
	switch e.Kind {
	case Down:
		if e.Button == LeftButton {
			return t.press(e, p)
		}
	case Move:
		if t.held {
			return t.pull(e, p)
		}
		v := t.still(p)
		if part, ok := t.under(e, p); ok && !t.typing {
			v.Overlay.Note, v.Overlay.NoteAt = say(p, part), e.At
		}
		return v
	case Up:
		return t.let(p)
	case Cancel:
		return t.rest(p)
	case Key:
		return t.key(e, p)
	case Rune:
		return t.rune(e, p, w)
	}
	return t.still(p)
}

// profile returns the run that alone is selected, unrolled; nil for none.
func (t Section) profile(w *World) *derive.Profile {
	if len(w.Selection) != 1 {
		return nil
	}
	p, ok := derive.Unroll(w.Scheme, w.Selection[0], nil)
	if !ok {
		return nil
	}
	return p
}

// still returns the verdict that changes nothing.
func (t Section) still(p *derive.Profile) Verdict {
	v := Verdict{Next: t, Hint: sectionHint}
	if t.typing {
		v.Hint = typingHint
		x, y := spotOf(p, t.Part)
		v.Overlay.Typed, v.Overlay.NoteAt = t.shown(p), geom.Point{X: x, Y: y}
	}
	return v
}

// rest drops what was begun.
func (t Section) rest(p *derive.Profile) Verdict {
	was := t.moved
	t.held, t.moved, t.typing, t.text = false, false, false, ""
	v := t.still(p)
	v.Cancel = was
	return v
}

// spotOf returns the middle of a part and its level.
func spotOf(p *derive.Profile, part int) (x, y geom.Length) {
	switch {
	case part <= 0:
		return 0, p.Ends[0].Level
	case part > len(p.Legs):
		return p.Length, p.Ends[1].Level
	}
	l := p.Legs[part-1]
	return (l.From + l.To) / 2, l.Level
}

// endOf returns what stands at the end that a part is, and whether it is one.
func endOf(p *derive.Profile, part int) (doc.Entity, bool) {
	switch {
	case part <= 0:
		return p.Ends[0].On, true
	case part > len(p.Legs):
		return p.Ends[1].On, true
	}
	return nil, false
}

// under returns the part under the pointer: an end before a leg, the nearer leg
// before the other.
func (t Section) under(e Event, p *derive.Profile) (part int, ok bool) {
	away := func(l geom.Length) geom.Length { return geom.Length(math.Abs(float64(e.At.Y - l))) }
	for i, at := range [2]geom.Length{0, p.Length} {
		if p.Ends[i].On != nil && geom.Length(math.Abs(float64(e.At.X-at))) <= e.Reach*3/2 && away(p.Ends[i].Level) <= e.ReachUp*3/2 {
			return i * (len(p.Legs) + 1), true
		}
	}
	best := e.ReachUp
	for i, l := range p.Legs {
		if d := away(l.Level); e.At.X >= l.From-e.Reach && e.At.X <= l.To+e.Reach && (d < best || d == best && !ok) {
			part, best, ok = i+1, d, true
		}
	}
	return part, ok
}

func (t Section) press(e Event, p *derive.Profile) Verdict {
	t.typing, t.text = false, ""
	part, ok := t.under(e, p)
	if !ok {
		return t.still(p)
	}
	t.Part = part
	if e.Clicks > 1 {
		return t.type0(p)
	}
	_, y := spotOf(p, part)
	t.held, t.grip, t.level = true, y-e.At.Y, y
	v := t.still(p)
	v.Overlay.Note, v.Overlay.NoteAt = say(p, part), e.At
	return v
}

// stepOf returns the step of levels under the keys that are held.
func stepOf(m Modifiers) geom.Length {
	switch {
	case m.Alt:
		return geom.Millimetre
	case m.Shift:
		return fineLevelStep
	}
	return levelStep
}

// pull moves the held part to the pointer.
func (t Section) pull(e Event, p *derive.Profile) Verdict {
	by := stepOf(e.Mods)
	t.level = t.within(p, geom.ToGrid(geom.Point{X: e.At.Y + t.grip}, by).X, by)
	_, was := spotOf(p, t.Part)
	v := Verdict{Hint: levelHint, Cancel: t.moved}
	t.moved = t.level != was
	if t.moved {
		v.Preview, v.Cancel = t.op(p, t.level), false
	}
	v.Next = t
	v.Overlay.Note, v.Overlay.NoteAt = sayLevel(p, t.Part, t.level), e.At
	return v
}

// within keeps a leg on its side of the ground: what is buried stays in it by a
// step at least, what is not stays out of it. An end may stand anywhere.
func (t Section) within(p *derive.Profile, level, least geom.Length) geom.Length {
	if _, is := endOf(p, t.Part); is {
		return level
	}
	switch s := p.Legs[t.Part-1].Support; {
	case s == network.Buried:
		return min(level, -least)
	case s == network.InDuct:
		return min(level, 0)
	}
	return max(level, 0)
}

// op returns the operation that brings the chosen part to a level.
func (t Section) op(p *derive.Profile, level geom.Length) edit.Operation {
	if on, is := endOf(p, t.Part); is {
		if on == nil {
			return nil
		}
		return edit.SetHeight{ID: on.Key(), Height: level}
	}
	return edit.LayLeg{Run: p.Run.ID, Leg: t.Part - 1, Level: level}
}

func (t Section) let(p *derive.Profile) Verdict {
	if !t.held {
		return t.still(p) // of the second press of a double click
	}
	if !t.moved {
		return t.rest(p)
	}
	op := t.op(p, t.level)
	v := t.rest(p)
	v.Cancel, v.Commit = false, op
	return v
}

func (t Section) key(e Event, p *derive.Profile) Verdict {
	last := len(p.Legs) + 1
	switch e.Key {
	case KeyEscape:
		if t.typing || t.held {
			v := t.rest(p)
			v.Used = true
			return v
		}
		return t.still(p)
	case KeyReturn:
		if t.typing {
			return t.take(p)
		}
		return t.type0(p)
	case KeyBackSpace:
		if r := []rune(t.text); t.typing && len(r) > 0 {
			t.text = string(r[:len(r)-1])
		}
	case KeyLeft, KeyRight:
		if t.typing || t.held {
			break
		}
		if t.Part--; e.Key == KeyRight {
			t.Part += 2
		}
		t.Part = min(max(t.Part, 0), last)
		v := t.still(p)
		x, y := spotOf(p, t.Part)
		v.Overlay.Note, v.Overlay.NoteAt, v.Used = say(p, t.Part), geom.Point{X: x, Y: y}, true
		return v
	case KeyUp, KeyDown:
		if !t.typing && !t.held {
			return t.nudge(e, p)
		}
	default:
		return t.still(p)
	}
	v := t.still(p)
	v.Used = true
	return v
}

// nudge moves the chosen part by a step, onto a whole number of steps.
func (t Section) nudge(e Event, p *derive.Profile) Verdict {
	by := stepOf(e.Mods)
	_, was := spotOf(p, t.Part)
	to := was + by
	if e.Key == KeyDown {
		to = was - by
	}
	to = t.within(p, geom.ToGrid(geom.Point{X: to}, by).X, by)
	v := t.still(p)
	v.Used = true
	if v.Refused = t.fixed(p); v.Refused != "" {
		return v
	}
	if to == was {
		v.Refused = "The ground ends it here; 1 to 6 turn the leg into another support"
		return v
	}
	v.Commit = t.op(p, to)
	x, _ := spotOf(p, t.Part)
	v.Overlay.Note, v.Overlay.NoteAt = sayLevel(p, t.Part, to), geom.Point{X: x, Y: to}
	return v
}

// fixed says why the chosen part cannot be moved, "" when it can.
func (t Section) fixed(p *derive.Profile) string {
	if on, is := endOf(p, t.Part); is && on == nil {
		return "This end is in the air; nothing stands there to have a height"
	}
	return ""
}

// type0 begins to type a figure.
func (t Section) type0(p *derive.Profile) Verdict {
	v := t.still(p)
	if v.Refused = t.fixed(p); v.Refused == "" {
		t.typing, t.text = true, ""
		v = t.still(p)
	}
	v.Used = true
	return v
}

// figure returns the depth or height of the chosen part and whether it is one
// of the ground.
func (t Section) figure(p *derive.Profile) (l geom.Length, deep bool) {
	_, l = spotOf(p, t.Part)
	if _, is := endOf(p, t.Part); !is && edit.InGround(p.Legs[t.Part-1].Support) {
		return -l, true
	}
	return l, false
}

// shown returns the field that is being typed in.
func (t Section) shown(p *derive.Profile) string {
	l, deep := t.figure(p)
	name := "height "
	if deep {
		name = "depth "
	}
	if t.text == "" {
		return name + "_ (" + doc.Written(l) + ")"
	}
	text := name + t.text + "_"
	if strings.Trim(t.text, "-0123456789.") == "" {
		text += " " + t.unit(p)
	}
	return text
}

// unit is that of the figure shown, which a bare number is in.
func (t Section) unit(p *derive.Profile) string {
	l, _ := t.figure(p)
	if l == 0 || strings.HasSuffix(doc.Written(l), "mm") {
		return "mm"
	}
	return "m"
}

// take commits what was typed.
func (t Section) take(p *derive.Profile) Verdict {
	text := strings.TrimSpace(t.text)
	if text == "" {
		v := t.rest(p)
		v.Used = true
		return v
	}
	if strings.Trim(text, "-0123456789.") == "" {
		text += t.unit(p)
	}
	l, err := readLength(text)
	if err != nil {
		v := t.still(p)
		v.Refused, v.Used = fmt.Sprintf("found %q, expected a length such as 600, 450mm or 1.2m", t.text), true
		return v
	}
	if _, deep := t.figure(p); deep {
		l = -l
	}
	v := t.rest(p)
	v.Commit, v.Used = t.op(p, l), true
	return v
}

func (t Section) rune(e Event, p *derive.Profile, w *World) Verdict {
	v := t.still(p)
	i := int(e.Rune - '1')
	switch {
	case t.typing && strings.ContainsRune("0123456789.,-mc ", e.Rune):
		r := e.Rune
		if r == ',' {
			r = '.'
		}
		t.text += string(r)
		v = t.still(p)
		v.Used = true
	case t.typing:
		v.Used = true
	case i >= 0 && i < len(edit.Supports) && !t.held:
		v.Used = true
		if _, is := endOf(p, t.Part); is {
			v.Refused = "An end has no support; choose a leg with ← →"
			return v
		}
		v.Commit = TurnLeg(t.set, w, t.Part-1, network.Support(i))
	}
	return v
}

// say tells a part and where it lies.
func say(p *derive.Profile, part int) string {
	_, y := spotOf(p, part)
	return sayLevel(p, part, y)
}

func sayLevel(p *derive.Profile, part int, level geom.Length) string {
	if on, is := endOf(p, part); is {
		if on == nil {
			return "End in the air"
		}
		return fmt.Sprintf("%s, %s above ground", on.Label(), doc.Written(level))
	}
	l := p.Legs[part-1]
	text := fmt.Sprintf("Leg %d, %s", part, edit.Supports[l.Support])
	switch {
	case l.Support == network.Buried && level == 0:
		return text + ", depth not given"
	case edit.InGround(l.Support):
		return text + ", " + doc.Written(-level) + " deep"
	}
	return text + ", " + doc.Written(level) + " up"
}
