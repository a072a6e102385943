package ui

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
	"duskwire/layout/tool"
	"duskwire/ui/panel"
)

// idOf returns the id of the thing with the tag.
func (r *rig) idOf(tag string) doc.ID {
	r.t.Helper()
	e := doc.WithTag(r.desk.Frame().Scheme, tag)
	if e == nil {
		r.t.Fatalf("no %s in the example", tag)
	}
	return e.Key()
}

// move moves L1 by a metre, as an edit by hand would.
func (r *rig) move() {
	r.t.Helper()
	op := edit.MovePoints{IDs: []doc.ID{r.idOf("L1")}, By: geom.Pt(1, 0)}
	if err := r.desk.Commit(op); err != nil {
		r.t.Fatal(err)
	}
}

func TestTitleMarksUnsavedWork(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	title := func() string { return r.w.Fyne().Title() }
	if got := title(); got != "Town-house garden — Duskwire" {
		t.Errorf("at the start the title is %q", got)
	}
	r.move()
	if got := title(); got != "• Town-house garden — Duskwire" {
		t.Errorf("after an edit the title is %q", got)
	}
	r.menu("Undo")
	if got := title(); strings.HasPrefix(got, "•") {
		t.Errorf("after undo the title still has its marker: %q", got)
	}
}

func TestUndoAndRedoFromTheMenu(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	before := r.desk.Frame().Scheme
	r.move()
	if got := r.label("Undo"); !strings.HasPrefix(got, "Undo move L1 ") {
		t.Errorf("the entry reads %q", got)
	}
	r.menu("Undo")
	if r.desk.Frame().Scheme != before {
		t.Error("undo did not bring the scheme back")
	}
	if got := r.label("Redo"); !strings.HasPrefix(got, "Redo move L1 ") {
		t.Errorf("the entry reads %q", got)
	}
	r.menu("Redo")
	if r.desk.Frame().Scheme == before {
		t.Error("redo did nothing")
	}
}

// A menu shortcut takes Ctrl+Z away from a focused entry unless it is handed
// on.
func TestUndoReachesAFocusedField(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.move()
	moved := r.desk.Frame().Scheme
	field, ok := find(r.w.properties.Object(), func(*panel.Field) bool { return true })
	if !ok {
		t.Fatal("no field in the properties")
	}
	was := field.Text
	r.w.Fyne().Canvas().Focus(field)
	test.Type(field, "x")
	if field.Text == was {
		t.Fatal("typing did nothing")
	}
	r.menu("Undo")
	if field.Text != was {
		t.Errorf("the field has %q, expected the typing taken back to %q", field.Text, was)
	}
	if r.desk.Frame().Scheme != moved {
		t.Error("undo went to the scheme although a field has the focus")
	}
}

func TestPickedFindingIsSelectedAndFlownTo(t *testing.T) {
	r := newRig(t, "townhouse-mistakes.yaml")
	f := r.desk.Frame().Findings[0]
	r.w.plan.ZoomIn()
	r.w.plan.ZoomIn()
	r.w.plan.ZoomIn()
	r.w.plan.ZoomIn()
	before := r.w.plan.Area()
	r.w.findings.OnPick(f)
	if got := r.w.plan.Selection(); len(got) != 1 || string(got[0]) != f.Subject.ID {
		t.Errorf("selected %v, expected %s", got, f.Subject.ID)
	}
	at := tool.Extent(r.desk.Frame().Scheme, doc.ID(f.Subject.ID)).Centre()
	if !r.w.plan.Area().Contains(at) {
		t.Errorf("%s is not in view", f.Subject.Label)
	}
	if r.w.plan.Area() == before {
		t.Error("the view did not move")
	}
	if got := texts(r.w.properties.Object()); !strings.Contains(got, f.Subject.Label) {
		t.Errorf("the properties show\n%s\nexpected %s", got, f.Subject.Label)
	}
}

// TestFindingLeadsToTheSurvey: what is missing at the supply point is entered
// there, whatever the finding stands at and whichever tab is open.
func TestFindingLeadsToTheSurvey(t *testing.T) {
	r := newRig(t, "townhouse-mistakes.yaml")
	r.w.tabs.SelectIndex(2)
	for _, f := range r.desk.Frame().Findings {
		if f.Code == "RCD-01" {
			r.w.enterAt(f)
		}
	}
	if got := r.w.plan.Selection(); len(got) != 1 || got[0] != r.idOf("SP1") || r.w.tabs.SelectedIndex() != 0 {
		t.Errorf("selected %v on tab %d, expected the supply point's properties", got, r.w.tabs.SelectedIndex())
	}
}

func TestSaveAsksForAPlaceOnce(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.move()
	r.menu("Save")
	r.wait() // the listing of the folder
	entry, _ := find(r.top().pop.Content, func(e *sheetEntry) bool { return e.PlaceHolder == "file name" })
	test.Type(entry, "border") // in place of the name proposed
	r.answer("Save")
	r.wait() // whether it is there already
	r.wait() // the file
	path := filepath.Join(r.w.cfg.Folder, "border.yaml")
	if r.saved.get(path) != r.desk.Frame().Scheme {
		t.Fatalf("saved %v, expected %s", r.saved.paths(), path)
	}
	if got := r.w.Fyne().Title(); got != "border.yaml — Duskwire" {
		t.Errorf("the title is %q", got)
	}
	r.move()
	r.menu("Save")
	r.wait()
	r.noSheet()
	if r.saved.get(path) != r.desk.Frame().Scheme {
		t.Error("the second save did not write the newer scheme")
	}
}

func TestReturnInTheListOpensTheFile(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	if err := os.WriteFile(filepath.Join(r.w.cfg.Folder, "a.yaml"), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	r.menu("Open…")
	r.wait() // the listing of the folder
	list, _ := find(r.top().pop.Content, func(*sheetList) bool { return true })
	list.Select(0) // as a click does
	list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	r.noSheet()
	r.wait()
}

func TestFailedSaveKeepsTheMarkerAndTellsWhy(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.desk.Saved(r.desk.Frame().Scheme, "/gardens/a.yaml")
	r.move()
	r.fail = errors.New("/gardens/a.yaml: no space left on device")
	r.menu("Save")
	r.wait()
	if got := texts(r.top().pop.Content); !strings.Contains(got, "no space left on device") {
		t.Errorf("the sheet says\n%s", got)
	}
	if !r.desk.Frame().Unsaved {
		t.Error("the scheme counts as saved")
	}
}

func TestOpenTellsWhatIsWrongWithAFile(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.w.load("/gardens/broken.yaml")
	r.wait()
	if got := texts(r.top().pop.Content); !strings.Contains(got, "/gardens/broken.yaml:1: found nothing") {
		t.Errorf("the sheet says\n%s", got)
	}
}

func TestCloseAsksAboutUnsavedWork(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.desk.Saved(r.desk.Frame().Scheme, "/gardens/a.yaml")
	r.move()
	r.w.quit()
	r.answer("Stay")
	r.noSheet()
	if r.quits != 0 {
		t.Fatal("Stay quit")
	}
	r.w.quit()
	r.answer("Save")
	r.wait()
	if r.quits != 1 || r.saved.get("/gardens/a.yaml") != r.desk.Frame().Scheme {
		t.Errorf("after Save: quit %d times, saved %v", r.quits, r.saved.paths())
	}

	r = newRig(t, "townhouse.yaml")
	r.move()
	r.w.quit()
	r.answer("Discard")
	if r.quits != 1 || len(r.saved.paths()) != 0 {
		t.Errorf("after Discard: quit %d times, saved %v", r.quits, r.saved.paths())
	}
}

func TestQuitWithoutUnsavedWorkAsksNothing(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.w.quit()
	r.noSheet()
	if r.quits != 1 {
		t.Errorf("quit %d times", r.quits)
	}
}

func TestResultsAfterCloseAreDropped(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	before := r.desk.Frame().Scheme
	r.w.openExample()
	r.w.bridge.Close()
	r.wait()
	if r.desk.Frame().Scheme != before {
		t.Error("a result reached the desk after the window was closed")
	}
}

func TestNewerWorkSupersedesOlder(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	other := doc.New("uk-18")
	r.saved.put("/b.yaml", other)
	r.hold = make(chan struct{})
	r.w.load("/a.yaml")
	r.w.load("/b.yaml")
	r.wait() // the older one's, an error
	r.noSheet()
	close(r.hold)
	r.wait()
	if r.desk.Frame().Scheme != other {
		t.Error("the newer file is not on the desk")
	}
}

func TestNewSchemeAsksThreeQuestions(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.menu("New")
	words := texts(r.top().pop.Content)
	for _, q := range []string{"1. Which rule set", "2. Where does the power", "3. At what scale"} {
		if !strings.Contains(words, q) {
			t.Errorf("the sheet does not ask %q", q)
		}
	}
	entry := func(placeholder string) *sheetEntry {
		e, ok := find(r.top().pop.Content, func(e *sheetEntry) bool { return strings.HasPrefix(e.PlaceHolder, placeholder) })
		if !ok {
			t.Fatalf("no entry with %q", placeholder)
		}
		return e
	}
	choice := func(option string) *sheetSelect {
		s, ok := find(r.top().pop.Content, func(s *sheetSelect) bool {
			return strings.Contains(strings.Join(s.Options, "|"), option)
		})
		if !ok {
			t.Fatalf("no choice with %q", option)
		}
		return s
	}
	entry("not known yet").SetText("0.35 A")
	r.answer("Start drawing")
	if got := texts(r.top().pop.Content); !strings.Contains(got, "Ze at the board: ") || !strings.Contains(got, "expected a resistance") {
		t.Fatalf("a current was not refused:\n%s", got)
	}
	if r.w.Fyne().Canvas().Focused() != fyne.Focusable(entry("not known yet")) {
		t.Error("the keyboard is not in the field that was refused")
	}
	entry("not known yet").SetText("21") // the field names the unit
	choice("Its own way").SetSelected("Its own way at the board")
	choice("TN-C-S").SetSelected("TT")
	choice("Wales").SetSelected("Wales")
	entry("1:50").SetText("1:100")
	r.answer("Start drawing")
	r.noSheet()
	s := r.desk.Frame().Scheme
	if s.Plan.Scale != 100 || s.Rules != "uk-18" || s.Country != "Wales" || s.Lamps.Len() != 0 {
		t.Errorf("the new scheme is %+v", s)
	}
	p := r.w.defaults.Supply
	if p.Spur || p.Earthing != network.TT || !p.Electrode.Known || p.Electrode.Value != 21 || p.Ze.Known || p.Fuse != "" {
		t.Errorf("the supply to place is %+v", p)
	}
	if got := r.w.plan.Tool().Name(); got != tool.NameSupply {
		t.Errorf("the tool in hand is %s", got)
	}
}

func TestEscapeClosesEverySheet(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	for name, open := range map[string]func(){
		"new": r.w.newScheme, "keys": r.w.keys, "about": r.w.about, "open": r.w.open, "welcome": r.w.welcome,
		"overrule": func() { r.w.overrule(r.desk.Frame().Findings[0]) },
		"error":    func() { r.w.fail("It failed", errors.New("why")) },
	} {
		open()
		focused := r.w.Fyne().Canvas().Focused()
		if focused == nil {
			t.Errorf("%s: nothing has the keyboard", name)
			r.w.typedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
			continue
		}
		focused.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		if len(r.w.sheets) != 0 {
			t.Errorf("%s: Escape did not close it", name)
			r.w.sheets[0].close()
		}
	}
}

func TestOverruleAsksWhoAndWhy(t *testing.T) {
	r := newRig(t, "townhouse-mistakes.yaml")
	f := r.desk.Frame().Findings[0]
	r.w.findings.OnOverrule(f)
	r.answer("Record decision")
	if len(r.w.sheets) == 0 {
		t.Fatal("a decision without a reason was taken")
	}
	by, _ := find(r.top().pop.Content, func(e *sheetEntry) bool { return e.PlaceHolder == "name" })
	why, _ := find(r.top().pop.Content, func(e *sheetEntry) bool { return strings.HasPrefix(e.PlaceHolder, "why") })
	by.SetText("A. Person")
	why.SetText("tested on site")
	r.answer("Record decision")
	r.noSheet()
	got := r.desk.Frame().Scheme.Decisions
	want := doc.Decision{Code: string(f.Code), Subject: doc.ID(f.Subject.ID), By: "A. Person", On: "2026-11-25", Reason: "tested on site"}
	if len(got) == 0 || got[len(got)-1] != want {
		t.Errorf("recorded %+v, expected %+v", got, want)
	}
	if words := texts(r.w.findings.Object()); !strings.Contains(words, "Overruled: tested on site") {
		t.Errorf("the list does not show the decision:\n%s", words)
	}
}

func TestMenusSleepWhileAQuestionIsOpen(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.move()
	moved := r.desk.Frame().Scheme
	r.w.about()
	r.menu("Undo")
	r.menu("New")
	if r.desk.Frame().Scheme != moved || len(r.w.sheets) != 1 {
		t.Error("a menu shortcut reached past the sheet")
	}
}

func TestToolKeysAndTray(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	for _, name := range slices.Concat(toolOrder, groundOrder) {
		r.w.plan.TypedRune(tool.Letter(name))
		if got := r.w.plan.Tool().Name(); got != name {
			t.Errorf("%c takes %s, expected %s", tool.Letter(name), got, name)
		}
		if !r.w.tray.buttons[name].on {
			t.Errorf("the tray does not show %s in hand", name)
		}
	}
	test.Tap(r.w.tray.buttons[tool.NameBox])
	if got := r.w.plan.Tool().Name(); got != tool.NameBox {
		t.Errorf("the tray took %s", got)
	}
	pick, ok := find(r.w.tray.below, func(*panel.Pick) bool { return true })
	if !ok {
		t.Fatal("no stock to choose from")
	}
	pick.SetSelectedIndex(2)
	if got, want := r.w.defaults.Box, r.desk.Frame().Stock.Boxes[2].Key; got != want {
		t.Errorf("the next box is %s, expected %s", got, want)
	}
}

func TestShortcutsAreShownInTheMenus(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	want := map[string]struct {
		keys     string
		shortcut fyne.Shortcut // as the driver names it; nil when the plan answers
	}{
		"New": {"Ctrl+N", control(fyne.KeyN)}, "Open…": {"Ctrl+O", control(fyne.KeyO)},
		"Save ": {"Ctrl+S", control(fyne.KeyS)}, "Save as": {"Ctrl+Shift+S", controlShift(fyne.KeyS)},
		"Quit": {"Ctrl+Q", control(fyne.KeyQ)}, "Undo": {"Ctrl+Z", &fyne.ShortcutUndo{}}, "Redo": {"Ctrl+Y", &fyne.ShortcutRedo{}},
		"Select all": {"Ctrl+A", &fyne.ShortcutSelectAll{}}, "Fit": {"Ctrl+0", control(fyne.Key0)},
		"Snap": {"Ctrl+K", control(fyne.KeyK)}, "Grid": {"Ctrl+G", control(fyne.KeyG)},
		"Next": {"Ctrl+J", control(fyne.KeyJ)}, "Working": {"Ctrl+6", control(fyne.Key6)},
		"Delete": {"Del", nil}, "Lamp": {"L", nil}, "Keys": {"F1, ?", nil},
	}
	seen := map[string]bool{}
	for _, m := range r.w.Fyne().MainMenu().Items {
		for _, i := range m.Items {
			if i.Shortcut != nil {
				if seen[i.Shortcut.ShortcutName()] {
					t.Errorf("two entries have %s", i.Shortcut.ShortcutName())
				}
				seen[i.Shortcut.ShortcutName()] = true
			}
			for name, x := range want {
				if !strings.HasPrefix(i.Label, name) || !strings.HasSuffix(i.Label, "  "+x.keys) {
					continue
				}
				if x.shortcut == nil && i.Shortcut == nil || x.shortcut != nil && i.Shortcut.ShortcutName() == x.shortcut.ShortcutName() {
					delete(want, name)
				}
			}
		}
	}
	if len(want) > 0 {
		t.Errorf("without their keys: %v", want)
	}
}

func TestDeleteAndSelectAll(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.w.plan.Select(r.idOf("L2"))
	r.menu("Delete")
	if doc.WithTag(r.desk.Frame().Scheme, "L2") != nil {
		t.Error("L2 is still there")
	}
	r.menu("Select all")
	if n := len(r.w.plan.Selection()); n < 20 {
		t.Errorf("selected %d things", n)
	}
}

func TestEveryTabIsReachedFromTheMenu(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.w.plan.Select(r.idOf("L12"))
	r.menu("Working")
	if got := texts(r.w.workings.Object()); !strings.Contains(got, "Checks of L12") {
		t.Errorf("the working shows\n%s", got)
	}
	r.menu("Lengths")
	if r.w.tabs.SelectedIndex() != 2 {
		t.Error("Lengths is not shown")
	}
	r.menu("Properties")
	if r.w.tabs.SelectedIndex() != 0 {
		t.Error("Properties is not shown")
	}
}

func TestDarkChangesWindowAndPaper(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.menu("Dark")
	if th, ok := r.w.cfg.App.Settings().Theme().(*Theme); !ok || !th.Dark() || !r.w.menus.dark.Checked {
		t.Error("the window is not dark")
	}
	r.menu("Dark")
	if r.w.theme.Dark() {
		t.Error("the window stayed dark")
	}
}

func TestTheWindowFitsASmallScreen(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	// A screen of 1920 by 1080 at twice the size.
	if min := r.w.Fyne().Content().MinSize(); min.Width > 960 || min.Height > 500 {
		t.Errorf("the window needs %v, expected at most 960 by 500", min)
	}
}
