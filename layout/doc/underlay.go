package doc

import (
	"math"
	"path"
	"strconv"
	"strings"

	q "duskwire/calc/quantity"
	"duskwire/layout/geom"
)

// Underlay is the picture under the plan: a photo, a scanned plan or a page.
// The zero value is none. Places on the picture are kept in its own pixels, so
// that they stay on what they were set on when it is moved, turned or scaled.
type Underlay struct {
	// File names the picture. In memory it is a full path; a scheme file holds
	// it relative to the folder that the scheme file lies in.
	File string
	// Sum is the SHA-256 of the picture's file, hexadecimal.
	Sum string
	// Width and Height are the pixels of the picture as it stands.
	Width, Height int
	At            geom.Point // of the upper left corner of the picture on the plan
	Pixel         q.Metre    // side of a pixel on the plan
	Turn          float64    // degrees clockwise about At
	Fade          Ratio      // 0 shown in full, 1 not to be seen
	Lock          bool       // stays where it is
	// Known is the length by which the picture was scaled, Check another one
	// that the scale was compared with.
	Known, Check Measure
}

// Spot is a place on a picture in pixels from its upper left corner, right and
// down.
type Spot struct{ X, Y float64 }

// Measure is a length between two places on the picture that is known in
// truth. A length of 0 says that there is none.
type Measure struct {
	From, To Spot
	Length   geom.Length
}

// Given reports whether there is such a length.
func (m Measure) Given() bool { return m.Length > 0 }

// Pixels returns how many pixels apart its places are.
func (m Measure) Pixels() float64 { return math.Hypot(m.To.X-m.From.X, m.To.Y-m.From.Y) }

// Limits of a picture under the plan.
const (
	mostPixels = 30000 // a side
	// finestPixel and coarsestPixel are the ends of what a pixel may measure,
	// metres: a hair on a stamp, and a garden in a handful of pixels.
	finestPixel   = 1e-6
	coarsestPixel = 10.0
)

// Present reports whether a picture lies under the plan.
func (u Underlay) Present() bool { return u.File != "" }

// Name returns the name of the file without its folder.
func (u Underlay) Name() string { return path.Base(strings.ReplaceAll(u.File, `\`, "/")) }

// Place returns the plan point of a place on the picture. x right and y down
// on the picture are turned clockwise: X = x·cos - y·sin, Y = -(x·sin + y·cos).
func (u Underlay) Place(s Spot) geom.Point {
	sin, cos := math.Sincos(u.Turn * math.Pi / 180)
	k := float64(u.Pixel) * float64(geom.Metre)
	return geom.Point{
		X: u.At.X + geom.Length(math.Round((s.X*cos-s.Y*sin)*k)),
		Y: u.At.Y - geom.Length(math.Round((s.X*sin+s.Y*cos)*k)),
	}
}

// SpotAt returns the place on the picture under a plan point, rounded to a
// hundredth of a pixel.
func (u Underlay) SpotAt(p geom.Point) Spot {
	sin, cos := math.Sincos(u.Turn * math.Pi / 180)
	k := float64(u.Pixel) * float64(geom.Metre)
	x, y := float64(p.X-u.At.X)/k, float64(u.At.Y-p.Y)/k
	hundredth := func(v float64) float64 { return math.Round(v*100) / 100 }
	return Spot{hundredth(x*cos + y*sin), hundredth(y*cos - x*sin)}
}

// Corners returns the plan points of the corners: upper left, upper right,
// lower right, lower left as the picture is looked at.
func (u Underlay) Corners() [4]geom.Point {
	w, h := float64(u.Width), float64(u.Height)
	return [4]geom.Point{u.Place(Spot{}), u.Place(Spot{X: w}), u.Place(Spot{w, h}), u.Place(Spot{Y: h})}
}

// Bounds returns the rectangle around the picture, empty for none.
func (u Underlay) Bounds() geom.Rect {
	if !u.Present() {
		return geom.Rect{}
	}
	c := u.Corners()
	return geom.Around(c[:]...)
}

// Middle returns the plan point of the middle of the picture.
func (u Underlay) Middle() geom.Point {
	return u.Place(Spot{float64(u.Width) / 2, float64(u.Height) / 2})
}

// Measured returns the length that the picture has between the places of a
// measure at its present scale.
func (u Underlay) Measured(m Measure) geom.Length {
	return geom.Metres(m.Pixels() * float64(u.Pixel))
}

// CheckError returns by how much the check dimension as measured on the
// picture is off the true one: by what part of it, and by what length. ok is
// false without a check dimension.
func (u Underlay) CheckError() (part float64, by geom.Length, ok bool) {
	if !u.Check.Given() {
		return 0, 0, false
	}
	by = u.Measured(u.Check) - u.Check.Length
	return float64(by) / float64(u.Check.Length), by, true
}

// OffText returns an error of a length in figures: "+0.42 %, +21 mm".
func OffText(part float64, by geom.Length) string {
	sign := func(s string) string {
		if part < 0 && !strings.HasPrefix(s, "-") {
			return "-" + s
		}
		if part > 0 {
			return "+" + s
		}
		return s
	}
	mm := int64(math.Round(by.Millimetres()))
	return sign(strconv.FormatFloat(math.Abs(part)*100, 'f', 2, 64)) + " %, " + sign(strconv.FormatInt(max(mm, -mm), 10)) + " mm"
}

// underlay checks the picture under the plan.
func (r *report) underlay(u Underlay) {
	r.name = "picture"
	if !u.Present() {
		if u != (Underlay{}) {
			r.add("file", "nothing", "the name of the picture's file")
		}
		return
	}
	r.needText("file", u.File)
	if strings.Contains(u.File, "\n") {
		r.add("file", "a line end", "one line")
	}
	if !isSum(u.Sum) {
		r.add("sha256", strconv.Quote(u.Sum), "a checksum of 64 digits from 0 to f")
	}
	if min(u.Width, u.Height) < 2 || max(u.Width, u.Height) > mostPixels {
		r.add("pixels", "["+strconv.Itoa(u.Width)+", "+strconv.Itoa(u.Height)+"]", "width and height from 2 to "+strconv.Itoa(mostPixels))
	}
	r.point("at", u.At)
	r.number("pixel", float64(u.Pixel), finestPixel, coarsestPixel, " m")
	r.degrees("turn", u.Turn)
	r.number("fade", float64(u.Fade), 0, 1, "")
	r.measure("known", u, u.Known)
	r.measure("check", u, u.Check)
}

func (r *report) measure(field string, u Underlay, m Measure) {
	if !m.Given() {
		if m != (Measure{}) {
			r.add(field+".length", Written(m.Length), "a length above nothing")
		}
		return
	}
	r.span(field+".length", m.Length, geom.Millimetre, Far)
	for _, s := range []struct {
		name string
		at   Spot
	}{{"from", m.From}, {"to", m.To}} {
		r.number(field+"."+s.name+"[1]", s.at.X, 0, float64(u.Width), "")
		r.number(field+"."+s.name+"[2]", s.at.Y, 0, float64(u.Height), "")
	}
	if m.Pixels() < 1 {
		r.add(field+".to", "the place of from", "a place at least a pixel away from it")
	}
}

func isSum(s string) bool {
	return len(s) == 64 && strings.Trim(s, "0123456789abcdef") == ""
}
