package tool

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"duskwire/layout/geom"
)

// entry is what was typed of a leg's length, "3.2m<45".
type entry string

// takes reports whether a typed character belongs to a length entry. A letter
// cannot begin one, so that letters stay free for shortcuts.
func (s entry) takes(r rune) bool {
	if r >= '0' && r <= '9' {
		return true
	}
	switch r {
	case '.', ',':
		return true
	case 'm', 'c', ' ', '<', '-':
		return s != ""
	}
	return false
}

// with returns the entry with a character typed; a comma is taken as the
// decimal point.
func (s entry) with(r rune) entry {
	if r == ',' {
		r = '.'
	}
	return s + entry(r)
}

// back returns the entry without its last character.
func (s entry) back() entry { return s[:len(s)-1] }

// longest is the longest leg that can be typed; a garden has no longer one.
const longest = 10000 * geom.Metre

// read returns the length and, when one was typed, the direction in degrees.
// A bare number is in metres: the note at the pointer shows the unit.
func (s entry) read() (length geom.Length, degrees float64, turned bool, err error) {
	size, turn, turned := strings.Cut(string(s), "<")
	size = strings.TrimSpace(size)
	unit := geom.Metre
	for _, u := range []struct {
		name string
		size geom.Length
	}{{"mm", geom.Millimetre}, {"cm", geom.Centimetre}, {"m", geom.Metre}} {
		if cut, ok := strings.CutSuffix(size, u.name); ok {
			size, unit = strings.TrimSpace(cut), u.size
			break
		}
	}
	n, err := strconv.ParseFloat(size, 64)
	l := n * float64(unit)
	if err != nil || !(l >= float64(geom.Millimetre)) || l > float64(longest) {
		return 0, 0, false, fmt.Errorf("found %q, expected a length such as 3.2, 3.2m or 600mm", string(s))
	}
	if turned {
		degrees, err = strconv.ParseFloat(strings.TrimSpace(turn), 64)
		if err != nil || math.Abs(degrees) > 360 {
			return 0, 0, false, fmt.Errorf("found angle %q, expected degrees such as 45", turn)
		}
	}
	return geom.Length(math.Round(l)), degrees, turned, nil
}

// note returns how the entry is shown at the pointer.
func (s entry) note() string {
	last := s[len(s)-1]
	if !strings.ContainsRune(string(s), '<') && (last == '.' || last >= '0' && last <= '9') {
		return string(s) + "_ m"
	}
	return string(s) + "_"
}

// measure returns the note for a leg from a to b: "3.20 m  45°".
func measure(a, b geom.Point) string {
	turn := math.Mod(math.Round(geom.Direction(a, b)), 360)
	return fmt.Sprintf("%.2f m  %.0f°", geom.Distance(a, b).Metres(), turn)
}
