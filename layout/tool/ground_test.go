package tool

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// TestDrawnGroundIsOneStep draws ground through random events and lets go:
// nothing is in the scheme before the end, one step at most is made by it, and
// undo of everything gives the very first scheme.
func TestDrawnGroundIsOneStep(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		start, err := readScheme("lamp L1 5,5 low")
		if err != nil {
			t.Fatal(err)
		}
		s, desk, set := newSession(start)
		drawn := 0
		for range rapid.IntRange(1, 4).Draw(t, "gestures") {
			s.Take(rapid.SampledFrom([]Tool{NewArea(set), NewLine(set)}).Draw(t, "tool"))
			before := desk.current()
			at := geom.Point{}
			for range rapid.IntRange(1, 6).Draw(t, "corners") {
				if len(desk.history) > drawn+1 {
					break // a click on the first corner has closed it
				}
				at = geom.Pt(float64(rapid.IntRange(0, 9).Draw(t, "x")), float64(rapid.IntRange(0, 9).Draw(t, "y")))
				for _, k := range []Kind{Move, Down, Up} {
					s.Send(Event{Kind: k, At: at, Button: LeftButton, Clicks: 1, Reach: reach})
				}
			}
			if len(desk.history) == drawn+1 && desk.current() != before {
				t.Fatal("the scheme changed before the end")
			}
			end := rapid.SampledFrom([]string{KeyReturn, KeyEscape}).Draw(t, "end")
			given := end == KeyEscape && len(desk.history) == drawn+1
			s.Send(Event{Kind: Key, Key: end, At: at, Reach: reach})
			if given && desk.current() != before {
				t.Fatal("what was given up left something")
			}
			if n := len(desk.history) - 1 - drawn; n > 1 {
				t.Fatalf("one gesture made %d steps", n)
			}
			drawn = len(desk.history) - 1
		}
		for range drawn {
			desk.undo()
		}
		if desk.current() != start {
			t.Fatal("undo did not give the start scheme")
		}
	})
}

// TestKindsCanBeDrawn takes every kind in turn and draws one.
func TestKindsCanBeDrawn(t *testing.T) {
	start, err := readScheme("")
	if err != nil {
		t.Fatal(err)
	}
	s, desk, set := newSession(start)
	for n, kind := range allKinds() {
		name := set.Ground.Choose(kind)
		s.Take(ByName(set, name))
		y := float64(n * 3)
		for _, at := range []geom.Point{geom.Pt(0, y), geom.Pt(2, y), geom.Pt(2, y+1)} {
			for _, k := range []Kind{Move, Down, Up} {
				s.Send(Event{Kind: k, At: at, Button: LeftButton, Clicks: 1, Reach: reach})
			}
			if name == NameMark {
				break
			}
		}
		s.Send(Event{Kind: Key, Key: KeyReturn, Reach: reach})
		if got := len(desk.history) - 1; got != n+1 {
			t.Fatalf("%s: %d steps, expected %d; %s", kind, got, n+1, s.Refused())
		}
	}
	if set.Ground.Choose("moss") != "" {
		t.Error("a kind that does not exist has a tool")
	}
}

func allKinds() []string { return slices.Concat(doc.AreaKinds, doc.LineKinds, doc.MarkKinds) }
