package ui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"duskwire/layout/doc"
	"duskwire/layout/file"
	"duskwire/layout/journal"
)

// diskRig is a window that has opened the file at the path and writes it for
// real.
func diskRig(t *testing.T, path string) *rig {
	t.Helper()
	r := newRig(t, "townhouse.yaml")
	stock, _, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	r.w.cfg.Load = func(path string) (*doc.Scheme, error) { return file.LoadScheme(path, stock) }
	r.w.cfg.Save = file.SaveScheme
	r.w.load(path)
	r.until("the file", func() bool { return r.desk.Frame().Path == path })
	return r
}

// garden writes the scheme of a rig to a new file.
func garden(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "garden.yaml")
	if err := file.SaveScheme(path, newRig(t, "townhouse.yaml").desk.Frame().Scheme); err != nil {
		t.Fatal(err)
	}
	return path
}

// saves asks for a save and waits until it is written or held back.
func (r *rig) saves() {
	r.t.Helper()
	r.menu("Save")
	r.wait()
}

func content(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func TestTwoWindowsOnOneFile(t *testing.T) {
	path := garden(t)
	a, b := diskRig(t, path), diskRig(t, path)
	for range 2 { // a save of one's own is no change by others
		a.move()
		a.saves()
		a.noSheet()
	}
	other := content(t, path)

	b.move()
	mine := b.desk.Frame().Scheme
	b.saves()
	if got := texts(b.top().pop.Content); !strings.Contains(got, "changed by other hands") || !strings.Contains(got, ".bak") {
		t.Errorf("the sheet says\n%s", got)
	}
	b.answer("Leave it")
	if content(t, path) != other || !b.desk.Frame().Unsaved {
		t.Fatal("a save that was held back wrote the file, or counts as saved")
	}
	b.saves()
	b.answer("Save over it")
	b.wait()
	b.noSheet()
	want, _ := file.SchemeText(path, mine)
	if content(t, path) != string(want) || b.desk.Frame().Unsaved {
		t.Error("the file does not hold what was saved over it")
	}
	b.move()
	b.move()  // further than the other window did
	b.saves() // the next save makes a new .bak; the other version must outlast it
	b.noSheet()
	kept, _ := filepath.Glob(path + ".2*.bak")
	if len(kept) != 1 || content(t, kept[0]) != other {
		t.Errorf("kept are %v, expected the version of the other window", kept)
	}
	a.move()
	a.move() // and again further
	a.saves()
	a.answer("Leave it")
}

func TestChangedByHand(t *testing.T) {
	path := garden(t)
	r := diskRig(t, path)
	r.move()
	changed := time.Date(2026, 11, 24, 9, 41, 0, 0, time.UTC)
	write := func(text string) {
		t.Helper()
		if err := os.WriteFile(path, []byte(text), 0o640); err != nil {
			t.Fatal(err)
		}
		if err := os.Chmod(path, 0o640); err != nil {
			t.Fatal(err)
		}
		if err := os.Chtimes(path, changed, changed); err != nil {
			t.Fatal(err)
		}
	}
	write("first")
	r.w.quit()
	r.answer("Save")
	r.wait()
	if got := texts(r.top().pop.Content); !strings.Contains(got, "at 09:41 on 24 November 2026") {
		t.Errorf("the sheet says\n%s", got)
	}
	write("second") // while the question is open
	r.answer("Save over it")
	r.wait()
	if len(r.w.sheets) != 1 || content(t, path) != "second" || r.quits != 0 {
		t.Fatal("what was written while the question was open is not asked about")
	}
	r.answer("Save over it")
	r.wait()
	kept, _ := filepath.Glob(path + ".2*.bak")
	if len(kept) != 1 || content(t, kept[0]) != "second" || r.quits != 1 {
		t.Fatalf("kept are %v, %d ends", kept, r.quits)
	}
	if info, err := os.Stat(kept[0]); err != nil || info.Mode().Perm() != 0o640 {
		t.Errorf("the kept version has the permissions %v", info.Mode())
	}
	// Another version of the same time does not take the place of the kept one.
	r = diskRig(t, path)
	write("third")
	r.move()
	r.saves()
	r.answer("Save over it")
	r.wait()
	if kept, _ := filepath.Glob(path + ".2*.bak"); len(kept) != 2 {
		t.Errorf("kept are %v, expected two", kept)
	}
}

func TestSavesThatDoNotAsk(t *testing.T) {
	path := garden(t)
	for name, before := range map[string]func(*rig){
		"touched": func(*rig) { _ = os.Chtimes(path, time.Time{}, time.Now().Add(time.Hour)) },
		"gone":    func(*rig) { _ = os.Remove(path) },
		"same": func(r *rig) { // somebody else drew the very same
			_ = file.SaveScheme(path, r.desk.Frame().Scheme)
		},
	} {
		r := diskRig(t, path)
		r.move()
		before(r)
		r.saves()
		if len(r.w.sheets) > 0 || r.desk.Frame().Unsaved {
			t.Errorf("%s: the save was not plain", name)
		}
	}
}

func TestHeldSaveUnderAnotherName(t *testing.T) {
	path := garden(t)
	r := diskRig(t, path)
	r.move()
	if err := os.WriteFile(path, []byte("theirs"), 0o600); err != nil {
		t.Fatal(err)
	}
	r.saves()
	r.answer("Save under another name")
	r.wait() // the list of the folder
	e, ok := find(r.top().pop.Content, func(e *sheetEntry) bool { return e.PlaceHolder == "file name" })
	if !ok {
		t.Fatal("no entry for a name")
	}
	e.SetText("mine.yaml")
	r.answer("Save")
	r.until("the save", func() bool { return !r.desk.Frame().Unsaved })
	r.noSheet()
	if got := r.desk.Frame().Path; filepath.Base(got) != "mine.yaml" || content(t, path) != "theirs" {
		t.Errorf("saved to %q; the other file holds %d bytes", got, len(content(t, path)))
	}

	// Save as over a file that is there asks once, as ever.
	r.menu("Save as")
	r.wait()
	e, _ = find(r.top().pop.Content, func(e *sheetEntry) bool { return e.PlaceHolder == "file name" })
	e.SetText("garden.yaml")
	r.answer("Save")
	r.until("the question", func() bool { return len(r.w.sheets) > 0 })
	r.answer("Replace")
	r.wait()
	r.noSheet()
	if content(t, path+".bak") != "theirs" {
		t.Error("the replaced file is not kept")
	}
}

// The file that the program was started with is known by the mark taken before
// it was read.
func TestMarkOfTheStart(t *testing.T) {
	path := garden(t)
	r := diskRig(t, path)
	cfg := r.w.cfg
	cfg.Mark = FileMark(path)
	if cfg.Mark == "" {
		t.Fatal("no mark")
	}
	r.w = New(cfg)
	r.move()
	if err := os.WriteFile(path, []byte("theirs"), 0o600); err != nil {
		t.Fatal(err)
	}
	r.saves()
	r.answer("Leave it")
}

// A scheme with a picture names it in full in the journal and from its folder
// in the file; saved it is saved all the same.
func TestSavedWorkWithPictureIsNotOffered(t *testing.T) {
	state := t.TempDir()
	path := garden(t)
	r := keptRig(t, state)
	r.desk.Saved(r.desk.Frame().Scheme, path)
	s := *r.desk.Frame().Scheme
	s.Plan.Underlay = doc.Underlay{File: filepath.Join(filepath.Dir(path), "plan.png"), Sum: strings.Repeat("0a", 32), Width: 100, Height: 100, Pixel: 0.01}
	r.w.journal.Note(&s, path)
	r.until("the journal", func() bool { return work(state) == 1 })
	crashed := t.TempDir()
	if err := os.CopyFS(crashed, os.DirFS(state)); err != nil {
		t.Fatal(err)
	}
	r.w.journal.Close()
	lost, _ := journal.Find(crashed)
	if len(lost) != 1 {
		t.Fatalf("found %d, expected the work", len(lost))
	}
	lost[0].Later()
	if err := file.SaveScheme(path, &s); err != nil {
		t.Fatal(err)
	}
	if f := lookForLost(crashed); len(f.lost) != 0 || len(f.skipped) != 0 {
		t.Errorf("offered %d, %v", len(f.lost), f.skipped)
	}
}

// A save that ends after another scheme was opened does not give that scheme
// the file of the old one.
func TestSaveThatEndsAfterAnotherWasOpened(t *testing.T) {
	a, b := garden(t), garden(t)
	r := diskRig(t, a)
	r.move()
	hold := make(chan struct{})
	r.w.cfg.Save = func(path string, s *doc.Scheme) error {
		<-hold
		return file.SaveScheme(path, s)
	}
	r.menu("Save")
	r.menu("Save") // asked for again, of the old scheme too
	r.w.load(b)
	r.until("the question or the file", func() bool { return len(r.w.sheets) > 0 || r.desk.Frame().Path == b })
	close(hold)
	r.until("the save", func() bool { return !r.w.bridge.Busy(workSave) })
	if got := r.desk.Frame().Path; got != b || r.w.disk.path != b || r.w.saveNext != nil {
		t.Errorf("the desk has the file %s, the window knows %s", got, r.w.disk.path)
	}
}

// A name that is given before the folder's list has come belongs to the folder
// where the scheme lies, not to where the program was started.
func TestNameBeforeTheList(t *testing.T) {
	path := garden(t)
	r := diskRig(t, path)
	r.menu("Save as")
	e, ok := find(r.top().pop.Content, func(e *sheetEntry) bool { return e.PlaceHolder == "file name" })
	if !ok {
		t.Fatal("no entry for a name")
	}
	e.SetText("early.yaml")
	r.answer("Save")
	want := filepath.Join(filepath.Dir(path), "early.yaml")
	r.until("the save", func() bool { return r.desk.Frame().Path == want })
}
