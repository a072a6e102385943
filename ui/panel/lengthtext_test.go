package panel

import (
	"testing"

	"duskwire/layout/geom"
)

// TestLengthText: to the nearest millimetre, as every other figure is, not cut
// off below it.
func TestLengthText(t *testing.T) {
	for l, want := range map[geom.Length]string{
		0: "0 m", 7_324_600: "7.325 m", 7_324_400: "7.324 m", -400: "0 m", 12_000_000: "12 m", -1_000_600: "-1.001 m",
	} {
		if got := LengthText(l); got != want {
			t.Errorf("%d µm is %q, want %q", l, got, want)
		}
	}
}
