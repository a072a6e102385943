package light

import (
	"math"
	"testing"
)

// TestDots: a short lamp is seen in one place, a long one along its whole length, with
// its light where its profile has it.
func TestDots(t *testing.T) {
	short := scene(t, []Lamp{isotropic(t, 100, Vec{1, 2, 3})})
	if d := short.lamps[0].dots(Vec{}); len(d) != 1 || d[0] != (dotPart{Vec{1, 2, 3}, 1}) {
		t.Errorf("a point: %v", d)
	}
	long := scene(t, []Lamp{slope(t, 1, 1)})
	d := long.lamps[0].dots(Vec{X: 6, Z: 1})
	sum, mean := 0.0, 0.0
	for _, p := range d {
		sum, mean = sum+p.share, mean+p.share*p.at.Y
		if p.at.X != 0 || p.at.Z != 1 || math.Abs(p.at.Y) > 2.5 {
			t.Errorf("a dot at %v, off the lamp", p.at)
		}
	}
	near(t, "all its light", sum, 1, 1e-12)
	near(t, "middle of its light, a sixth of its length off", mean, 5.0/6, 0.01)
	if first, last := d[0].at.Y, d[len(d)-1].at.Y; first-last < 4.5 || d[0].share < 20*d[len(d)-1].share {
		t.Errorf("from %g to %g m", first, last)
	}
}
