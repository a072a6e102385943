package packs

import (
	"math"
	"testing"

	"duskwire/layout/scene"
)

// TestMiddlesMarked: every page of every pack marks the middle of its four sides, of
// the sheet and not of its frame (ISO 5457, from memory), outside the frame.
func TestMiddlesMarked(t *testing.T) {
	for _, p := range makeAll(t, input(t, three)) {
		for n, page := range p.Pages {
			l := page.List
			marks := [4]bool{}
			for i := range l.Items {
				it := &l.Items[i]
				if it.Kind != scene.Polyline || len(it.Points) != 2 {
					continue
				}
				a, b := it.Points[0], it.Points[1]
				near := func(x, y float64) bool { return math.Abs(x-y) < 1e-9 }
				upright, level := near(a.X, l.Width/2) && near(b.X, l.Width/2), near(a.Y, l.Height/2) && near(b.Y, l.Height/2)
				marks[0] = marks[0] || upright && max(a.Y, b.Y) <= edge+1e-9
				marks[1] = marks[1] || upright && min(a.Y, b.Y) >= l.Height-edge-1e-9
				marks[2] = marks[2] || level && max(a.X, b.X) <= filing+1e-9
				marks[3] = marks[3] || level && min(a.X, b.X) >= l.Width-edge-1e-9
			}
			if marks != [4]bool{true, true, true, true} {
				t.Errorf("%s page %d: marks above, below, left, right: %v", p.Key, n+1, marks)
			}
		}
	}
}
