package doc

import (
	"slices"
	"strconv"

	"duskwire/layout/geom"
)

// Eye is a point that somebody looks from at night: the terrace door, the gate.
// It is no part of the circuit and of what is built.
type Eye struct {
	Tag   string // "V1", its own for ever
	Name  string // "Terrace door"; "" not said
	Place Place  // Height is that of the eye
	// Bearing is where it looks, in degrees clockwise from up the sheet; Tilt how
	// far above level, -60 to 60; Field from the left edge of the picture to the
	// right one, 10 to 150.
	Bearing, Tilt, Field float64
}

// What a new eye point has: the eye of a standing grown-up (1.6 m) and as much
// as a picture shows without bending much (common practice, no source).
const (
	UsualEyeHeight = 1600 * geom.Millimetre
	UsualField     = 65.0
)

// Limits of an eye point.
const (
	MostEyes              = 50
	LeastField, MostField = 10.0, 150.0
	MostEyeTilt           = 60.0
	mostEyeHeight         = 100 * geom.Metre
	eyePrefix             = "V"
	lowestEye             = 10 * geom.Millimetre
)

// Title names the eye point for people.
func (e *Eye) Title() string {
	if e.Name == "" {
		return "View " + e.Tag
	}
	return e.Name
}

// Eye returns the eye point with a tag.
func (s *Scheme) Eye(tag string) (Eye, bool) {
	i := slices.IndexFunc(s.Eyes, func(e Eye) bool { return e.Tag == tag })
	if i < 0 {
		return Eye{}, false
	}
	return s.Eyes[i], true
}

// FreeEyeTag returns the tag of a new eye point: one more than the highest in use.
func FreeEyeTag(s *Scheme) string {
	most := 0
	for _, e := range s.Eyes {
		if len(e.Tag) > len(eyePrefix) && e.Tag[:len(eyePrefix)] == eyePrefix {
			if n, err := strconv.Atoi(e.Tag[len(eyePrefix):]); err == nil && n < 1_000_000 {
				most = max(most, n)
			}
		}
	}
	return eyePrefix + strconv.Itoa(most+1)
}

// eyes checks the eye points.
func (r *report) eyes(list []Eye) {
	if len(list) > MostEyes {
		r.name = "eyes"
		r.add("", strconv.Itoa(len(list))+" eye points", "at most "+strconv.Itoa(MostEyes))
		return
	}
	seen := map[string]bool{}
	for i, e := range list {
		r.name = "eye " + strconv.Itoa(i+1)
		r.word("tag", e.Tag)
		if seen[e.Tag] {
			r.add("tag", strconv.Quote(e.Tag)+" a second time", "every tag once")
		}
		seen[e.Tag] = true
		r.text("name", e.Name)
		r.point("at", e.Place.At)
		r.span("height", e.Place.Height, lowestEye, mostEyeHeight)
		r.degrees("bearing", e.Bearing)
		r.number("tilt", e.Tilt, -MostEyeTilt, MostEyeTilt, "°")
		r.number("field", e.Field, LeastField, MostField, "°")
	}
}
