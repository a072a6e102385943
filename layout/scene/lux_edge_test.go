package scene_test

import (
	"testing"

	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

// TestLuxStaysInside: lines of lux end at the edge of the drawing, for on paper
// there are words beside it, and no figure stands outside. What is inside is drawn
// as it would be in a larger drawing.
func TestLuxStaysInside(t *testing.T) {
	g, lines := pool()
	// The lamp is beyond the lower left corner, so that every line is cut.
	l := scene.Lux(scene.LuxInput{Grid: g, Lines: lines}, scene.View{Denominator: 50, Origin: geom.Pt(6, 9)}, 60, 60)
	drawn := 0
	for _, it := range l.Items {
		for _, p := range it.Points {
			if p.X < -1e-9 || p.Y < -1e-9 || p.X > 60+1e-9 || p.Y > 60+1e-9 {
				t.Fatalf("%s reaches %v", it.Entity, p)
			}
		}
		if it.Kind == scene.Polyline {
			drawn++
		}
	}
	if drawn == 0 {
		t.Error("nothing is drawn")
	}
}
