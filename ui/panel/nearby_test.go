package panel

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// TestTotalsKeepWhatMatters: the narrower the bar, the less it says; worst drop and
// loop go last, and nothing is cut off while they fit.
func TestTotalsKeepWhatMatters(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	s := NewStatus(d.Frame())
	w := test.NewTempWindow(t, s.Object())
	f := d.Frame().Totals
	last := 1 << 30
	for _, width := range []float32{1280, 900, 800, 700, 640, 500} {
		s.SetNarrow(width < 860)
		w.Resize(fyne.NewSize(width, 40))
		got := s.totals.Text
		if !strings.Contains(got, q.Percent(f.WorstDrop)) || !strings.Contains(got, f.WorstLoop.String()) {
			t.Errorf("%g wide: %q without drop or loop", width, got)
		}
		if need := fyne.MeasureText(got, 14, fyne.TextStyle{}).Width; width >= 640 && need > s.totals.Size().Width {
			t.Errorf("%g wide: %q needs %g of %g", width, got, need, s.totals.Size().Width)
		}
		if len(got) > last {
			t.Errorf("%g wide: %q says more than with more room", width, got)
		}
		last = len(got)
	}
	w.Resize(fyne.NewSize(1280, 40))
	s.SetNarrow(false)
	w.Resize(fyne.NewSize(1281, 40))
	if s.totals.Text != s.full || !strings.Contains(texts(s.Object()), "1 Decide") {
		t.Errorf("wide again: %q", s.totals.Text)
	}
}

// TestMendedFindingLeavesTheListNear: when what is open is mended, the finding that
// takes its place stands where it stood and has the keyboard; it is not left to
// whatever the list was scrolled to.
func TestMendedFindingLeavesTheListNear(t *testing.T) {
	for _, held := range []bool{false, true} {
		mendOne(t, held)
	}
}

// mendOne mends a finding whose buttons are in view and whose head is not.
func mendOne(t *testing.T, held bool) {
	d := newDesk(t, "townhouse-mistakes.yaml")
	p := findings(t, d)
	all := d.Frame().Findings
	const at = 6
	p.pick(all[at])
	r := p.rows[at]
	if held {
		focusOn(r)
	}
	p.scroll.ScrollToOffset(fyne.NewPos(0, p.top(r)+40))
	next := all[at+1]
	f := *d.Frame()
	f.Findings = append(append(all[:0:0], all[:at]...), all[at+1:]...)
	p.SetFrame(&f)
	row := p.rows[at]
	if keyOf(&row.now) != keyOf(&next) {
		t.Fatalf("%s took its place, expected %s", row.now.Code, next.Code)
	}
	if y := p.top(row) - p.scroll.Offset.Y; y < 0 || y > p.scroll.Size().Height/2 {
		t.Errorf("%s stands %g below the edge of the list", row.now.Code, y)
	}
	if row.focused != held {
		t.Errorf("the row has the keyboard: %v, expected %v", row.focused, held)
	}
	// The arrows go on from there.
	row.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	if !p.rows[at+1].focused {
		t.Error("Down does not go to the row below")
	}
	p.rows[at+1].TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	if !row.focused {
		t.Error("Up does not come back")
	}
}

// TestFirstFindingIsOneInView: the keyboard comes to what is seen, not to what the
// list was scrolled away from.
func TestFirstFindingIsOneInView(t *testing.T) {
	d := newDesk(t, "townhouse-mistakes.yaml")
	p := findings(t, d)
	p.scroll.ScrollToOffset(fyne.NewPos(0, p.top(p.rows[4])))
	if got := p.First(); got != fyne.Focusable(p.rows[4]) {
		t.Errorf("the keyboard comes to %v, expected the fifth row", got.(*findingRow).now.Code)
	}
}

// TestArrowsStayNear: in a list that was scrolled by the wheel the first arrow goes
// to a row that is seen.
func TestArrowsStayNear(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p := NewLengths(d)
	w := test.NewTempWindow(t, p.Object())
	w.Resize(fyne.NewSize(300, 260))
	w.Canvas().Focus(p.list)
	key := func(name fyne.KeyName) { p.list.TypedKey(&fyne.KeyEvent{Name: name}) }
	pitch := p.rowHeight() + 4
	p.list.ScrollToOffset(10 * pitch)
	key(fyne.KeyDown)
	if p.list.near.at != 10 {
		t.Errorf("Down comes to row %d, expected 10, the first that is seen", p.list.near.at)
	}
	key(fyne.KeyDown)
	if p.list.near.at != 11 {
		t.Errorf("the next Down comes to row %d, expected 11", p.list.near.at)
	}
	p.list.ScrollToOffset(0)
	key(fyne.KeyUp)
	if at := p.list.near.at; at < 1 || at > 4 {
		t.Errorf("Up comes to row %d, expected the last that is seen", at)
	}
	var picked doc.ID
	p.OnPick = func(id doc.ID) { picked = id }
	at := p.list.near.at
	key(fyne.KeyReturn)
	if picked != p.shown[at].Run {
		t.Error("Return picks another row than the one with the keyboard")
	}
}

// TestTipSaysWhereTheRestStands: what a tip has no room for stands where it says, and
// where it is nowhere else the tip says how much that is.
func TestTipSaysWhereTheRestStands(t *testing.T) {
	long := strings.Repeat("line\n", 20)
	if got := shortened(long, "under Working of L3"); !strings.HasSuffix(got, "… the rest stands under Working of L3") {
		t.Errorf("%q", got)
	}
	if got := shortened(long, ""); !strings.HasSuffix(got, "… and 7 lines more") || strings.Count(got, "\n")+1 != tipLines {
		t.Errorf("%q", got)
	}
}
