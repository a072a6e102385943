package tool

import (
	"fmt"
	"strconv"
	"strings"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// Series says how lamps are put in a row or on an arc: so many of them, or one
// every so far.
type Series struct {
	Count   int         // used while Spacing is 0; 0 means usualCount
	Spacing geom.Length // 0: as many as Count
	// WithRun joins each to the one before, and the first to the thing where
	// the row starts, with the cable that a run would get.
	WithRun bool
}

const (
	usualCount = 5
	mostLamps  = 200 // in one row; more is a slip of the unit
)

// Number returns how many lamps come while Spacing is 0.
func (s Series) Number() int {
	if s.Count == 0 {
		return usualCount
	}
	return s.Count
}

// read takes what was typed: a plain whole number is a count, "0.8" or
// anything with a unit a spacing.
func (s Series) read(t entry) (Series, error) {
	if n, err := strconv.Atoi(string(t)); err == nil {
		if n < 2 || n > mostLamps {
			return s, fmt.Errorf("found %d lamps, expected from 2 to %d", n, mostLamps)
		}
		s.Count, s.Spacing = n, 0
		return s, nil
	}
	l, err := readLength(string(t))
	if err != nil || l < geom.Millimetre {
		return s, fmt.Errorf("found %q, expected a number of lamps such as 6 or a spacing such as 0.8m", string(t))
	}
	s.Spacing = l
	return s, nil
}

// places returns the distances of the lamps from the start of a line of the
// length. fromThing says that something stands at the start, so that the first
// lamp comes one spacing later.
func (s Series) places(length geom.Length, fromThing bool) ([]float64, error) {
	first, n, step := 0, s.Number(), 0.0
	if fromThing {
		first = 1
	}
	if s.Spacing < 0 { // typed into the tray
		return nil, fmt.Errorf("found a spacing of %s, expected one above 0", doc.Written(s.Spacing))
	}
	switch {
	case length <= 0:
		return nil, fmt.Errorf("the line of lamps has no length yet")
	case s.Spacing > 0:
		step = float64(s.Spacing)
		// A micrometre of grace, so that 3 m at 1 m has its last lamp.
		n = int((length+1)/s.Spacing) + 1 - first
	case fromThing:
		step = float64(length) / float64(n)
	default:
		step = float64(length) / float64(n-1)
	}
	if n < 1 {
		return nil, fmt.Errorf("no lamp fits: the line is shorter than the spacing of %s", doc.Written(s.Spacing))
	}
	if n > mostLamps {
		return nil, fmt.Errorf("that would be %d lamps, expected at most %d", n, mostLamps)
	}
	out := make([]float64, n)
	for i := range out {
		out[i] = step * float64(i+first)
	}
	return out, nil
}

// note tells how many lamps come at what spacing.
func (s Series) note(at []float64, length geom.Length) string {
	n := len(at)
	step := float64(s.Spacing)
	if step == 0 && n > 1 {
		step = at[1] - at[0]
	}
	out := fmt.Sprintf("%.2f m, %d lamps", length.Metres(), n)
	if n > 1 {
		out += fmt.Sprintf(" every %.2f m", step/float64(geom.Metre))
	}
	return out
}

// layout is a row or arc of lamps that is being made: ids stay the same from
// preview to preview.
type layout struct {
	set  *Defaults
	ids  []doc.ID
	name string // "Row", "Arc"
}

// id returns the id of the i-th entity.
func (l *layout) id(i int) doc.ID {
	for len(l.ids) <= i {
		l.ids = append(l.ids[:len(l.ids):len(l.ids)], l.set.id())
	}
	return l.ids[i]
}

// build returns the operation that adds lamps at the places, and with runs when
// the series says so. start is where the row begins, bend returns the corners
// of the run between two neighbours (nil for straight).
func (l *layout) build(w *World, start snapped, at []geom.Point) (op edit.AddMany, refused string) {
	op.Label = fmt.Sprintf("%s of %d lamps", l.name, len(at))
	for i, p := range at {
		lamp, why := makeLamp(l.set, w, l.id(2*i), p)
		if why == "" {
			why = taken(w.Scheme, p)
		}
		if why != "" {
			return op, why
		}
		lamp.(*doc.Lamp).Tag = ""
		op.Entities = append(op.Entities, lamp)
	}
	if !l.set.Series.WithRun || len(at) == 0 {
		return op, ""
	}
	op.Label += " with run"
	// The ends of the runs ask what the lamps are, so they must be there.
	next, err := op.Apply(w.Scheme)
	if err != nil {
		return op, err.Error()
	}
	there := *w
	there.Scheme = next
	from := start
	for i, p := range at {
		to := snapped{at: p, rank: geom.RankPoint, on: l.id(2 * i)}
		if from.rank == geom.RankPoint {
			r := running{set: l.set, id: l.id(2*i + 1), start: from}.finished(&there, to)
			r.Tag = ""
			op.Entities = append(op.Entities, r)
		}
		from = to
	}
	return op, ""
}

// typed gives an event to what both tools have typed. W and a bare number or
// spacing change the series; anything with <, @ or = in it is a point, which the
// tool takes itself at typedEnd. Until the row has begun only a place can be one.
func (d *Defaults) typed(typed entry, e Event, begun bool) (next entry, refused string, how typing) {
	if e.Kind == Rune && strings.ContainsRune("wW", e.Rune) {
		d.Series.WithRun = !d.Series.WithRun
		return typed, "", typedOn
	}
	if e.Kind == Rune && !begun && strings.ContainsRune("<@", e.Rune) {
		return typed, "", notTyped
	}
	next, how = typed.answer(e, true)
	if how != typedEnd || next.isPoint() {
		return next, "", how
	}
	s, err := d.Series.read(next)
	if err != nil {
		return next, err.Error(), typedOn
	}
	d.Series = s
	return "", "", typedOn
}

// seriesHint ends the hint of both tools.
func seriesHint(d *Defaults) string {
	with := "W joins them"
	if d.Series.WithRun {
		with = "joined, W: not"
	}
	n := fmt.Sprintf("%d lamps", d.Series.Number())
	if d.Series.Spacing > 0 {
		n = "one every " + doc.Written(d.Series.Spacing)
	}
	return "; " + n + ": type 6 or 0.8m to change; " + with
}

// typingHint says what Return does with what is typed, "" for nothing typed. point
// is what a point would be.
func (d *Defaults) typingHint(t entry, point string) string {
	if t == "" {
		return ""
	}
	if t.isPoint() {
		return "Return: " + point + "; Backspace takes a character back, Esc all"
	}
	tells := "; with <, @ or = it is a point; Esc drops it"
	s, err := d.Series.read(t)
	switch {
	case err != nil:
		return "A number of lamps such as 6, or a spacing such as 0.8m" + tells
	case s.Spacing > 0:
		return "Return: one lamp every " + doc.Written(s.Spacing) + tells
	}
	return fmt.Sprintf("Return: %d lamps%s", s.Count, tells)
}

// seriesNote shows what is typed at the pointer, and what it is.
func seriesNote(t entry) string {
	if t == "" || t.isPoint() {
		return t.shown()
	}
	if _, err := strconv.Atoi(string(t)); err == nil {
		return string(t) + "_ lamps"
	}
	return "every " + t.shown()
}
