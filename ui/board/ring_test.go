package board

import (
	"image/color"
	"math"
	"testing"

	"duskwire/layout/scene"
)

// The ring round the plan that has the keyboard stands out on the paper by 3:1
// at least (WCAG 2.1, success criterion 1.4.11).
func TestRingStandsOut(t *testing.T) {
	light := func(c color.NRGBA) float64 {
		lin := func(v uint8) float64 {
			if s := float64(v) / 255; s > 0.04045 {
				return math.Pow((s+0.055)/1.055, 2.4)
			} else {
				return s / 12.92
			}
		}
		return 0.2126*lin(c.R) + 0.7152*lin(c.G) + 0.0722*lin(c.B)
	}
	for _, p := range []*scene.Palette{scene.Light(), scene.Dark()} {
		a, b := light(overColour(p)), light(nrgba(p.Paper))
		if got := (max(a, b) + 0.05) / (min(a, b) + 0.05); got < 3 {
			t.Errorf("contrast %.2f on %v", got, p.Paper)
		}
	}
}
