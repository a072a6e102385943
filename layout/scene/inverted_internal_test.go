package scene

import (
	"math"
	"testing"
)

// TestInvertedLines: what is drawn in a full colour on white paper keeps a contrast
// of 3 on the dark, as graphics need it; greys are turned round exactly. Source of
// limit and formula: Web Content Accessibility Guidelines 2.2, 1.4.11 and "relative
// luminance".
func TestInvertedLines(t *testing.T) {
	paper := inverted(0xFFFFFFFF)
	for name, c := range map[string]uint32{
		"black": 0x000000, "red": 0x0000FF, "blue": 0xFF0000, "dark blue": 0x800000, "violet": 0x800080,
		"green": 0x008000, "brown": 0x004080, "magenta": 0xFF00FF,
	} {
		got := inverted(0xFF000000 | c)
		if k := contrast(got, paper); k < 3 {
			t.Errorf("%s becomes %06X (blue, green, red) on %06X: contrast %.2f, expected 3", name, got&0xFFFFFF, paper&0xFFFFFF, k)
		}
	}
	for v := range uint32(256) {
		if got, want := inverted(0xFF000000|v*0x010101), 0xFF000000|(255-v)*0x010101; got != want {
			t.Errorf("grey %d becomes %08X, expected %08X", v, got, want)
		}
	}
}

// contrast is that of two pixels, red in the lowest byte.
func contrast(a, b uint32) float64 {
	light := func(c uint32) float64 {
		sum := 0.0
		for i, share := range []float64{0.2126, 0.7152, 0.0722} {
			v := float64(c>>(8*i)&0xFF) / 255
			if v <= 0.04045 {
				v /= 12.92
			} else {
				v = math.Pow((v+0.055)/1.055, 2.4)
			}
			sum += share * v
		}
		return sum + 0.05
	}
	x, y := light(a), light(b)
	return max(x, y) / min(x, y)
}
