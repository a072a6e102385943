package tool

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"duskwire/layout/geom"
)

// TestRoundRing: every corner lies on the circle, the middle of every edge within a
// centimetre of it up to the radius where 72 corners do not reach any more, and the
// area is that of a circle within 2.6 % (16 corners: sin(2π/16)/(2π/16) = 0.974).
func TestRoundRing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := geom.Length(rapid.IntRange(10_000, 40_000_000).Draw(t, "radius"))
		c := geom.Point{X: geom.Length(rapid.IntRange(-1e7, 1e7).Draw(t, "x")), Y: 5}
		ring := roundRing(c, r)
		if n := len(ring); n < 16 || n > 72 || n%4 != 0 {
			t.Fatalf("%d corners", n)
		}
		for i, p := range ring {
			if d := geom.Distance(c, p) - r; d < -2 || d > 2 {
				t.Fatalf("corner %v lies %d µm off the circle", p, d)
			}
			q := ring[(i+1)%len(ring)]
			sag := r - geom.Distance(c, geom.Around(p, q).Centre())
			if most := geom.Centimetre + 5; sag > most && len(ring) < 72 {
				t.Fatalf("an edge lies %d µm inside the circle of radius %d with %d corners", sag, r, len(ring))
			}
		}
		if share := ringSize(ring) / 2 / (math.Pi * float64(r) * float64(r)); share < 0.974 || share > 1.0001 {
			t.Fatalf("%.4f of the circle", share)
		}
		if crosses(ring) {
			t.Fatal("the ring crosses itself")
		}
	})
}
