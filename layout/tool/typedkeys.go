package tool

import (
	"fmt"
	"strings"

	"duskwire/layout/geom"
)

// typeShort is typeHint for hints that have more to say.
const typeShort = "type 3m<90, @1,2 or =4,2"

// usualLeg is how long a line is drawn of which only the direction was typed and
// only the direction counts.
const usualLeg = geom.Metre

// typing is what an entry makes of an event.
type typing int

const (
	notTyped typing = iota // it is not meant for the entry
	typedOn                // a character came, or went, or all of them
	typedEnd               // Return: what was typed is to be taken
)

// answer gives an event to the entry. With nothing drawn yet only a place can be
// typed.
func (s entry) answer(e Event, drawing bool) (entry, typing) {
	switch {
	case e.Kind == Rune && s.takes(e.Rune, drawing):
		return s.with(e.Rune), typedOn
	case e.Kind != Key || s == "":
		return s, notTyped
	}
	switch e.Key {
	case KeyEscape:
		return "", typedOn
	case KeyBackSpace:
		return s.back(), typedOn
	case KeyReturn:
		return s, typedEnd
	}
	return s, notTyped
}

// place returns the place that is typed: counted from the last point, or with nil,
// for the first, on the plan.
func (s entry) place(from *geom.Point, to snapped, grid geom.Length) (geom.Point, error) {
	switch {
	case from != nil:
		return s.aim(*from, to, grid)
	case !s.absolute():
		return to.at, fmt.Errorf("found %q, expected a place for the first point such as =4,2", string(s))
	}
	return s.coordinates()
}

// heading is aim for where the direction alone counts, so that the pointer need
// not lie that way: the line is then so long.
func (s entry) heading(from geom.Point, to snapped, grid, long geom.Length) (geom.Point, error) {
	if !s.pair() {
		if length, bearing, turned, err := s.polar(); err == nil && turned && length == 0 {
			return geom.Toward(from, bearing, long), nil
		}
	}
	return s.aim(from, to, grid)
}

// isPoint reports whether the entry is a point, and no mere number.
func (s entry) isPoint() bool { return strings.ContainsAny(string(s), "<@=") }

// typed shows an entry, at the place that it leads to instead of where the pointer
// was pulled.
func (o *Overlay) typed(s entry, at geom.Point, err error) {
	if s == "" {
		return
	}
	o.Typed, o.Snap, o.Hover = s.shown(), nil, ""
	if err == nil {
		o.Snap, o.NoteAt, o.Leads = &at, at, &at
	}
}

// gridOf returns the step of a length that the pointer gives and nothing on the
// plan does: keys move it by as little as a centimetre.
func gridOf(e Event, w *World) geom.Length {
	grid := w.Scheme.Plan.Grid
	if e.Keyed && grid > geom.Centimetre {
		return geom.Centimetre
	}
	return grid
}
