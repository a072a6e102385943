package output

import (
	"strings"
	"testing"

	q "duskwire/calc/quantity"
)

// TestLinesKeepUnits: no line of a sheet ends between a number and its unit, nor beside
// the sign in "3 × 1.5 mm²", where that fits one line at all.
func TestLinesKeepUnits(t *testing.T) {
	const text = "Armoured 90 °C, 3 × 1.5 mm²: 9 runs, 27.5 m cut, 12 V; found 16 m of 18.25 m"
	for width := 14.0; width < 120; width++ {
		lines := wrap(text, width, 2, false, 99)
		for i := 1; i < len(lines); i++ {
			before, after := strings.Fields(lines[i-1]), strings.Fields(lines[i])
			if width >= 17 && q.Held(before[len(before)-1], after[0]) {
				t.Errorf("%g mm: %q ends ahead of %q", width, lines[i-1], lines[i])
			}
		}
		if got := strings.Join(lines, " "); got != text {
			t.Errorf("%g mm: the words changed: %q", width, got)
		}
	}
}
