package scene_test

import (
	"math"
	"os"
	"testing"

	"duskwire/calc/light"
	"duskwire/layout/scene"
)

func polarOf(t *testing.T, file string, change func(*light.Distribution) *light.Distribution) *scene.List {
	t.Helper()
	data, err := os.ReadFile("../../calc/light/testdata/" + file)
	if err != nil {
		t.Fatal(err)
	}
	p, err := light.Read(data, light.How{})
	if err != nil {
		t.Fatal(err)
	}
	return scene.Polar(change(p.Dist), scene.Light(), 140, 70)
}

func item(t *testing.T, l *scene.List, entity string) scene.Item {
	t.Helper()
	for _, it := range l.Items {
		if it.Entity == entity {
			return it
		}
	}
	t.Fatalf("nothing called %s is drawn", entity)
	return scene.Item{}
}

func same(d *light.Distribution) *light.Distribution { return d }

// TestPolarLambert: I = 100 cd · cos γ (closed form of the sample) is a circle
// through the lamp, whose middle lies half its peak below it.
func TestPolarLambert(t *testing.T) {
	l := polarOf(t, "synthetic_lambert_typeC_1deg.ies", same)
	for _, plane := range []string{"C0-C180", "C90-C270"} {
		path := item(t, l, plane).Points
		top, low := path[len(path)/2], path[0]
		c := scene.XY{X: (top.X + low.X) / 2, Y: (top.Y + low.Y) / 2}
		r := math.Hypot(top.X-c.X, top.Y-c.Y)
		for _, p := range path {
			if d := math.Hypot(p.X-c.X, p.Y-c.Y); math.Abs(d-r) > 0.01*r {
				t.Fatalf("%s: %v is %g mm from the middle of the circle, expected %g", plane, p, d, r)
			}
		}
	}
	half := item(t, l, "half of peak").Points // cos 60° = 1/2: γ 60 all round
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range half {
		lo, hi = math.Min(lo, p.X), math.Max(hi, p.X)
	}
	first := half[0].X - (lo+hi)/2
	for _, p := range half {
		if d := math.Hypot(p.X-(lo+hi)/2, p.Y-half[0].Y); math.Abs(d-first) > 0.02*first {
			t.Fatalf("half of the peak is %g mm off, expected %g all round", d, first)
		}
	}
}

// TestPolarTurns: turned by 90° the two planes change places; mirrored the plane
// of C90 is swapped left to right. Everything stays on the drawing.
func TestPolarTurns(t *testing.T) {
	const file = "synthetic_same_full_0-360.ies"
	plain := polarOf(t, file, same)
	turned := polarOf(t, file, func(d *light.Distribution) *light.Distribution { return d.Turned(90) })
	mirrored := polarOf(t, file, func(d *light.Distribution) *light.Distribution { return d.Mirrored() })
	alike := func(what string, a, b scene.Item, flip bool) {
		t.Helper()
		n := len(a.Points)
		middle := a.Points[n/2].X
		for i, p := range a.Points {
			q := b.Points[i]
			if flip {
				q = b.Points[n-1-i]
				q.X = 2*middle - q.X
			}
			if math.Hypot(p.X-q.X, p.Y-q.Y) > 1e-3 {
				t.Fatalf("%s: %v, expected %v", what, q, p)
			}
		}
	}
	alike("turned", item(t, plain, "C0-C180"), item(t, turned, "C90-C270"), false)
	alike("mirrored", item(t, plain, "C90-C270"), item(t, mirrored, "C90-C270"), true)
	if a, b := item(t, plain, "C90-C270"), item(t, turned, "C90-C270"); a.Points[len(a.Points)*3/4] == b.Points[len(b.Points)*3/4] {
		t.Error("turning changes nothing")
	}
	for _, l := range []*scene.List{plain, turned, mirrored, polarOf(t, "synthetic_isotropic_isym1_comma.ldt", same)} {
		for _, it := range l.Items {
			for _, p := range it.Points {
				if p.X < 0 || p.Y < 0 || p.X > l.Width || p.Y > l.Height || math.IsNaN(p.X+p.Y) {
					t.Fatalf("%s %q lies at %v, off the drawing of %g x %g", it.Entity, it.Text, p, l.Width, l.Height)
				}
			}
		}
	}
	dark, err := light.Even(0)
	if err != nil {
		t.Fatal(err)
	}
	for _, it := range scene.Polar(dark, scene.Dark(), 140, 70).Items {
		for _, p := range it.Points {
			if math.IsNaN(p.X + p.Y) {
				t.Fatal("a dark lamp is drawn at no place")
			}
		}
	}
}
