package packs

import (
	"math"
	"testing"

	"duskwire/layout/scene"
)

// TestFittingsShowSymbols: the schedule of fittings shows each kind of lamp by the
// symbol that it has on the plan: the example has six kinds, three of them on the
// mains (the larger circle), and each symbol stays in its row.
func TestFittingsShowSymbols(t *testing.T) {
	var page *scene.List
	for _, p := range makeAll(t, input(t, example))[0].Pages {
		if p.Title == "Fittings" {
			page = p.List
		}
	}
	if page == nil {
		t.Fatal("no page of fittings")
	}
	radius := map[string]float64{}
	for _, name := range []string{"lamp wall", "small lamp spike"} {
		for _, it := range scene.Symbol(name, scene.XY{}, scene.Light()) {
			if it.Kind == scene.Circle {
				radius[name] = max(radius[name], it.Size)
			}
		}
	}
	large, small := 0, 0
	for i := range page.Items {
		it := &page.Items[i]
		if it.Kind != scene.Circle {
			continue
		}
		switch {
		case math.Abs(it.Size-radius["lamp wall"]) < 1e-9:
			large++
		case math.Abs(it.Size-radius["small lamp spike"]) < 1e-9:
			small++
		}
	}
	if large != 3 || small != 3 || radius["lamp wall"] <= radius["small lamp spike"] {
		t.Errorf("%d symbols of mains lamps, %d of others, want 3 each; radii %v", large, small, radius)
	}
}
