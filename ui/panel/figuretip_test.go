package panel

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

// TestFiguresOfDrawings: a figure of a drawing says what the panels say of it; words
// that are no figure say nothing, and so does everything during a gesture.
func TestFiguresOfDrawings(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	tips := NewFigureTips(d)
	id := func(tag string) doc.ID { return doc.WithTag(d.Frame().Scheme, tag).Key() }
	for _, c := range []struct {
		what          string
		of            DrawnFigure
		head, working string // "" for no tip
	}{
		{"volts along a run", DrawnFigure{ID: id("R8"), Part: "228.6 V", Whole: "228.6 V", Look: scene.LookVolts}, "VD-01", "drop in this run"},
		{"its name before them", DrawnFigure{ID: id("R8"), Part: "R8", Whole: "R8 · 228.62 → 228.60 V", Look: scene.LookVolts}, "VD-01", "drop in this run"},
		{"the line itself", DrawnFigure{ID: id("R8"), Look: scene.LookVolts}, "VD-01", "drop in this run"},
		{"amperes along a run", DrawnFigure{ID: id("R3"), Part: "0.368 A", Whole: "R3 · 0.368 A", Look: scene.LookAmperes}, "CAP-02", "Ib = 0.368 A"},
		{"a lamp where volts are shown", DrawnFigure{ID: id("L1"), Part: "L1", Whole: "L1", Look: scene.LookVolts}, "VD-01", "voltage there"},
		{"a lamp where amperes are shown", DrawnFigure{ID: id("L12"), Part: "L12", Whole: "L12", Look: scene.LookAmperes}, "Current", "beyond it"},
		{"a lamp of the plain plan", DrawnFigure{ID: id("L1"), Part: "L1", Whole: "L1"}, "", ""},
		{"a length on the plan", DrawnFigure{ID: id("R9"), Part: "8.5 m", Whole: "R9 · 3 × 1.5 mm² · 8.5 m"}, "R9", "needed = (plan + rises"},
		{"a depth", DrawnFigure{ID: id("R9"), Part: "600 mm", Whole: "600 mm", Look: scene.LookDig}, "DIG-01", "depth 600 mm"},
		{"volts of the circuit view", DrawnFigure{ID: id("L1"), Part: "228.73 V", Whole: "L1 · 228.73 V · 0.052 A"}, "VD-01", "228.73 V"},
		{"the output of a source", DrawnFigure{ID: id("S1"), Part: "→ 12 V", Whole: "→ 12 V"}, "VD-02", "= 12 V"},
		{"its input", DrawnFigure{ID: id("S1"), Part: "228.49 V", Whole: "228.49 V"}, "", "228.49 V"},
		{"the current of a run in the circuit", DrawnFigure{ID: id("R3"), Part: "0.368 A", Whole: "5.5 m · 0.368 A"}, "CAP-02", "Ib = 0.368 A"},
		{"a leg on its side", DrawnFigure{ID: id("R9"), Part: "2 buried, 600 mm", Whole: "2 buried, 600 mm", Side: true, Run: id("R9")}, "DIG-01", "depth 600 mm"},
		{"amperes at an end of a side are of the run", DrawnFigure{ID: id("B2"), Part: "0.368 A", Whole: "0.368 A", Side: true, Run: id("R3")}, "CAP-02", "Ib = 0.368 A"},
		{"ground", DrawnFigure{ID: id("A6"), Part: "Lawn, dug 100 mm", Whole: "Lawn, dug 100 mm", Look: scene.LookDig}, "", ""},
	} {
		tip := tips.Of(c.of)
		if c.working == "" {
			if !tip.Empty() {
				t.Errorf("%s: %q, expected nothing", c.what, tip.Head)
			}
			continue
		}
		if !strings.Contains(tip.Head, c.head) || !strings.Contains(tip.Working, c.working) {
			t.Errorf("%s: %q\n%s\nexpected %q with %q", c.what, tip.Head, tip.Working, c.head, c.working)
		}
	}
	if err := d.Preview(edit.MovePoints{IDs: []doc.ID{id("L1")}, By: geom.Pt(0.1, 0)}); err != nil {
		t.Fatal(err)
	}
	if tip := tips.Of(DrawnFigure{ID: id("R8"), Look: scene.LookVolts}); !tip.Empty() {
		t.Errorf("during a gesture: %q", tip.Head)
	}
}

// TestTipsBehind: while the figures of a large edit are worked out, what explains one
// says so and not the working of the figure of before; words that are no figure stay
// silent.
func TestTipsBehind(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	late := &lateDesk{d, *d.Frame()}
	late.frame.Behind = true
	tips := NewFigureTips(late)
	run, lamp := doc.WithTag(late.frame.Scheme, "R8").Key(), doc.WithTag(late.frame.Scheme, "L1").Key()
	for _, of := range []DrawnFigure{{ID: run, Look: scene.LookVolts}, {ID: lamp, Part: "L1", Whole: "L1", Look: scene.LookVolts}} {
		if tip := tips.Of(of); tip.Head != "Being worked out" || strings.Contains(tip.Working, "drop") || tip.Source != "" {
			t.Errorf("%+v: %+v", of, tip)
		}
	}
	if tip := tips.Of(DrawnFigure{ID: lamp, Part: "L1", Whole: "L1"}); !tip.Empty() {
		t.Errorf("a name alone says %+v", tip)
	}
	p, _ := properties(t, d, "L1")
	p.SetTips(NewTips(nil))
	s := NewStatus(d.Frame())
	s.Tips = NewTips(nil)
	window := test.NewTempWindow(t, s.Object())
	looked := 0
	for _, behind := range []bool{true, false} {
		f := *d.Frame()
		f.Behind = behind
		p.SetFrame(&f)
		for _, r := range p.now.rows {
			if x, ok := r.(*readRow); ok && captionOf(x.box) == "Voltage" && x.hint.Of != nil && x.box.Visible() {
				looked++
				x.hint.FocusGained()
				if got := p.on.tips.Shown().Head == "Being worked out"; got != behind {
					t.Errorf("behind %v, the properties say %+v", behind, p.on.tips.Shown())
				}
			}
		}
		s.SetFrame(&f)
		for _, width := range []float32{1280, 640, 300} { // the word is not what is left out
			window.Resize(fyne.NewSize(width, 40))
			if got := strings.HasPrefix(s.totals.Text, "being worked out"); got != behind || got != strings.HasPrefix(s.Totals(), "being worked out") {
				t.Errorf("behind %v, %g wide: %q", behind, width, s.totals.Text)
			}
		}
		s.sums.FocusGained()
		if got := s.Tips.Shown().Head == "Being worked out"; got != behind {
			t.Errorf("behind %v, the totals say %+v", behind, s.Tips.Shown())
		}
	}
	if looked != 2 {
		t.Errorf("looked at %d figures of the properties, expected 2", looked)
	}
	f := *d.Frame()
	f.Behind, f.Preview = true, true // a gesture
	if s.SetFrame(&f); strings.Contains(s.Totals(), "worked out") {
		t.Errorf("during a gesture: %q", s.Totals())
	}
	f = *d.Frame()
	f.Totals.DropAt = ""
	if tip := totalsTip(&f, "", nil); tip.Rest != "" {
		t.Errorf("without a worst drop the rest stands %q", tip.Rest)
	}
}

// lateDesk shows a frame whose figures are of before.
type lateDesk struct {
	Desk
	frame layout.Frame
}

func (d *lateDesk) Frame() *layout.Frame { return &d.frame }
