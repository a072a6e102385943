package ui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
)

// saveInto asks for the data files and answers with a folder.
func (r *rig) saveInto(folder string) {
	r.t.Helper()
	r.menu("Save data files")
	r.wait() // the listing of the folder
	name, ok := find(r.top().pop.Content, func(e *sheetEntry) bool { return strings.HasPrefix(e.PlaceHolder, "new folder") })
	if !ok || !strings.HasSuffix(name.Text, "-data") {
		r.t.Fatalf("no folder is asked for, or %q is proposed", name.Text)
	}
	name.SetText(folder)
	r.answer("Save")
	r.ended(workExport + " " + folder)
}

// TestSaveData writes into a new folder, asks before it writes over anything, and
// writes nothing when the answer is no.
func TestSaveData(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	folder := filepath.Join(t.TempDir(), "new", "data")
	r.saveInto(folder)
	r.noSheet()
	list, err := os.ReadDir(folder)
	if err != nil || len(list) < 8 {
		t.Fatalf("%d files, %v", len(list), err)
	}
	kept := filepath.Join(folder, "materials.csv")
	if err := os.WriteFile(kept, []byte("mine"), 0o644); err != nil {
		t.Fatal(err)
	}
	r.saveInto(folder)
	if s := texts(r.top().pop.Content); !strings.Contains(s, "materials.csv") || !strings.Contains(s, "lost") {
		t.Errorf("asked: %s", s)
	}
	r.answer("Cancel")
	if got, _ := os.ReadFile(kept); string(got) != "mine" {
		t.Error("written over without a yes")
	}
	r.saveInto(folder)
	r.answer("Replace")
	r.ended(workExport + " " + folder)
	if got, _ := os.ReadFile(kept); !strings.HasPrefix(string(got), "group,") {
		t.Errorf("after a yes it holds %.20q", got)
	}
	r.noSheet()
}

// TestSaveDataRefused: a file in place of the folder, or a folder in place of a
// file, is told and nothing is written.
func TestSaveDataRefused(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	r.saveInto(file)
	if s := texts(r.top().pop.Content); !strings.Contains(s, "expected a folder") {
		t.Errorf("a file: %s", s)
	}
	r.top().key(fyne.KeyEscape)
	folder := t.TempDir()
	if err := os.Mkdir(filepath.Join(folder, "plan.svg"), 0o755); err != nil {
		t.Fatal(err)
	}
	r.saveInto(folder)
	if s := texts(r.top().pop.Content); !strings.Contains(s, "plan.svg") {
		t.Errorf("a folder in the way: %s", s)
	}
	if list, _ := os.ReadDir(folder); len(list) != 1 {
		t.Errorf("%d things in the folder", len(list))
	}
}

// TestSaveDataStopped: cancelled while it is made, no folder appears.
func TestSaveDataStopped(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	folder := filepath.Join(t.TempDir(), "data")
	r.w.makeData(r.w.packInput(), folder, 400)
	r.w.bridge.stop(r.w.bridge.current[workExport+" "+folder])
	if exists(folder) || r.w.bridge.Busy(workExport+" "+folder) {
		t.Error("cancelled, and still there is a folder or work")
	}
}
