package doc_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

const sum = "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef"

func lay() doc.Underlay {
	return doc.Underlay{File: "plan.png", Sum: sum, Width: 400, Height: 300, Pixel: 0.01}
}

// A pixel of 10 mm and a quarter turn clockwise: 100 pixels right on the
// picture lie 1 m down the sheet, 50 pixels down lie 0.5 m to the left.
func TestUnderlayPlaces(t *testing.T) {
	u := lay()
	u.At, u.Turn = geom.Pt(10, 10), 90
	for _, c := range []struct {
		s    doc.Spot
		want geom.Point
	}{{doc.Spot{}, geom.Pt(10, 10)}, {doc.Spot{X: 100}, geom.Pt(10, 9)}, {doc.Spot{Y: 50}, geom.Pt(9.5, 10)}} {
		if got := u.Place(c.s); got != c.want {
			t.Errorf("%v lies at %v, want %v", c.s, got, c.want)
		}
	}
	if b := u.Bounds(); b.Min != geom.Pt(7, 6) || b.Max != geom.Pt(10, 10) {
		t.Errorf("bounds %v", b)
	}
}

// To the plan and back is the same place, within the hundredth of a pixel.
func TestUnderlayThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := lay()
		u.Pixel = q.Metre(rapid.Float64Range(0.001, 0.1).Draw(t, "pixel"))
		u.Turn = rapid.Float64Range(-360, 360).Draw(t, "turn")
		u.At = geom.Pt(rapid.Float64Range(-50, 50).Draw(t, "x"), rapid.Float64Range(-50, 50).Draw(t, "y"))
		s := doc.Spot{X: rapid.Float64Range(0, 400).Draw(t, "px"), Y: rapid.Float64Range(0, 300).Draw(t, "py")}
		back := u.SpotAt(u.Place(s))
		if math.Hypot(back.X-s.X, back.Y-s.Y) > 0.02 {
			t.Errorf("%v came back as %v", s, back)
		}
	})
}

func TestCheckError(t *testing.T) {
	u := lay()
	if _, _, ok := u.CheckError(); ok {
		t.Error("an error without a check dimension")
	}
	u.Check = doc.Measure{From: doc.Spot{X: 10, Y: 10}, To: doc.Spot{X: 210, Y: 10}, Length: geom.Metres(1.95)}
	part, by, ok := u.CheckError()
	// 200 pixels of 10 mm are 2 m: 0.05 m more than 1.95 m, 2.564 %.
	if !ok || math.Abs(part-0.05/1.95) > 1e-9 || by != 50*geom.Millimetre {
		t.Errorf("%g, %v, %v", part, by, ok)
	}
	if got := doc.OffText(part, by); got != "+2.56 %, +50 mm" {
		t.Error(got)
	}
	if got := doc.OffText(-0.001, -5*geom.Millimetre); got != "-0.10 %, -5 mm" {
		t.Error(got)
	}
}

func TestUnderlayProblems(t *testing.T) {
	for want, change := range map[string]func(*doc.Underlay){
		"file: found nothing":         func(u *doc.Underlay) { u.File = "" },
		"sha256: found":               func(u *doc.Underlay) { u.Sum = strings.ToUpper(sum) },
		"pixels: found [1, 300]":      func(u *doc.Underlay) { u.Width = 1 },
		"pixels: found [400, 100000]": func(u *doc.Underlay) { u.Height = 100000 },
		"pixel: found 0 m":            func(u *doc.Underlay) { u.Pixel = 0 },
		"pixel: found no number":      func(u *doc.Underlay) { u.Pixel = q.Metre(math.NaN()) },
		"fade: found 1.5":             func(u *doc.Underlay) { u.Fade = 1.5 },
		"turn: found 1000 deg":        func(u *doc.Underlay) { u.Turn = 1000 },
		"at: found":                   func(u *doc.Underlay) { u.At = geom.Pt(20000, 0) },
		"known.from[1]: found -1": func(u *doc.Underlay) {
			u.Known = doc.Measure{From: doc.Spot{X: -1}, To: doc.Spot{X: 100}, Length: geom.Metre}
		},
		"check.to: found the place": func(u *doc.Underlay) { u.Check = doc.Measure{Length: geom.Metre} },
		"check.length: found 0 m":   func(u *doc.Underlay) { u.Check = doc.Measure{To: doc.Spot{X: 5}} },
	} {
		s := doc.New("uk-18")
		s.Plan.Underlay = lay()
		if err := doc.Validate(s); err != nil {
			t.Fatal(err)
		}
		change(&s.Plan.Underlay)
		if err := doc.Validate(s); err == nil || !strings.Contains(err.Error(), "picture: "+want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
}
