package scene_test

import (
	"math"
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/scene"
)

// TestLetteringUnderThePointer: a text is met on its letters, turned or not and
// wherever it is anchored, and tells which of its figures that is.
func TestLetteringUnderThePointer(t *testing.T) {
	const text = "R3 · 8.5 m"
	w := scene.TextWidth(text, 2, false)
	name := scene.TextWidth("R3", 2, false)
	for _, c := range []struct {
		what   string
		item   scene.Item
		at     scene.XY
		meets  bool
		part   string
		lo, hi scene.XY
	}{
		{"its start", scene.Item{}, scene.XY{X: 10.5, Y: 19}, true, "R3", scene.XY{X: 10, Y: 18}, scene.XY{X: 10 + w, Y: 20.4}},
		{"its figure", scene.Item{}, scene.XY{X: 10 + w - 0.5, Y: 19}, true, "8.5 m", scene.XY{X: 10, Y: 18}, scene.XY{X: 10 + w, Y: 20.4}},
		{"above it", scene.Item{}, scene.XY{X: 11, Y: 17}, false, "", scene.XY{X: 10, Y: 18}, scene.XY{X: 10 + w, Y: 20.4}},
		{"behind it", scene.Item{}, scene.XY{X: 10 + w + 1, Y: 19}, false, "", scene.XY{X: 10, Y: 18}, scene.XY{X: 10 + w, Y: 20.4}},
		{"anchored at its end", scene.Item{Anchor: scene.Right}, scene.XY{X: 9.5, Y: 19}, true, "8.5 m", scene.XY{X: 10 - w, Y: 18}, scene.XY{X: 10, Y: 20.4}},
		{"read from below", scene.Item{Turn: 90}, scene.XY{X: 9, Y: 20 - name/2}, true, "R3", scene.XY{X: 8, Y: 20 - w}, scene.XY{X: 10.4, Y: 20}},
		{"right of one read from below", scene.Item{Turn: 90}, scene.XY{X: 12, Y: 18}, false, "", scene.XY{X: 8, Y: 20 - w}, scene.XY{X: 10.4, Y: 20}},
	} {
		it := c.item
		it.Kind, it.Entity, it.Text, it.Size, it.Points = scene.Text, "r3", text, 2, []scene.XY{{X: 10, Y: 20}}
		list := scene.List{Items: []scene.Item{it, {Kind: scene.Text, Text: "about nothing", Size: 2, Points: []scene.XY{{X: 10, Y: 20}}}}}
		got := list.Lettering()
		if len(got) != 1 || got[0].Entity != "r3" {
			t.Fatalf("%s: %d texts", c.what, len(got))
		}
		if meets := got[0].Covers(c.at, 0.2); meets != c.meets {
			t.Errorf("%s: met %v, expected %v", c.what, meets, c.meets)
		} else if part := got[0].Part(c.at); meets && part != c.part {
			t.Errorf("%s: part %q, expected %q", c.what, part, c.part)
		}
		lo, hi := got[0].Bounds()
		for i, d := range []float64{lo.X - c.lo.X, lo.Y - c.lo.Y, hi.X - c.hi.X, hi.Y - c.hi.Y} {
			if math.Abs(d) > 1e-9 {
				t.Errorf("%s: bound %d is off by %g", c.what, i, d)
			}
		}
	}
}

// TestEveryThingOfAFewIsNamed: on a small crowded screen the last names go further
// out rather than away.
func TestEveryThingOfAFewIsNamed(t *testing.T) {
	s := example(t, "townhouse.yaml")
	in := scene.Input{Scheme: s, Show: scene.AllLayers(), Screen: true}
	const w, h = 88, 88 // about the board of a window of 640 by 400 units, with its margin
	v := scene.Fit(s, 40, 42)
	mid := v.Plan(scene.XY{X: 20, Y: 21})
	v.Origin = mid
	at := v.Paper(mid)
	v.Origin = v.Plan(scene.XY{X: at.X - w/2, Y: at.Y - h/2})
	named := map[string]bool{}
	for _, l := range scene.Build(in, v, w, h).Lettering() {
		named[l.Text] = true
	}
	doc.Each(s, func(e doc.Entity, k doc.Kind) {
		if k.Joinable() && !named[e.Label()] {
			t.Errorf("%s has no name at 1:%.0f", e.Label(), v.Denominator)
		}
	})
}
