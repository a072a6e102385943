package scene_test

import (
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/scene"
)

// TestNarrowSection: at 200 % the strip is 57 mm wide. Its letters then neither leave
// the sheet nor lie over each other in the line of the title.
func TestNarrowSection(t *testing.T) {
	in := small()
	for _, width := range []float64{50, 57, 70, 90, 140, 240} {
		for _, run := range []doc.ID{"R7", "R12", "R13"} {
			side := sideOf(t, in, run, -1)
			l, _ := scene.Section(side, width, 34)
			type span struct{ x0, x1 float64 }
			var head []span
			for _, it := range l.Items {
				if it.Kind != scene.Text {
					continue
				}
				x := scene.Start(&it).X
				s := span{x, x + scene.TextWidth(it.Text, it.Size, it.Bold)}
				if s.x0 < 0 || s.x1 > width {
					t.Errorf("%s at %g mm: %q from %.1f to %.1f", run, width, it.Text, s.x0, s.x1)
				}
				if it.Points[0].Y == 3 {
					head = append(head, s)
				}
			}
			if len(head) != 2 || head[0].x1 > head[1].x0 {
				t.Errorf("%s at %g mm: the title is %v", run, width, head)
			}
		}
	}
}
