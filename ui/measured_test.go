package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// The mark of issue is one step; a second time it is asked for, and the old one
// stays unless the person says so.
func TestMarkIssued(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	for text, want := range map[string]string{
		openWords(0, 0): "No Stop or Decide finding is open.", openWords(1, 0): "Still open: 1 Stop finding.", openWords(2, 1): "Still open: 2 Stop and 1 Decide findings.",
	} {
		if text != want {
			t.Errorf("%q, want %q", text, want)
		}
	}
	r.w.markIssued()
	if r.w.desk.Frame().Scheme.Issue != nil {
		t.Error("issued before it was asked")
	}
	if got := texts(r.top().pop.Content); !strings.Contains(got, "Still open: 1 Decide finding.") { // EAR-01 of the example
		t.Errorf("the sheet says %q", got)
	}
	r.top().key(fyne.KeyReturn)
	if r.noSheet(); r.w.desk.Frame().Scheme.Issue != nil {
		t.Error("Return issues a design with something open")
	}
	r.w.markIssued()
	r.answer("Mark as issued")
	first := r.w.desk.Frame().Scheme.Issue
	if first == nil || first.On == "" || r.w.desk.Frame().Undo != "Mark as issued for site" {
		t.Fatalf("issue %+v, undo %q", first, r.w.desk.Frame().Undo)
	}
	if err := r.w.desk.Commit(edit.MovePoints{IDs: []doc.ID{r.idOf("L6")}, By: geom.Point{X: geom.Metre}}); err != nil {
		t.Fatal(err)
	}
	r.w.markIssued()
	r.wait() // for what is drawn otherwise
	r.answer("Keep the old mark")
	if r.w.desk.Frame().Scheme.Issue != first {
		t.Error("the old mark is gone")
	}
	r.w.markIssued()
	r.wait() // for what is drawn otherwise
	r.answer("Mark as issued")
	if is := r.w.desk.Frame().Scheme.Issue; is == first || is == nil {
		t.Error("the old mark stays")
	}
	r.w.markIssued()
	r.wait() // for what is drawn otherwise
	r.answer("Take the mark back")
	if r.w.desk.Frame().Scheme.Issue != nil {
		t.Error("the mark was not taken back")
	}
}

// Readings open at a thing with the keyboard in the field; a reading outside its
// limit is a finding, and a row selects on the plan.
func TestReadingsTab(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.w.showReadings(r.idOf("L6"))
	f := r.w.measured.Field()
	if r.w.Fyne().Canvas().Focused() != fyne.Focusable(f) {
		t.Fatal("the field has not got the keyboard")
	}
	for _, c := range "OL" {
		f.TypedRune(c)
	}
	f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	found := false
	for _, x := range r.w.desk.Frame().Findings {
		found = found || x.Code == "TST-01" && x.Subject.Label == "L6"
	}
	if !found || !strings.HasPrefix(r.w.findings.Shown()[0], "Stop  L6") {
		t.Errorf("findings %q, want TST-01 of L6 on top", r.w.findings.Shown())
	}
	if got := r.w.plan.Selection(); len(got) != 1 || got[0] != r.idOf("L7") {
		t.Errorf("selected %v after Return, want L7", got)
	}
	f.TypedRune('3')
	f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if c := r.w.Fyne().Canvas(); f.Text != "" || c.Focused() != fyne.Focusable(f) {
		t.Errorf("Escape leaves %q, the keyboard at %T", f.Text, c.Focused())
	}
	f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if c := r.w.Fyne().Canvas(); c.Focused() != fyne.Focusable(r.w.views.current().in) {
		t.Errorf("Escape gives the keyboard to %T, want the plan", c.Focused())
	}
}
