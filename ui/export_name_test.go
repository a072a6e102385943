package ui

import "testing"

func TestPlainName(t *testing.T) {
	for title, want := range map[string]string{
		"":                 "garden",
		" … / ":            "garden",
		"Rear garden":      "rear-garden",
		"../etc: a\\b?":    "etc-a-b",
		"Señor Ñ, plot 12": "señor-ñ-plot-12",
		"aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa b": "aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa",
	} {
		if got := plainName(title); got != want {
			t.Errorf("plainName(%q) = %q, want %q", title, got, want)
		}
	}
}

// TestSheetNamesThePack: the sheet is about the client pack, with no hyphen.
func TestSheetNamesThePack(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.w.savePack("client")
	if got, want := r.top().title, "Save the client pack as"; got != want {
		t.Errorf("the sheet is called %q, want %q", got, want)
	}
}
