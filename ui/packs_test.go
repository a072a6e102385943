package ui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Each pack is saved from File ▸ Save pack in a worker.
func TestSavePack(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	found := 0
	for _, m := range r.w.Fyne().MainMenu().Items {
		for _, i := range m.Items {
			if !strings.HasPrefix(i.Label, "Save pack") {
				continue
			}
			for _, pack := range i.ChildMenu.Items {
				if strings.Contains(pack.Label, "beside") {
					continue // asks for the other scheme first
				}
				found++
				path := filepath.Join(t.TempDir(), "p.pdf")
				pack.Action()
				r.wait() // the listing of the folder
				name, _ := find(r.top().pop.Content, func(e *sheetEntry) bool { return e.PlaceHolder == "file name" })
				if !strings.HasSuffix(name.Text, "-pack.pdf") {
					t.Errorf("%s proposes %q", pack.Label, name.Text)
				}
				name.SetText(path)
				r.answer("Save")
				r.wait() // whether it is there already
				r.wait() // the file
				r.noSheet()
				data, err := os.ReadFile(path)
				if err != nil || len(data) < 10_000 || string(data[:4]) != "%PDF" {
					t.Errorf("%s: %v, %d bytes", pack.Label, err, len(data))
				}
			}
		}
	}
	if found != 3 {
		t.Errorf("%d packs in the menu, want 3", found)
	}
}
