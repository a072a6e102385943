package panel

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"duskwire/calc/finding"
)

// TestFindingsOutOfSightAreWrittenLater: what can be seen is written at once, and so
// is what is open, the rest in later turns; a frame in between starts over.
func TestFindingsOutOfSightAreWrittenLater(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p := findings(t, d)
	var turns []func()
	p.Later = func(f func()) { turns = append(turns, f) }
	list := func(text string) (fs []finding.Finding) {
		for i := range pageOfFindings {
			fs = append(fs, finding.Finding{Code: "VD-01", Level: finding.Stop, Text: text,
				Subject: finding.Subject{ID: fmt.Sprint(i), Label: fmt.Sprint("L", i)}})
		}
		return fs
	}
	says := func(text string) (n int) {
		for _, r := range p.rows {
			if r.Visible() && strings.Contains(r.text.Text, text) {
				n++
			}
		}
		return n
	}
	all := func() {
		for len(turns) > 0 {
			f := turns[0]
			turns = slices.Delete(turns, 0, 1)
			f()
		}
	}
	p.SetFrame(frameWith(d, list("First")...))
	all()
	if n := says("First"); n != pageOfFindings {
		t.Fatalf("%d rows are written", n)
	}
	p.SetFrame(frameWith(d, list("Second")...))
	if n := says("Second"); n < rowsATurn || n == pageOfFindings || !strings.Contains(p.rows[0].text.Text, "Second") {
		t.Errorf("%d rows are written at once", n)
	}
	if p.SetFrame(frameWith(d, list("Third")...)); len(turns) != 1 {
		t.Errorf("%d turns are waited for", len(turns))
	}
	if all(); says("Third") != pageOfFindings {
		t.Errorf("%d rows are written in the end", says("Third"))
	}
	last := list("Fourth")
	p.open = keyOf(&last[pageOfFindings-1])
	p.SetFrame(frameWith(d, last...))
	if r := p.rows[pageOfFindings-1]; !r.open || !strings.Contains(r.text.Text, "Fourth") {
		t.Error("the open finding was not written at once")
	}
}

// TestFindingsAreDrawnAnew: only what has changed is written, and the panel looks as
// one does that never showed anything else.
func TestFindingsAreDrawnAnew(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	one := func(i int, text string) finding.Finding {
		return finding.Finding{Code: "VD-01", Level: finding.Stop, Text: text, Subject: finding.Subject{ID: fmt.Sprint(i), Label: fmt.Sprint("L", i)}}
	}
	long := "the run drops 12.5 V of 230 V, which is more than the rule set allows for lighting at its far end, 31.25 m from the supply point"
	note := one(1, "a note")
	note.Level = finding.Note
	decided := one(2, "the loop is high")
	decided.Overruled = &finding.Overrule{By: "the designer", On: "2026-11-25", Reason: "measured"}
	lists := [][]finding.Finding{
		{one(1, "short"), one(2, "short")}, {one(1, long), one(2, "short")}, {one(1, "other"), decided}, {one(1, "other"), one(2, "the loop is high")},
		nil, {one(3, long), note, one(5, "x"), one(6, long), one(7, long)}, {note}, {one(1, "short")},
	}
	for k := range 12 { // numbers and units come to the ends of lines
		lists = append(lists, []finding.Finding{one(1, strings.Repeat("i", 2*k)+" "+long)})
	}
	p := NewFindings(d)
	w := test.NewTempWindow(t, p.Object())
	w.Resize(fyne.NewSize(330, 300))
	for i, list := range lists {
		behind := frameWith(d, list...)
		behind.Behind = i%3 == 1 // the heading says more
		p.SetFrame(behind)
		got := w.Canvas().Capture()
		fresh := NewFindings(d)
		other := test.NewTempWindow(t, fresh.Object())
		other.Resize(fyne.NewSize(330, 300))
		fresh.SetFrame(behind)
		fresh.Object().Refresh()
		if want := other.Canvas().Capture(); !reflect.DeepEqual(got, want) {
			t.Errorf("list %d is drawn otherwise than by a panel that never showed another", i)
		}
	}
}
