package packs

import (
	"path/filepath"
	"strings"
	"testing"

	"duskwire/layout/scene"
)

// crossed counts, of the figures of a drawing of tapes, those that the line of
// another distance runs through.
func crossed(l *scene.List) (through, figures int) {
	var lines []*scene.Item
	for i := range l.Items {
		if it := &l.Items[i]; it.Layer == scene.LayerDimensions && it.Kind == scene.Polyline && it.Entity == "" {
			lines = append(lines, it)
		}
	}
	for i := range l.Items {
		it := &l.Items[i]
		if figureOfTape.FindStringSubmatch(it.Text) == nil {
			continue
		}
		figures++
		sin, cos := sincos(it.Turn)
		hit := false
		for x := 0.5; x < scene.TextWidth(it.Text, it.Size, false); x += 0.5 {
			c := scene.XY{X: it.Points[0].X + cos*x - sin*it.Size/2, Y: it.Points[0].Y - sin*x - cos*it.Size/2}
			for _, o := range lines {
				hit = hit || toLine(c, o.Points[0], o.Points[1]) < it.Size/2-0.1
			}
		}
		if hit {
			through++
		}
	}
	return through, figures
}

// Figures of tapes can be read though lines meet at two points: few have the line of
// another distance running through them.
func TestTapesNotCrowded(t *testing.T) {
	for _, path := range []string{example, sixty, three} {
		through, figures := 0, 0
		for _, p := range makeAll(t, input(t, path))[1].Pages {
			if strings.HasPrefix(p.Title, "Tape distances") {
				a, b := crossed(p.List)
				t.Logf("%s, %s: %d of %d", filepath.Base(path), p.Title, a, b)
				through, figures = through+a, figures+b
			}
		}
		if 10*through > figures {
			t.Errorf("%s: a line runs through %d of %d figures", filepath.Base(path), through, figures)
		}
	}
}
