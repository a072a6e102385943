package panel

import "testing"

// A bare length over 100 is refused with why; with a unit, below it or of another
// kind nothing stands in the way.
func TestBareLength(t *testing.T) {
	const want = `found "99999", expected a length of at most 100 m where no unit stands behind it; write m or mm behind a longer one`
	if err := bareLength(WithUnit("99999", "m"), "m"); err == nil || err.Error() != want {
		t.Errorf("99999: %v, want %s", err, want)
	}
	for _, c := range [][2]string{{"99999 m", "m"}, {"100", "m"}, {"600mm", "m"}, {"230", "V"}, {"", "m"}, {"x", "m"}} {
		if err := bareLength(WithUnit(c[0], c[1]), c[1]); err != nil {
			t.Errorf("%q in %s: %v", c[0], c[1], err)
		}
	}
}
