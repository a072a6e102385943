package panel

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"duskwire/calc/judge"
	"duskwire/layout/doc"
)

// measuredPanel shows the readings of the town house, in a window that follows the
// desk.
func measuredPanel(t *testing.T) (*Measured, *counted, fyne.Window) {
	t.Helper()
	d := newDesk(t, "townhouse.yaml")
	p := NewMeasured(d, d)
	p.Today = func() string { return "2026-11-27" }
	d.Subscribe(p.SetFrame)
	w := test.NewTempWindow(t, p.Object())
	w.Resize(fyne.NewSize(330, 600))
	p.SetActive(true)
	w.Canvas().Focus(p.Field())
	return p, d, w
}

// types writes over what stands in the field and presses a key.
func types(p *Measured, text string, key fyne.KeyName) {
	p.Field().SetText("")
	for _, r := range text {
		p.Field().TypedRune(r)
	}
	p.Field().TypedKey(&fyne.KeyEvent{Name: key})
}

// Return, Tab and the arrows go down the column; each commits; what is no reading
// stays with its reason; nothing is not 0.
func TestMeasuredColumn(t *testing.T) {
	p, d, _ := measuredPanel(t)
	if p.test != judge.R1R2 || p.Rows() != 12 {
		t.Fatalf("shows %s with %d rows, want R1+R2 with 12", p.test, p.Rows())
	}
	var went []doc.ID
	p.OnPick = func(id doc.ID, fly bool) { went = append(went, id) }
	types(p, "0.03", fyne.KeyReturn)
	types(p, ">19.9", fyne.KeyTab)
	types(p, "0,58", fyne.KeyDown)
	types(p, "0", fyne.KeyReturn)
	v := d.Frame().Scheme.Visits
	if len(v) != 1 || v[0].On != "2026-11-27" || len(v[0].Readings) != 4 {
		t.Fatalf("visits %+v, want one of today with four readings", v)
	}
	if len(went) != 4 || went[0] != "B2" || p.at != 4 {
		t.Errorf("went to %v, stands at %d", went, p.at)
	}
	for i, want := range []string{"B1   0.03 Ω\npass", "B2   >19.9 Ω\noutside the limit", "B3   0.58 Ω\npass", "L1   0 Ω\nfar from expected"} {
		head, says := p.Row(i)
		if !strings.HasPrefix(head+"\n"+says, want) {
			t.Errorf("row %d: %q, %q; want %q", i, head, says, want)
		}
	}
	if head, says := p.Row(4); head != "L2" || says != "not measured" {
		t.Errorf("row of L2: %q, %q", head, says)
	}
	types(p, "much", fyne.KeyReturn)
	if p.at != 4 || p.Field().Reason() == "" || len(d.Frame().Scheme.Visits[0].Readings) != 4 {
		t.Errorf("“much” is at %d, reason %q", p.at, p.Field().Reason())
	}
	p.Field().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	p.Field().TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	types(p, "", fyne.KeyReturn)
	if n := len(d.Frame().Scheme.Visits[0].Readings); n != 3 {
		t.Errorf("%d readings after L1 was cleared, want 3", n)
	}
}

// The selection of the plan and the row go together, and not in a circle; the last
// row lets Tab out of the column.
func TestMeasuredFollowsPlan(t *testing.T) {
	p, _, w := measuredPanel(t)
	calls := 0
	p.OnPick = func(id doc.ID, _ bool) { calls++; p.SetSelection([]doc.ID{id}) }
	p.SetSelection([]doc.ID{"L5"})
	if p.rows[p.at].On != "L5" || calls != 0 {
		t.Errorf("stands at %s after L5 was selected, %d calls", p.rows[p.at].Label, calls)
	}
	p.list.Select(0)
	if p.rows[p.at].On != "B1" || calls != 1 {
		t.Errorf("stands at %s after B1 was clicked, %d calls", p.rows[p.at].Label, calls)
	}
	p.Show("L12")
	if p.test != judge.Volts || p.rows[p.at].On != "L12" {
		t.Errorf("shows %s of %s, want the volts of L12", p.test, p.rows[p.at].Label)
	}
	p.SetTest(judge.R1R2)
	p.SetSelection([]doc.ID{"S1"})
	w.Canvas().Focus(p.Field())
	p.Field().TypedKey(&fyne.KeyEvent{Name: fyne.KeyTab})
	if w.Canvas().Focused() == fyne.Focusable(p.Field()) {
		t.Error("Tab at the end of the column stays in it")
	}
}

// What is typed at the list of tests or at the rows goes into the field, over what
// stands there; the question mark does not.
func TestReadingTypedAtTheList(t *testing.T) {
	p, d, w := measuredPanel(t)
	types(p, "0.03", fyne.KeyReturn)
	p.goTo(0, false, false)
	for _, at := range []fyne.Focusable{p.pick, p.list} {
		w.Canvas().Focus(at)
		at.TypedRune('?')
		if w.Canvas().Focused() != at {
			t.Errorf("%T: the question mark was taken for a reading", at)
		}
		at.TypedRune('0')
		if w.Canvas().Focused() != fyne.Focusable(p.Field()) || p.Field().Text != "0" {
			t.Errorf("%T: 0 left %q in the field", at, p.Field().Text)
		}
	}
	for _, r := range ".07" {
		p.Field().TypedRune(r)
	}
	p.Field().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if head, _ := p.Row(0); head != "B1   0.07 Ω" || len(d.Frame().Scheme.Visits) != 1 {
		t.Errorf("the first row reads %q", head)
	}
}

// What cannot be seen is not filled.
func TestMeasuredAway(t *testing.T) {
	p, d, _ := measuredPanel(t)
	p.SetActive(false)
	was := p.tests
	d.Undo()
	if p.tests != was {
		t.Error("filled while it cannot be seen")
	}
}

// The words of the panel.
func TestMasterOfMeasured(t *testing.T) {
	p, _, _ := measuredPanel(t)
	types(p, "0.03", fyne.KeyReturn)
	types(p, "0.9", fyne.KeyReturn)
	master(t, "measured", dump(p.Object()))
	p.showDay(true)
	master(t, "measured-day", dump(p.Object()))
}

// The arrows in the list of readings begin at the row that is typed into: the first one
// down goes to the row below that, and Return there takes the keyboard to its field.
func TestReadingsListFirstDown(t *testing.T) {
	p, _, w := measuredPanel(t)
	c := w.Canvas()
	key := func(name fyne.KeyName) { c.Focused().TypedKey(&fyne.KeyEvent{Name: name}) }
	types(p, "", fyne.KeyDown)
	types(p, "", fyne.KeyDown)
	if p.at != 2 {
		t.Fatalf("row %d is typed into, expected 2", p.at)
	}
	at := -1
	p.list.OnHighlighted = func(i int) { at = i }
	c.Focus(p.list)
	if at != 2 {
		t.Errorf("the list begins at %d, expected the row that is typed into", at)
	}
	key(fyne.KeyReturn)
	if p.at != 2 || c.Focused() != fyne.Focusable(p.Field()) {
		t.Errorf("Return on the row of the field: at %d, the keyboard is at %T", p.at, c.Focused())
	}
	c.Focus(p.list)
	key(fyne.KeyDown)
	if at != 3 {
		t.Errorf("the first Down goes to %d, expected 3", at)
	}
	key(fyne.KeyReturn)
	if p.at != 3 || c.Focused() != fyne.Focusable(p.Field()) {
		t.Errorf("Return: at %d, the keyboard is at %T", p.at, c.Focused())
	}
}
