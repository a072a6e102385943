package ui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"duskwire/layout/doc"
	"duskwire/layout/file"
)

// keptRig is a rig whose window keeps unsaved work in a state folder.
func keptRig(t *testing.T, state string) *rig {
	t.Helper()
	r := newRig(t, "townhouse.yaml")
	cfg := r.w.cfg
	cfg.State, cfg.JournalAfter = state, 5*time.Millisecond
	cfg.Read = func(name string, text []byte) (*doc.Scheme, error) {
		stock, _, err := file.Shipped("", "")
		if err != nil {
			return nil, err
		}
		return file.ReadScheme(name, text, stock)
	}
	r.w.Fyne().Hide()
	r.w = New(cfg)
	r.w.Fyne().Show()
	return r
}

// until runs what workers post until something is so.
func (r *rig) until(what string, so func() bool) {
	r.t.Helper()
	end := time.After(patience)
	for !so() {
		select {
		case f := <-r.queue:
			f()
		case <-time.After(10 * time.Millisecond):
		case <-end:
			r.t.Fatalf("waited in vain for %s", what)
		}
	}
}

// work counts the files of unsaved work under a state folder.
func work(state string) int {
	list, _ := filepath.Glob(filepath.Join(state, "journal", "*", "work"))
	return len(list)
}

// abandon leaves the work of a window that has edits, as a crash does: the
// journal's folder is copied to where no process holds it.
func abandon(t *testing.T) (state string, moved *doc.Scheme) {
	t.Helper()
	alive := t.TempDir()
	r := keptRig(t, alive)
	r.move()
	r.until("the journal", func() bool { return work(alive) == 1 })
	moved = r.desk.Frame().Scheme
	state = t.TempDir()
	if err := os.CopyFS(state, os.DirFS(alive)); err != nil {
		t.Fatal(err)
	}
	r.w.journal.Close()
	return state, moved
}

func TestLostWorkIsOfferedAndOpened(t *testing.T) {
	state, moved := abandon(t)
	r := keptRig(t, state)
	r.until("the offer", func() bool { return len(r.w.sheets) > 0 })
	if got := texts(r.top().pop.Content); !strings.Contains(got, "that was not saved: Town-house garden (no file yet), ") {
		t.Errorf("the offer says\n%s", got)
	}
	r.answer("Open it")
	r.until("the work", func() bool { return r.desk.Frame().Unsaved })
	want, _ := file.WriteScheme(moved)
	if got, _ := file.WriteScheme(r.desk.Frame().Scheme); string(got) != string(want) {
		t.Error("what is open is not what was lost")
	}
	if r.w.adopted == nil {
		t.Error("the old keeping ended before the work was kept anew")
	}
	r.until("the old keeping to end", func() bool { return r.w.adopted == nil })
	if n := work(state); n != 1 {
		t.Errorf("%d files of work, expected the new one", n)
	}
	r.menu("Quit")
	r.answer("Discard")
	if n := work(state); n != 0 || r.quits != 1 {
		t.Errorf("%d files of work after a clean end, %d ends", n, r.quits)
	}
}

func TestLostWorkCanWaitOrGo(t *testing.T) {
	state, _ := abandon(t)
	for _, row := range []struct {
		answer string
		left   int
	}{{"Look later", 1}, {"Throw away", 0}} {
		r := keptRig(t, state)
		r.until("the offer", func() bool { return len(r.w.sheets) > 0 })
		r.answer(row.answer)
		if n := work(state); n != row.left || r.desk.Frame().Unsaved {
			t.Errorf("%s: %d files of work left, expected %d", row.answer, n, row.left)
		}
		r.w.quit()
	}
	r := keptRig(t, state)
	r.menu("Work not saved")
	r.until("an answer", func() bool { return len(r.w.sheets) > 0 })
	if got := texts(r.top().pop.Content); !strings.Contains(got, "none") {
		t.Errorf("the sheet says\n%s", got)
	}
	r.w.journal.Close()
}

// What its file holds by now was saved after all and is not offered.
func TestSavedWorkIsNotOffered(t *testing.T) {
	state := t.TempDir()
	path := filepath.Join(t.TempDir(), "a.yaml")
	r := keptRig(t, state)
	r.desk.Saved(r.desk.Frame().Scheme, path)
	r.move()
	r.until("the journal", func() bool { return work(state) == 1 })
	crashed := t.TempDir()
	if err := os.CopyFS(crashed, os.DirFS(state)); err != nil {
		t.Fatal(err)
	}
	if err := file.SaveScheme(path, r.desk.Frame().Scheme); err != nil {
		t.Fatal(err)
	}
	r.menu("Save")
	r.until("the journal to be empty", func() bool { return work(state) == 0 })
	r.w.journal.Close()
	r.w.rememberShape() // waits for what the save remembers in the folder
	if f := lookForLost(crashed); len(f.lost) != 0 || len(f.skipped) != 0 {
		t.Errorf("offered %+v, %v", f.lost, f.skipped)
	}
	if n := work(crashed); n != 0 {
		t.Errorf("%d files of work left", n)
	}
}

func TestTornWorkIsTold(t *testing.T) {
	state, _ := abandon(t)
	list, _ := filepath.Glob(filepath.Join(state, "journal", "*", "work"))
	if err := os.Truncate(list[0], 100); err != nil {
		t.Fatal(err)
	}
	r := keptRig(t, state)
	r.until("words", func() bool { return len(r.w.sheets) > 0 })
	if got := texts(r.top().pop.Content); !strings.Contains(got, "put aside as") {
		t.Errorf("the sheet says\n%s", got)
	}
	r.w.journal.Close()
}

// recentItem returns the entry of the recent files that starts with a name.
func (r *rig) recentItem(name string) *fyne.MenuItem {
	for _, i := range r.w.menus.recent.ChildMenu.Items {
		if strings.HasPrefix(i.Label, name) {
			return i
		}
	}
	return nil
}

func TestRecentFiles(t *testing.T) {
	state, folder := t.TempDir(), t.TempDir()
	a, b := filepath.Join(folder, "a.yaml"), filepath.Join(folder, "b.yaml")
	if err := os.WriteFile(a, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	r := keptRig(t, state)
	r.saved.put(a, doc.New("uk-18"))
	r.saved.put(b, doc.New("uk-18"))
	r.w.load(b)
	r.until("b", func() bool { return r.desk.Frame().Path == b })
	r.w.load(a)
	r.until("the list", func() bool {
		i := r.recentItem("b.yaml")
		return r.recentItem("a.yaml") != nil && i != nil && i.Disabled
	})
	if got := r.recentItem("b.yaml").Label; !strings.Contains(got, "not there now") {
		t.Errorf("a missing file reads %q", got)
	}
	if r.recentItem("a.yaml").Disabled {
		t.Error("a file that is there is greyed")
	}
	r.recentItem("Forget").Action()
	if r.recentItem("b.yaml") != nil {
		t.Error("the missing file stays")
	}
	r.w.middle.SetOffset(0.6)
	r.w.quit()
	again := keptRig(t, state)
	if again.recentItem("a.yaml") == nil || again.recentItem("b.yaml") != nil {
		t.Errorf("the next start lists %v", again.w.memory.Recent)
	}
	if got := again.w.middle.Offset; got != 0.6 {
		t.Errorf("the divider is at %g, expected 0.6", got)
	}
	again.w.journal.Close()
}

func TestDrop(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	drop := func(names ...string) {
		var list []fyne.URI
		for _, n := range names {
			list = append(list, storage.NewFileURI(n))
		}
		r.w.dropped(fyne.NewPos(0, 0), list)
	}
	r.saved.put("/g/a.yaml", doc.New("uk-18"))
	drop("/g/a.yaml")
	r.wait()
	if r.desk.Frame().Path != "/g/a.yaml" {
		t.Errorf("on the desk is %q", r.desk.Frame().Path)
	}
	drop("/g/a.docx")
	if got := texts(r.top().pop.Content); !strings.Contains(got, `found the ending ".docx"`) {
		t.Errorf("the sheet says\n%s", got)
	}
	drop("/g/a.yaml") // while a question is open
	if got := r.w.status.Hint(); !strings.Contains(got, "open question first") {
		t.Errorf("the hint is %q", got)
	}
	r.answer("Close")
	drop("/g/a.yaml", "/g/b.yaml")
	if got := r.w.status.Hint(); !strings.Contains(got, "one file at a time") {
		t.Errorf("the hint is %q", got)
	}
	r.noSheet()
}

func TestHistoryList(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	start := r.desk.Frame().Scheme
	r.move()
	r.move()
	r.menu("History")
	h := r.w.history
	if h.Rows() != 3 || !strings.HasPrefix(h.Row(2), "►") || !strings.HasPrefix(strings.TrimSpace(h.Row(1)), "Move L1") {
		t.Fatalf("rows %q, %q, %q", h.Row(0), h.Row(1), h.Row(2))
	}
	list := h.List()
	if r.w.Fyne().Canvas().Focused() != list {
		t.Fatal("the list has not got the keyboard")
	}
	list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn}) // on the first row
	if r.desk.Frame().Scheme != start || !strings.HasPrefix(h.Row(0), "►") || !strings.HasSuffix(h.Row(1), "(undone)") {
		t.Errorf("rows %q, %q, %q", h.Row(0), h.Row(1), h.Row(2))
	}
	list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if names, done := r.desk.Steps(); done != 1 || len(names) != 2 {
		t.Errorf("step %d of %q", done, names)
	}
}

// export saves one of the lists or the picture under a name.
func (r *rig) export(entry, path string) {
	r.t.Helper()
	r.menu(entry)
	r.wait() // the listing of the folder
	name, _ := find(r.top().pop.Content, func(e *sheetEntry) bool { return e.PlaceHolder == "file name" })
	name.SetText(path)
	r.answer("Save")
}

func TestExports(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	for _, row := range []struct{ entry, name, starts string }{
		{"Save picture", "p.pdf", "%PDF"}, {"Save picture", "p.svg", "<"}, {"Save picture", "p.png", "\x89PNG"},
		{"Save readings", "r.txt", "Town-house"}, {"Save readings", "r.json", "{"}, {"Save lengths", "l.txt", ""},
		{"Save findings", "bare", ""},
	} {
		path := filepath.Join(t.TempDir(), row.name)
		r.export(row.entry, path)
		r.wait() // whether it is there already
		r.wait() // the file
		r.noSheet()
		if row.name == "bare" {
			path += ".txt"
		}
		data, err := os.ReadFile(path)
		if err != nil || len(data) < 200 || !strings.Contains(string(data[:100]), row.starts) {
			t.Errorf("%s to %s: %v, %d bytes", row.entry, row.name, err, len(data))
		}
		if got := r.w.status.Hint(); got != "Saved "+filepath.Base(path) {
			t.Errorf("the hint is %q", got)
		}
	}
	r.export("Save picture", filepath.Join(t.TempDir(), "p.gif"))
	if got := texts(r.top().pop.Content); !strings.Contains(got, "Found the ending .gif") {
		t.Errorf("the sheet says\n%s", got)
	}
	r.answer("Cancel")
}

// A second save during the first waits for it and writes what is newer.
func TestSavesComeOneAfterTheOther(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.desk.Saved(r.desk.Frame().Scheme, "/g/a.yaml")
	r.move()
	first := r.desk.Frame().Scheme
	r.menu("Save")
	r.move()
	r.menu("Save")
	r.wait()
	if r.saved.get("/g/a.yaml") != first || !r.desk.Frame().Unsaved {
		t.Error("the first save did not end before the second began")
	}
	r.wait()
	if r.saved.get("/g/a.yaml") != r.desk.Frame().Scheme || r.desk.Frame().Unsaved {
		t.Error("the second save is missing")
	}
}

// Opening can be cancelled: the desk stays as it is.
func TestOpeningCanBeCancelled(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	var timers []func()
	r.w.bridge.later = func(_ time.Duration, f func()) { timers = append(timers, f) }
	before := r.desk.Frame().Scheme
	r.saved.put("/b.yaml", doc.New("uk-18"))
	r.hold = make(chan struct{})
	// Only the timer that shows the work is set on this goroutine; what the work
	// says comes on its own and is left out here.
	shown := r.w.bridge.later
	r.w.bridge.later = func(d time.Duration, f func()) {
		if d == showAfter {
			shown(d, f)
		}
	}
	r.w.load("/b.yaml")
	timers[0]()
	r.wait()
	if !r.w.progress.box.Visible() || !strings.HasPrefix(r.w.progress.text.Text, "Opening b.yaml") {
		t.Fatalf("the row shows %q", r.w.progress.text.Text)
	}
	cancel, _ := find(r.w.progress.box, func(b *widget.Button) bool { return b.Text == "Cancel" })
	test.Tap(cancel)
	close(r.hold)
	r.wait()
	if r.desk.Frame().Scheme != before || r.w.progress.box.Visible() {
		t.Error("the file came although it was cancelled")
	}
	if got := r.w.status.Hint(); got != "Cancelled: nothing was opened" {
		t.Errorf("the hint is %q", got)
	}
	r.noSheet()
}
