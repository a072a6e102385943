package quantity

import "testing"

func TestParseCount(t *testing.T) {
	for text, want := range map[string]Count{"4": 4, " 0 ": 0, "12": 12} {
		if got, err := ParseCount(text); err != nil || got != want {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	for _, text := range []string{"", "-1", "1.5", "four", "1e9", "NaN", "4 A"} {
		if got, err := ParseCount(text); err == nil {
			t.Errorf("%q gave %v", text, got)
		} else if want := `found "` + text + `", expected a whole number`; err.Error() != want {
			t.Errorf("%q: %v, want %s", text, err, want)
		}
	}
	if got := Count(12).String(); got != "12" {
		t.Errorf("12 is written %q", got)
	}
}

func TestParseLux(t *testing.T) {
	for text, want := range map[string]Lux{"20 lx": 20, "0.5 lux": 0.5} {
		if got, err := ParseLux(text); err != nil || got != want {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	if _, err := ParseLux("20"); err == nil {
		t.Error("a bare number was taken")
	}
}
