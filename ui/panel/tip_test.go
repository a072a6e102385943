package panel

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"duskwire/calc/finding"
	"duskwire/layout/doc"
)

// tipRig is a window with tips whose time the test gives.
type tipRig struct {
	tips *Tips
	due  []func()
	win  fyne.Window
}

func newTipRig(t *testing.T, content func(*Tips) fyne.CanvasObject) *tipRig {
	t.Helper()
	r := &tipRig{}
	r.tips = NewTips(func(d time.Duration, f func()) {
		if d != TipDelay {
			t.Errorf("a tip is due after %v", d)
		}
		r.due = append(r.due, f)
	})
	r.win = test.NewTempWindow(t, container.NewStack(content(r.tips), r.tips.Layer()))
	r.win.Resize(fyne.NewSize(400, 300))
	return r
}

// pass lets the time of every tip that is due pass.
func (r *tipRig) pass() {
	for _, f := range r.due {
		f()
	}
	r.due = nil
}

func TestTipComesLateAndTakesNoFocus(t *testing.T) {
	test.NewTempApp(t)
	asked := 0
	var a, b *Hinted
	entry := widget.NewEntry()
	r := newTipRig(t, func(tips *Tips) fyne.CanvasObject {
		of := func(head string) func() Tip {
			return func() Tip { asked++; return Tip{Head: head, Working: "1 + 1 = 2", Source: "x"} }
		}
		give := func() *Tips { return tips }
		a, b = NewHinted(widget.NewLabel("2"), give, of("a")), NewHinted(widget.NewLabel("3"), give, of("b"))
		return container.NewVBox(entry, a, b)
	})
	r.win.Canvas().Focus(entry)
	a.MouseIn(&desktop.MouseEvent{})
	if r.tips.Shown().Head != "" || asked != 0 {
		t.Error("a tip is shown, or worked out, at once")
	}
	a.MouseOut()
	b.MouseIn(&desktop.MouseEvent{})
	r.pass()
	if got := r.tips.Shown(); got.Head != "b" || asked != 1 {
		t.Errorf("shown %+v after %d questions, expected b after one", got, asked)
	}
	if r.win.Canvas().Focused() != fyne.Focusable(entry) {
		t.Error("the tip took the focus")
	}
	if top := r.win.Canvas().Overlays().Top(); top != nil {
		t.Error("the tip lies over the window, where it takes clicks")
	}
	got := texts(r.tips.Layer())
	for _, want := range []string{"b", "1 + 1 = 2", "x"} {
		if !strings.Contains(got, want) {
			t.Errorf("the tip says\n%s\nwithout %q", got, want)
		}
	}
	if !r.tips.Hide() || r.tips.Shown().Head != "" || r.tips.Hide() {
		t.Error("Escape does not hide the tip, or claims to hide nothing")
	}
}

func TestTipFollowsTheKeyboard(t *testing.T) {
	test.NewTempApp(t)
	var with, without *Hinted
	r := newTipRig(t, func(tips *Tips) fyne.CanvasObject {
		give := func() *Tips { return tips }
		without = NewHinted(widget.NewLabel("plain"), give, nil)
		with = NewHinted(widget.NewLabel("2"), give, func() Tip { return Tip{Head: "why"} })
		return container.NewVBox(without, with)
	})
	r.win.Canvas().FocusNext()
	if r.win.Canvas().Focused() != fyne.Focusable(with) {
		t.Fatalf("Tab came to %v, expected the figure with a tip", r.win.Canvas().Focused())
	}
	r.pass()
	if r.tips.Shown().Head != "why" {
		t.Error("no tip for the keyboard")
	}
	r.win.Canvas().Unfocus()
	if r.tips.Shown().Head != "" {
		t.Error("the tip stays when the keyboard leaves")
	}
}

// The tip stays in the window, wherever its object is.
func TestTipStaysInTheWindow(t *testing.T) {
	test.NewTempApp(t)
	var low *Hinted
	r := newTipRig(t, func(tips *Tips) fyne.CanvasObject {
		low = NewHinted(widget.NewLabel("2"), func() *Tips { return tips }, func() Tip {
			return Tip{Head: "head", Working: strings.Repeat("a long line of the working with many figures in it 1 2 3 4 5\n", 30)}
		})
		return container.NewBorder(nil, container.NewBorder(nil, nil, nil, low), nil, nil)
	})
	r.tips.Over(low, low.Of)
	r.pass()
	at, size := r.tips.box.Position(), r.tips.box.Size()
	if at.X < 0 || at.Y < 0 || at.X+size.Width > 400 {
		t.Errorf("the tip lies at %v with %v in 400 by 300", at, size)
	}
	if n := strings.Count(r.tips.working.Text, "\n") + 1; n != tipLines {
		t.Errorf("%d lines of working, expected %d", n, tipLines)
	}
}

// Figures of a lamp, of a run and of the cut list name their formula, and the
// working is that of the figure shown.
func TestFiguresShowTheirWorking(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	for _, c := range []struct{ tag, caption, head, working string }{
		{"L1", "Voltage", "VD-01", "voltage there 230 - 1.27 = 228.73 V"},
		{"L12", "Volt drop", "VD-02", "= 4.26 %"},
		{"L1", "Fault loop", "FLT-01", "Zs = 0.778 Ω at L1"},
		{"L1", "Meter, cold", "tester", "Zs cold = loop at the supply point + R1+R2"},
		{"L12", "Current", "Current through this point", "beyond it"},
		{"R2", "Capacity", "CAP-02", "Iz = 21 A"},
		{"R2", "Cut", "R2", "needed = (plan + rises + tails + slack) × (1 + waste)"},
	} {
		p, _ := properties(t, d, c.tag)
		p.SetTips(NewTips(nil))
		found := false
		for _, r := range p.now.rows {
			figures := []row{r}
			if fold, ok := r.(*foldRow); ok {
				fold.set(true)
				continue // its rows stand in the form as well
			}
			for _, r := range figures {
				x, ok := r.(*readRow)
				if !ok || captionOf(x.box) != c.caption || found || !x.box.Visible() || x.hint.Of == nil {
					continue
				}
				found = true
				x.hint.FocusGained()
				got := p.on.tips.Shown()
				if !strings.Contains(got.Head, c.head) || !strings.Contains(got.Working, c.working) || got.Source == "" {
					t.Errorf("%s, %s: %+v\nexpected %q and %q with a source", c.tag, c.caption, got, c.head, c.working)
				}
			}
		}
		if !found {
			t.Errorf("%s has no figure %q with a tip", c.tag, c.caption)
		}
	}
}

// A closed row of a finding shows its working, an open one has it below.
func TestFindingTip(t *testing.T) {
	d := newDesk(t, "townhouse-mistakes.yaml")
	p := findings(t, d)
	p.Tips = NewTips(nil)
	r := p.rows[0]
	r.FocusGained()
	if got := p.Tips.Shown(); !strings.HasPrefix(got.Head, string(r.now.Code)) || got.Working == "" {
		t.Errorf("tip %+v of %s", got, r.now.Code)
	}
	r.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if got := p.Tips.Shown(); !got.Empty() {
		t.Errorf("the tip %q stays over the opened finding", got.Head)
	}
	r.FocusGained()
	if got := p.Tips.Shown(); !got.Empty() {
		t.Errorf("an open finding has the tip %q", got.Head)
	}
}

// The bottom line says in its tip how it came about.
func TestTotalsTip(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	s := NewStatus(d.Frame())
	s.Tips, s.Explain = NewTips(nil), func(id doc.ID) []finding.Finding { return d.Explain(id) }
	test.NewTempWindow(t, s.Object())
	s.sums.FocusGained()
	got := s.Tips.Shown()
	for _, want := range []string{"cut lengths of 20 runs", "drop = Σ mΩ/m × A × m", "4.26 %"} {
		if !strings.Contains(got.Head+got.Working, want) {
			t.Errorf("the tip says %+v\nwithout %q", got, want)
		}
	}
}

// A tip does not stay beside a list whose rows have gone from under the pointer.
func TestTipGoesWhenTheListScrolls(t *testing.T) {
	d := newDesk(t, "townhouse-mistakes.yaml")
	p := NewFindings(d)
	r := newTipRig(t, func(tips *Tips) fyne.CanvasObject { p.Tips = tips; return p.Object() })
	p.rows[0].MouseIn(&desktop.MouseEvent{})
	r.pass()
	if r.tips.Shown().Empty() {
		t.Fatal("no tip over the first finding")
	}
	p.scroll.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, -60)})
	if !r.tips.Shown().Empty() {
		t.Error("the tip stays")
	}
}
