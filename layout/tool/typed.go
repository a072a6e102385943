package tool

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"

	"duskwire/layout/geom"
)

// entry is what was typed of the next point while drawing:
//
//	3.2m<45   length and direction     @1.5,2   so far right and up of the last point
//	3.2       length                   =4,2     place on the plan
//	<90       direction
//
// A direction is a bearing, degrees clockwise from up the sheet, as the aim of
// a lamp is. A bare number is in metres. What is not typed, the pointer gives.
type entry string

// longestEntry is more than any entry needs.
const longestEntry = 40

// typeHint is the part of a hint that tells how to type the next point.
const typeHint = "type 3.2m<90 (° from up), @1,2 or =4,2"

// takes reports whether a typed character belongs to the entry. A letter
// cannot begin one, so that letters stay free for shortcuts, nor can a minus,
// which zooms. With nothing drawn yet only a place can be typed.
func (s entry) takes(r rune, drawing bool) bool {
	switch {
	case s == "" && r == '=':
		return true
	case s == "":
		return drawing && (strings.ContainsRune(".,<@", r) || unicode.IsDigit(r) && r < 0x80)
	}
	return strings.ContainsRune("0123456789.,mc <-", r)
}

// with returns the entry with a character typed. In a length a comma is taken
// as the decimal point; in a pair it stands between the two.
func (s entry) with(r rune) entry {
	if len(s) >= longestEntry {
		return s // a key is being held down
	}
	if r == ',' && !s.pair() {
		r = '.'
	}
	return s + entry(r)
}

// back returns the entry without its last character.
func (s entry) back() entry { return s[:len(s)-1] }

// pair reports whether the entry is two coordinates.
func (s entry) pair() bool { return strings.HasPrefix(string(s), "@") || s.absolute() }

func (s entry) absolute() bool { return strings.HasPrefix(string(s), "=") }

// shown returns the entry as it stands at the pointer, with the unit that a
// bare number has.
func (s entry) shown() string {
	if s == "" {
		return ""
	}
	text := string(s) + "_"
	last := s[len(s)-1]
	if !strings.ContainsRune(string(s), '<') && (last == '.' || last >= '0' && last <= '9') {
		text += " m"
	}
	return text
}

// aim returns where the entry leads from a point, with the pointer giving what
// was not typed: to is where it was pulled, grid the step of a length that
// nothing on the plan gives.
func (s entry) aim(from geom.Point, to snapped, grid geom.Length) (geom.Point, error) {
	if s.pair() {
		v, err := s.coordinates()
		if err == nil && !s.absolute() {
			v = v.Add(from)
		}
		return v, err
	}
	length, bearing, turned, err := s.polar()
	if err != nil {
		return to.at, err
	}
	if !turned {
		bearing = geom.Bearing(from, to.at)
	}
	if length == 0 {
		if length = ahead(from, to, bearing, grid); length <= 0 {
			return to.at, fmt.Errorf("the pointer lies behind; %s points the other way", string(s))
		}
	}
	return geom.Toward(from, bearing, length), nil
}

// ahead returns how far the pointer lies from a point along a bearing: exactly,
// when something on the plan has caught it, else in steps of the grid.
func ahead(from geom.Point, to snapped, bearing float64, grid geom.Length) geom.Length {
	sin, cos := math.Sincos(bearing * math.Pi / 180)
	v := to.at.Sub(from)
	along := geom.Length(math.Round(float64(v.X)*sin + float64(v.Y)*cos))
	switch to.rank {
	case geom.RankGrid, geom.RankAngle, geom.RankFree:
		return geom.ToGrid(geom.Point{X: along}, grid).X
	}
	return along
}

// coordinates reads the two lengths of "@1.5,2" and "=4,2".
func (s entry) coordinates() (geom.Point, error) {
	right, up, found := strings.Cut(string(s)[1:], ",")
	x, err1 := readLength(right)
	y, err2 := readLength(up)
	if !found || err1 != nil || err2 != nil {
		return geom.Point{}, fmt.Errorf("found %q, expected two lengths such as %s1.5,2", string(s), string(s)[:1])
	}
	return geom.Point{X: x, Y: y}, nil
}

// polar returns the length, 0 when only a direction was typed, and the bearing
// when one was.
func (s entry) polar() (length geom.Length, bearing float64, turned bool, err error) {
	size, turn, turned := strings.Cut(string(s), "<")
	if !turned || strings.TrimSpace(size) != "" {
		length, err = readLength(size)
		if err != nil || length < geom.Millimetre {
			return 0, 0, false, fmt.Errorf("found %q, expected a length such as 3.2, 3.2m or 600mm", string(s))
		}
	}
	if turned {
		bearing, err = strconv.ParseFloat(strings.TrimSpace(turn), 64)
		if err != nil || !(math.Abs(bearing) <= 360) {
			return 0, 0, false, fmt.Errorf("found angle %q, expected degrees clockwise from up, such as 45", turn)
		}
	}
	return length, bearing, turned, nil
}
