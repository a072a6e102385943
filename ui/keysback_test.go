package ui

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"duskwire/layout/edit"
	"duskwire/layout/tool"
	"duskwire/ui/panel"
)

// A list keeps the keyboard after something was chosen in it; the keys of the tools
// reach the plan all the same.
func TestToolKeysFromAList(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.w.plan.TypedRune('a')
	pick, ok := find(r.w.tray.below, func(*panel.Pick) bool { return true })
	if !ok {
		t.Fatal("no kinds to choose from")
	}
	c := r.w.Fyne().Canvas()
	c.Focus(pick)
	pick.TypedRune('o')
	if !r.w.defaults.Ground.Round {
		t.Error("O at the list of kinds does not make the area round")
	}
	c.Focus(pick)
	pick.TypedRune('l')
	if got := r.w.plan.Tool().Name(); got != tool.NameLamp {
		t.Errorf("L at a list leaves %s in hand", got)
	}
	if c.Focused() == fyne.Focusable(pick) {
		t.Error("the list keeps the keyboard from the tool")
	}
	r.w.newScheme()
	pick.TypedRune('b')
	if got := r.w.plan.Tool().Name(); got != tool.NameLamp {
		t.Errorf("a letter goes past an open question: %s in hand", got)
	}
}

// What the sheet of a new scheme refused is no longer told once it is mended.
func TestNewSchemeForgetsWhatWasWrong(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.menu("New")
	e, _ := find(r.top().pop.Content, func(e *sheetEntry) bool { return strings.HasPrefix(e.PlaceHolder, "not measured") })
	e.SetText("abc")
	r.answer("Start drawing")
	told, ok := find(r.top().pop.Content, func(l *widget.Label) bool { return strings.Contains(l.Text, "expected a resistance") })
	if !ok || !told.Visible() {
		t.Fatal("“abc” was taken for a loop")
	}
	e.SetText("0.8")
	if told.Visible() {
		t.Error("what was wrong is still told")
	}
}

// The findings of a scheme that was just opened are seen from the worst on, folded as
// at the start, wherever the list of the one before stood.
func TestFindingsOfAnotherSchemeBeginAtTheTop(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	begun := r.w.findings.Shown()
	for range 6 { // the last of the six is a note far down
		r.menu("Next finding")
	}
	list, ok := find(r.w.findings.Object(), func(s *container.Scroll) bool { return s.Direction == container.ScrollVerticalOnly })
	if !ok || list.Offset.Y == 0 || len(r.w.findings.Shown()) == len(begun) {
		t.Fatal("the list is not scrolled to an open note: nothing is tried")
	}
	r.w.put(r.desk.Frame().Scheme, "")
	if list.Offset.Y != 0 {
		t.Errorf("the list stands at %v", list.Offset)
	}
	if got := r.w.findings.Shown(); !slices.Equal(got, begun) {
		t.Errorf("listed are %q, at the start %q", got, begun)
	}
}

// Without a name the first field of a decision has the keyboard, and what is missing
// gets it.
func TestDecisionBeginsAtWhatIsMissing(t *testing.T) {
	r := newRig(t, "townhouse-mistakes.yaml")
	if err := r.desk.Commit(edit.SetTitle{Title: "Garden"}); err != nil {
		t.Fatal(err)
	}
	field := func(words string) *sheetEntry {
		e, _ := find(r.top().pop.Content, func(e *sheetEntry) bool { return strings.HasPrefix(e.PlaceHolder, words) })
		return e
	}
	has := func(e *sheetEntry) bool { return r.w.Fyne().Canvas().Focused() == fyne.Focusable(e) }
	r.w.overrule(r.desk.Frame().Findings[0])
	if !has(field("name")) {
		t.Error("the name is missing and has not got the keyboard")
	}
	field("name").SetText("A. N. Other")
	r.answer("Record decision")
	if !has(field("why")) {
		t.Error("the reason is missing and has not got the keyboard")
	}
}

// A tick stands nearer to the name of its step than to the one before.
func TestTickStandsAtItsStep(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.menu("New")
	r.answer("Start drawing")
	r.w.plan.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	r.w.plan.KeyDown(&fyne.KeyEvent{Name: fyne.KeySpace})
	r.w.plan.KeyUp(&fyne.KeyEvent{Name: fyne.KeySpace})
	s := r.w.steps
	if !s.marks[0].Visible() {
		t.Fatal("no tick")
	}
	edge := func(i int) float32 { return s.marks[i].Position().X + s.marks[i].Size().Width }
	gap := s.names[0].Position().X - edge(0)
	if gap > 0 {
		t.Errorf("%.0f between the tick and the edge of its name", gap)
	}
	if next := s.row.Objects[1].Position().X; next < s.row.Objects[0].Size().Width {
		t.Errorf("the second step begins at %.0f, inside the first of %.0f", next, s.row.Objects[0].Size().Width)
	}
}
