package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"
)

// A new scheme asks for its title first; nothing is an answer too.
func TestNewSchemeAsksForATitle(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	for title, want := range map[string]string{"  Rose border ": "Rose border", "": "New scheme"} {
		r.menu("New")
		entry, ok := r.w.Fyne().Canvas().Focused().(*sheetEntry)
		if !ok || !strings.HasPrefix(entry.PlaceHolder, "garden, address") {
			t.Fatalf("%T has the keyboard, expected the title", r.w.Fyne().Canvas().Focused())
		}
		test.Type(entry, title)
		r.answer("Start drawing")
		if got := r.desk.Frame().Scheme.Title; got != want {
			t.Errorf("the title is %q", got)
		}
	}
}
