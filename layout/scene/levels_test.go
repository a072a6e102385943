package scene

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// TestLevelsCutAsEveryEdgeTested compares the edge table with the plain
// definition: test every edge at every level, the half-open rule at corners.
func TestLevelsCutAsEveryEdgeTested(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// Whole and half numbers put corners and flat edges on the levels.
		half := rapid.Custom(func(t *rapid.T) float64 { return float64(rapid.IntRange(-20, 20).Draw(t, "half")) / 2 })
		ring := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) XY { return XY{half.Draw(t, "x"), half.Draw(t, "y")} }), 3, 90).Draw(t, "ring")
		var l levels
		l.start(ring)
		area := newSlabs(ring)
		for y := -11.0; y <= 11; y += 0.25 {
			var want []float64
			for i, j := 0, len(ring)-1; i < len(ring); j, i = i, i+1 {
				if p, q := ring[i], ring[j]; (p.Y > y) != (q.Y > y) {
					want = append(want, p.X+(y-p.Y)/(q.Y-p.Y)*(q.X-p.X))
				}
			}
			slices.Sort(want)
			if got := l.at(y, nil); !slices.Equal(got, want) {
				t.Fatalf("level %v cuts %v at %v, want %v", y, ring, got, want)
			}
			if p := (XY{half.Draw(t, "px"), y}); area.holds(p) != inside(p, ring) {
				t.Fatalf("%v in %v: %v, want %v", p, ring, area.holds(p), inside(p, ring))
			}
		}
	})
}

// BenchmarkManyCorners cuts a saw of 9,999 corners, a legal ring whose teeth
// reach over its whole height: every level cuts every edge.
func BenchmarkManyCorners(b *testing.B) {
	ring := make([]XY, 9999)
	for i := range ring {
		ring[i] = XY{float64(i) * 0.08, float64(i%2) * 600}
	}
	var l levels
	var xs []float64
	for b.Loop() {
		l.start(ring)
		for y := 0.0; y < 600; y += 0.25 {
			xs = l.at(y, xs[:0])
		}
	}
}
