package ui

import (
	"os"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// gardenOf is a plan so large that edits of all of it are evaluated in a worker: a
// row of lamps on runs, from one supply point.
func gardenOf(n int) *doc.Scheme {
	s := doc.New("uk-18")
	s.Supplies = doc.NewSet(&doc.Supply{ID: "SP1", Tag: "SP1", Nominal: 230, Spur: true, Upstream: "b32-rcbo-30", Fuse: "fuse-13"})
	var lamps []*doc.Lamp
	var runs []*doc.Run
	last := doc.ID("SP1")
	for i := range n {
		l := &doc.Lamp{ID: doc.NewID(), Tag: "L" + strconv.Itoa(i+1), Stock: "brick-3w", Place: doc.Place{At: geom.Pt(float64(i%20)+1, float64(i/20))}}
		lamps = append(lamps, l)
		runs = append(runs, &doc.Run{ID: doc.NewID(), Tag: "R" + strconv.Itoa(i+1), Cable: "swa-3x1.5", From: doc.End{On: last}, To: doc.End{On: l.ID},
			Legs: []doc.Leg{{Depth: 600 * geom.Millimetre}}})
		last = l.ID
	}
	s.Lamps, s.Runs = doc.NewSet(lamps...), doc.NewSet(runs...)
	return s
}

// errand is a worker that the test sends.
type errand struct{ take func() (work, done func()) }

func (e *errand) run(take func() (work, done func())) { e.take = take }

// whole lets the worker finish what was asked of it.
func (e *errand) whole() {
	for e.take != nil {
		take := e.take
		e.take = nil
		if work, done := take(); work != nil {
			work()
			done()
		}
	}
}

// lateRig is a rig on a large plan with a worker for its edits, its panels in turns
// that the test takes one by one.
func lateRig(t *testing.T, state string) (r *rig, e *errand, turn func() bool) {
	t.Helper()
	if state == "" {
		r = newRig(t, "townhouse.yaml")
	} else {
		r = keptRig(t, state)
	}
	r.w.put(gardenOf(150), "")
	e = &errand{}
	r.desk.FollowEdits(e.run)
	var waits []func()
	r.w.panels.later = func(f func()) { waits = append(waits, f) }
	return r, e, func() bool {
		if len(waits) == 0 {
			return false
		}
		f := waits[0]
		waits = waits[1:]
		f()
		return true
	}
}

// everyPlace lists where the lamps of a scheme stand.
func everyPlace(s *doc.Scheme) (out []geom.Point) {
	for _, l := range s.Lamps.All() {
		out = append(out, l.Place.At)
	}
	return out
}

// TestPanelsAfterALargeEdit: what is pasted is selected and shown at once, the
// figures follow, and every panel comes to show the frame that is whole.
func TestPanelsAfterALargeEdit(t *testing.T) {
	r, e, turn := lateRig(t, "")
	r.w.selectAll()
	r.w.duplicate()
	f := r.desk.Frame()
	if !f.Behind || f.Scheme.Lamps.Len() != 300 {
		t.Fatalf("behind %v with %d lamps; expected 300 at once, marked", f.Behind, f.Scheme.Lamps.Len())
	}
	if got := texts(r.w.properties.Object()); !strings.Contains(got, "301 things selected") {
		t.Errorf("before the figures are there the panel says\n%s", got)
	}
	if got := strings.ToLower(texts(r.w.findings.Object())); !strings.Contains(got, "being worked out") {
		t.Error("the heading of the findings does not say that they are of before")
	}
	for _, view := range []func(){func() { r.w.showTab(1) }, func() { r.w.showTab(2) }, func() { r.w.showReadings("") }, func() { r.w.showTab(0) }} {
		view() // none of them may stumble over figures of before
		for turn() {
		}
	}
	for i := range r.w.views.all {
		r.w.showView(i)
		r.w.Fyne().Canvas().Capture()
	}
	r.w.showView(0)
	e.whole()
	for turn() {
	}
	if f = r.desk.Frame(); f.Behind || len(f.Circuits.Lengths) != 300 {
		t.Fatalf("behind %v with %d lengths; expected 300", f.Behind, len(f.Circuits.Lengths))
	}
	if got := strings.ToLower(texts(r.w.findings.Object())); strings.Contains(got, "being worked out") {
		t.Error("the heading of the findings still says that they are of before")
	}
	other := newRig(t, "townhouse.yaml")
	other.w.put(f.Scheme, "")
	if want, got := other.w.Look().Rows, r.w.Look().Rows; !reflect.DeepEqual(want, got) {
		t.Errorf("the findings say\n%q, of the scheme opened anew\n%q", got, want)
	}
}

// TestSaveAndPrintDuringALargeEdit: what is saved, and what pages are made of, is
// what was drawn, whether the worker is done or not.
func TestSaveAndPrintDuringALargeEdit(t *testing.T) {
	r, e, _ := lateRig(t, "")
	r.w.selectAll()
	before := everyPlace(r.desk.Frame().Scheme)
	r.w.rotate(90)()
	if !r.desk.Frame().Behind {
		t.Fatal("no worker was asked")
	}
	path := filepath.Join(t.TempDir(), "late.yaml")
	r.w.write(path, nil)
	for r.w.bridge.Busy(workSave) {
		r.wait()
	}
	want := everyPlace(r.desk.Frame().Scheme)
	if saved := r.saved.get(path); saved == nil || reflect.DeepEqual(everyPlace(saved), before) || !reflect.DeepEqual(everyPlace(saved), want) {
		t.Error("saved is not what is drawn")
	}
	if f := r.desk.Frame(); f.Unsaved || f.Path != path {
		t.Errorf("unsaved %v, path %q", f.Unsaved, f.Path)
	}
	r.w.selectAll()
	r.w.rotate(90)()
	asked := r.desk.Whole(r.desk.Frame())
	r.w.save(nil)
	if !r.desk.Frame().Behind {
		t.Error("Save works out all figures where the hand waits")
	}
	for r.w.bridge.Busy(workSave) {
		r.wait()
	}
	if saved := r.saved.get(path); !reflect.DeepEqual(everyPlace(saved), everyPlace(r.desk.Frame().Scheme)) {
		t.Error("saved again is not what is drawn")
	}
	e.whole()
	if f := r.desk.Frame(); f.Behind {
		t.Error("behind")
	} else if got := asked(); !reflect.DeepEqual(got.Findings, f.Findings) || !reflect.DeepEqual(got.Circuits.Lengths, f.Circuits.Lengths) {
		t.Error("Whole is another than what the desk finds")
	}
}

// TestIssueDuringALargeEdit: what is said before the mark is counted in a worker, of
// the design that is drawn when it is said.
func TestIssueDuringALargeEdit(t *testing.T) {
	r, e, turn := lateRig(t, "")
	r.w.selectAll()
	r.w.duplicate() // nothing feeds the copies
	for turn() {
	}
	before := r.desk.Frame()
	whole := r.desk.Whole(before)().Totals
	if !before.Behind || whole.Stop == before.Totals.Stop && whole.Decide == before.Totals.Decide {
		t.Fatalf("behind %v, open %d and %d before and after; expected others", before.Behind, whole.Stop, whole.Decide)
	}
	r.w.markIssued()
	if r.noSheet(); r.desk.Frame() != before {
		t.Error("worked out where the hand waits")
	}
	said := func() {
		t.Helper()
		for r.w.bridge.Busy(workIssue) {
			r.wait()
		}
		now := r.desk.Whole(r.desk.Frame())().Totals
		if got := texts(r.top().pop.Content); !strings.Contains(got, openWords(now.Stop, now.Decide)) {
			t.Errorf("the sheet says %q, expected %q", got, openWords(now.Stop, now.Decide))
		}
	}
	said()
	r.answer("Not yet")
	r.w.markIssued()
	r.w.undo() // while the worker counts
	said()
	r.answer("Mark as issued")
	if r.desk.Frame().Scheme.Issue == nil {
		t.Error("not marked")
	}
	e.whole()
	if r.desk.Frame().Behind {
		t.Error("behind")
	}
}

// TestPapersDuringALargeEdit: nothing that asks for a paper, a price or a light works
// out the figures where the hand waits, and the paper has those of what is drawn.
func TestPapersDuringALargeEdit(t *testing.T) {
	r, _, turn := lateRig(t, "")
	r.w.selectAll()
	r.w.duplicate()
	for turn() {
	}
	if got := r.w.status.Totals(); !strings.HasPrefix(got, "being worked out: ") {
		t.Errorf("the bottom line shows figures of before as %q", got)
	}
	for name, ask := range map[string]func(){
		"Save as": func() { r.w.saveAs(nil) }, "the plan": r.w.savePicture, "a list": func() { r.w.saveReport(lengthsReport) },
		"a pack": func() { r.w.savePack("site") }, "a pack beside another": r.w.savePackBeside, "data": r.w.saveData,
		"the night": r.w.saveNight, "the standing view": r.w.saveStanding, "a light": r.w.showLight, "prices": r.w.showPrices, "pages": r.w.showPages,
	} {
		if ask(); !r.desk.Frame().Behind {
			t.Fatalf("%s works out all figures where the hand waits", name)
		}
		for name == "prices" && len(r.w.sheets) == 0 {
			r.wait()
		}
		for len(r.w.sheets) > 0 {
			r.top().key(fyne.KeyEscape)
		}
	}
	path := filepath.Join(t.TempDir(), "lengths.txt")
	for r.w.bridge.Busy(workList) {
		r.wait()
	}
	r.export("Save lengths", path)
	r.until("the list", func() bool { _, err := os.Stat(path); return err == nil })
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for _, run := range r.desk.Frame().Scheme.Runs.All() {
		if !strings.Contains(string(text), run.Tag+" ") {
			t.Fatalf("the cut list lacks %s, drawn before the figures had come", run.Tag)
		}
	}
}

// TestPricesDuringALargeEdit: the price list asks for the cable that is drawn, not for
// that of before.
func TestPricesDuringALargeEdit(t *testing.T) {
	r, _, _ := lateRig(t, "")
	var runs []doc.ID
	for _, run := range r.desk.Frame().Scheme.Runs.All() {
		runs = append(runs, run.ID)
	}
	if err := r.desk.Commit(edit.SetCable{Runs: runs, Cable: "swa-3x2.5"}); err != nil || !r.desk.Frame().Behind {
		t.Fatalf("%v, behind %v", err, r.desk.Frame().Behind)
	}
	r.w.showPrices()
	for len(r.w.sheets) == 0 {
		r.wait()
	}
	now, _ := r.desk.Frame().Stock.PriceName("cable", "swa-3x2.5")
	before, _ := r.desk.Frame().Stock.PriceName("cable", "swa-3x1.5")
	if said := texts(r.top().pop); !strings.Contains(said, now) || strings.Contains(said, before) {
		t.Errorf("expected %q and not %q in\n%s", now, before, said)
	}
}

// TestUndoKeysDuringALargeEdit: steps are taken back one by one while a worker is at
// them, and none is lost.
func TestUndoKeysDuringALargeEdit(t *testing.T) {
	r, e, turn := lateRig(t, "")
	first := r.desk.Frame().Scheme
	var seen []*doc.Scheme
	for range 3 {
		r.w.selectAll()
		r.w.plan.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
		seen = append(seen, r.desk.Frame().Scheme)
	}
	turn()
	for i := 2; i > 0; i-- {
		r.w.undo()
		if r.desk.Frame().Scheme != seen[i-1] {
			t.Fatalf("undo %d does not lead to the step before", 3-i)
		}
	}
	r.w.undo()
	if r.desk.Frame().Scheme != first {
		t.Fatal("undo does not lead to the first scheme")
	}
	r.w.redo()
	e.whole()
	for turn() {
	}
	if f := r.desk.Frame(); f.Scheme != seen[0] || f.Behind {
		t.Errorf("behind %v after redo", f.Behind)
	}
}

// TestJournalDuringALargeEdit: unsaved work is kept at once, not when the figures
// have come.
func TestJournalDuringALargeEdit(t *testing.T) {
	alive := t.TempDir()
	r, _, _ := lateRig(t, alive)
	r.w.selectAll()
	r.w.rotate(90)()
	if !r.desk.Frame().Behind {
		t.Fatal("no worker was asked")
	}
	r.until("the journal", func() bool { return work(alive) == 1 })
	state := t.TempDir()
	if err := os.CopyFS(state, os.DirFS(alive)); err != nil {
		t.Fatal(err)
	}
	r.w.journal.Close()
	again := keptRig(t, state)
	again.until("the offer", func() bool { return len(again.w.sheets) > 0 })
	again.answer("Open it")
	again.until("the work", func() bool { return again.desk.Frame().Unsaved })
	if !reflect.DeepEqual(everyPlace(again.desk.Frame().Scheme), everyPlace(r.desk.Frame().Scheme)) {
		t.Error("what was kept is not what is drawn")
	}
	again.w.journal.Close()
}

// TestCloseDuringALargeEdit: a window that is closed while a worker is at an edit is
// touched no more, and its work is asked about.
func TestCloseDuringALargeEdit(t *testing.T) {
	r, _, _ := lateRig(t, "")
	r.desk.FollowEdits(r.w.paced("edits", 0, 0))
	r.w.selectAll()
	r.w.rotate(90)()
	late := r.desk.Frame()
	if !late.Behind || !r.w.bridge.Busy("edits") {
		t.Fatal("no worker is at it")
	}
	r.menu("Quit")
	r.answer("Discard")
	if r.quits != 1 {
		t.Fatal("not closed")
	}
	r.wait() // the worker's answer
	if r.desk.Frame() != late {
		t.Error("a closed window took a frame")
	}
}

// TestIssueAskedForOnce: who has answered the question meanwhile, opened another
// scheme or taken something in hand is not asked by what was counted before.
func TestIssueAskedForOnce(t *testing.T) {
	for name, meanwhile := range map[string]func(*rig, *errand){
		"answered": func(r *rig, e *errand) {
			e.whole()
			r.w.markIssued()
			r.answer("Mark as issued")
		},
		"another scheme": func(r *rig, _ *errand) { r.w.put(gardenOf(3), "") },
		"in hand": func(r *rig, _ *errand) {
			r.desk.Preview(edit.MovePoints{IDs: []doc.ID{r.desk.Frame().Scheme.Lamps.All()[0].ID}, By: geom.Point{X: geom.Metre}})
		},
	} {
		t.Run(name, func(t *testing.T) {
			r, e, _ := lateRig(t, "")
			r.w.selectAll()
			r.w.rotate(90)()
			r.w.markIssued()
			meanwhile(r, e)
			left := r.desk.Frame()
			for r.w.bridge.Busy(workIssue) {
				r.wait()
			}
			if r.noSheet(); r.desk.Frame().Preview != left.Preview {
				t.Error("the hand has lost what it held")
			}
		})
	}
}
