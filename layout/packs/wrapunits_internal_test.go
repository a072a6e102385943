package packs

import (
	"strings"
	"testing"

	q "duskwire/calc/quantity"
)

// TestLinesKeepUnits: no line of a page ends between a number and its unit, however
// narrow the column, as long as the two fit it.
func TestLinesKeepUnits(t *testing.T) {
	const text = "18.5 m more of armoured cable, 12.25 m of it at 450 mm; loses 0.51 V of 12 V (4.26 %) at 90 °C"
	for width := 14.0; width < 120; width++ {
		lines := wrap(text, width, capBody, false)
		for i := 1; i < len(lines); i++ {
			before, after := strings.Fields(lines[i-1]), strings.Fields(lines[i])
			if q.Held(before[len(before)-1], after[0]) {
				t.Errorf("%g mm: %q ends ahead of %q", width, lines[i-1], lines[i])
			}
		}
		if got := strings.Join(lines, " "); got != text {
			t.Errorf("%g mm: the words changed: %q", width, got)
		}
	}
}
