package file

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"

	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

func drawnOver() *doc.Scheme {
	s := doc.New("uk-18")
	s.Plan.Underlay = doc.Underlay{File: "plan.png", Sum: strings.Repeat("0a", 32), Width: 4000, Height: 3000, Pixel: 0.0050416666666666665,
		At: geom.Pt(-3, 7.25), Turn: -4.71, Fade: 0.35, Lock: true,
		Known: doc.Measure{From: doc.Spot{X: 500.25, Y: 1300}, To: doc.Spot{X: 1700, Y: 1300}, Length: geom.Metres(6.05)},
		Check: doc.Measure{From: doc.Spot{X: 500, Y: 500}, To: doc.Spot{X: 500, Y: 1300}, Length: geom.Metres(4)}}
	return s
}

func TestUnderlayInFile(t *testing.T) {
	data, err := WriteScheme(drawnOver())
	if err != nil {
		t.Fatal(err)
	}
	const want = `picture:
  file: plan.png
  sha256: "0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a"
  pixels: [4000, 3000]
  at: [-3 m, 7.25 m]
  pixel: 0.0050416666666666665 m
  turn: -4.71 deg
  fade: 35 %
  lock: true
  known: {from: [500.25, 1300], to: [1700, 1300], length: 6.05 m}
  check: {from: [500, 500], to: [500, 1300], length: 4 m}
`
	if !strings.Contains(string(data), want) {
		t.Errorf("found\n%s\nwant\n%s", data, want)
	}
	s, err := ReadScheme("a.yaml", data, doc.Stock{})
	if err != nil || s.Plan != drawnOver().Plan {
		t.Errorf("%v\n%+v", err, s)
	}
	for _, c := range []struct{ old, new, want string }{
		{"pixel: 0.0050416666666666665 m", "pixel: 0.005", "picture: pixel: found"},
		{"pixel: 0.0050416666666666665 m", "pixel: -1 m", "picture: pixel: found -1 m"},
		{"pixels: [4000, 3000]", "pixels: [4000]", "picture: pixels: found"},
		{"pixels: [4000, 3000]", "pixels: [4000, 1e9]", "picture: pixels[2]: found"},
		{"length: 6.05 m", "length: -6.05 m", "picture: known.length: found"},
		{"from: [500.25, 1300]", "from: [5000, 1300]", "picture: known.from[1]: found 5000"},
		{"to: [500, 1300], length: 4 m", "to: [500, 1300]", "picture: check.length: found nothing"},
		{"  file: plan.png\n", "", "picture: file: found nothing"},
		{"lock: true", "loc: true", `the unknown field "loc"`},
		{"fade: 35 %", "fade: 135 %", "picture: fade: found 1.35"},
	} {
		_, err := ReadScheme("a.yaml", []byte(strings.Replace(string(data), c.old, c.new, 1)), doc.Stock{})
		if err == nil || !strings.Contains(err.Error(), c.want) || !strings.HasPrefix(err.Error(), "a.yaml:") {
			t.Errorf("%q: %v, want %q", c.new, err, c.want)
		}
	}
}

// Whatever picture a scheme may have reads back the same.
func TestUnderlayRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawnOver()
		u := &s.Plan.Underlay
		u.File = rapid.StringMatching(`[\p{L} '#:&{}\[\]0-9.-]{1,30}\.png`).Draw(t, "file")
		u.Pixel = q.Metre(rapid.Float64Range(1e-6, 10).Draw(t, "pixel"))
		u.Turn = rapid.Float64Range(-360, 360).Draw(t, "turn")
		u.Fade = doc.Ratio(rapid.Float64Range(0, 1).Draw(t, "fade"))
		u.Known.From.X = rapid.Float64Range(0, 400).Draw(t, "x")
		data, err := WriteScheme(s)
		if err != nil {
			t.Fatal(err)
		}
		back, err := ReadScheme("a.yaml", data, doc.Stock{})
		if err != nil || back.Plan != s.Plan {
			t.Fatalf("%v\n%+v\n%+v", err, back, s.Plan)
		}
	})
}

// A file names its picture from its own folder, wherever it is saved to, and
// never by a full path; loaded, the scheme has the full path.
func TestUnderlayIsRelative(t *testing.T) {
	top := t.TempDir()
	for _, d := range []string{"a", "b/c"} {
		if err := os.MkdirAll(filepath.Join(top, d), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	s := drawnOver()
	s.Plan.Underlay.File = filepath.Join(top, "a", "plan.png")
	for name, want := range map[string]string{"a/x.yaml": "file: plan.png\n", "x.yaml": "file: a/plan.png\n", "b/c/x.yaml": "file: \"../../a/plan.png\"\n"} {
		path := filepath.Join(top, filepath.FromSlash(name))
		if err := SaveScheme(path, s); err != nil {
			t.Fatal(err)
		}
		data, _ := os.ReadFile(path)
		if !strings.Contains(string(data), want) || strings.Contains(string(data), top) {
			t.Errorf("%s: found\n%s", name, data)
		}
		back, err := LoadScheme(path, doc.Stock{})
		if err != nil || back.Plan != s.Plan {
			t.Errorf("%s: %v, %+v", name, err, back)
		}
	}
	// A folder handed on as a whole still has its picture.
	if err := os.Rename(filepath.Join(top, "a"), filepath.Join(top, "moved")); err != nil {
		t.Fatal(err)
	}
	back, err := LoadScheme(filepath.Join(top, "moved", "x.yaml"), doc.Stock{})
	if err != nil || back.Plan.Underlay.File != filepath.Join(top, "moved", "plan.png") {
		t.Errorf("%v, %v", back.Plan.Underlay.File, err)
	}
}
