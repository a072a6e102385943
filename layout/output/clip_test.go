package output

import (
	"math"
	"testing"

	"duskwire/layout/scene"
)

// TestClipRing: a ring of radius r about a corner of the room has a quarter in it, of
// length πr/2; about the middle of an edge a half; inside all; away nothing.
func TestClipRing(t *testing.T) {
	const r, w, h = 10.0, 100.0, 60.0
	for _, c := range []struct{ x, y, share float64 }{{0, 0, 0.25}, {w, h, 0.25}, {50, 0, 0.5}, {50, 30, 1}, {-20, 30, 0}} {
		ring := make([]scene.XY, 360)
		for i := range ring {
			sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.5) / 360)
			ring[i] = scene.XY{X: c.x + r*cos, Y: c.y + r*sin}
		}
		l := &scene.List{Items: []scene.Item{{Kind: scene.Polygon, Points: ring, Style: scene.Style{Width: 0.3}}}}
		clipOutlines(l, w, h)
		got := 0.0
		for _, it := range l.Items {
			n := len(it.Points)
			for i, p := range it.Points {
				if p.X < -1e-9 || p.Y < -1e-9 || p.X > w+1e-9 || p.Y > h+1e-9 {
					t.Errorf("ring at %g, %g: %v lies outside the room", c.x, c.y, p)
				}
				if i > 0 {
					got += math.Hypot(p.X-it.Points[i-1].X, p.Y-it.Points[i-1].Y)
				} else if it.Kind == scene.Polygon {
					got += math.Hypot(p.X-it.Points[n-1].X, p.Y-it.Points[n-1].Y)
				}
			}
		}
		if want := 2 * math.Pi * r * c.share; math.Abs(got-want) > 0.01*r {
			t.Errorf("ring at %g, %g: %.3f mm drawn, want %.3f", c.x, c.y, got, want)
		}
		if c.share > 0 && len(l.Items) != 1 {
			t.Errorf("ring at %g, %g: %d stretches, want 1", c.x, c.y, len(l.Items))
		}
	}
}
