package ui

import (
	"math"
	"testing"

	"fyne.io/fyne/v2"

	"duskwire/layout/journal"
	"duskwire/layout/tool"
)

// A window starts with 1280 by 800 pixels at most, whatever the scale, and takes
// up the size it had in pixels.
func TestStartSize(t *testing.T) {
	for _, c := range []struct {
		scale float32
		m     journal.Memory
		want  fyne.Size // in pixels
	}{
		{1, journal.Memory{}, fyne.NewSize(1280, 800)},
		{1.25, journal.Memory{}, fyne.NewSize(1280, 800)},
		{2, journal.Memory{}, fyne.NewSize(1280, 800)},
		{0.8, journal.Memory{}, fyne.NewSize(1024, 640)}, // never more units than usual
		{1, journal.Memory{Width: 1500, Height: 900}, fyne.NewSize(1500, 900)},
		{2, journal.Memory{Width: 1500, Height: 900}, fyne.NewSize(1500, 900)},
		{1, journal.Memory{Width: 640, Height: 400, Scale: 2}, fyne.NewSize(1280, 800)},
		{4, journal.Memory{}, fyne.NewSize(4*leastWidth, 4*leastHeight)},
	} {
		got := startSize(c.scale, &c.m)
		if w, h := got.Width*c.scale, got.Height*c.scale; math.Abs(float64(w-c.want.Width)) > 0.5 || math.Abs(float64(h-c.want.Height)) > 0.5 {
			t.Errorf("scale %g, %+v: %g by %g pixels, expected %v", c.scale, c.m, w, h, c.want)
		}
	}
}

// At 200 % a screen of 1280 by 800 has 640 by 400 units: everything lies in the
// window, the tray shows drawings alone; narrower the panel folds by itself.
func TestWindowFolds(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	w := r.w
	if !w.rightBox.Visible() || w.tray.lean.bare() {
		t.Fatal("folded in a large window")
	}
	if got := w.Fyne().Content().MinSize(); got.Width > 640 || got.Height > 400 {
		t.Errorf("the window asks for %v", got)
	}
	w.Fyne().Resize(fyne.NewSize(640, 400))
	d := w.cfg.App.Driver()
	for name, o := range map[string]fyne.CanvasObject{
		"tray": w.tray.box, "plan": w.plan, "findings": w.findings.Object(), "tabs": w.tabs, "status": w.status.Object(), "help": w.status.Help(),
	} {
		at := d.AbsolutePositionForObject(o)
		if at.X < 0 || at.Y < 0 || at.X+o.Size().Width > 640.5 || at.Y+o.Size().Height > 400.5 {
			t.Errorf("%s lies at %v with %v in 640 by 400", name, at, o.Size())
		}
	}
	if right := w.rightBox.Size().Width; right < rightLeast-0.5 {
		t.Errorf("the panel has %g units, expected %d", right, rightLeast)
	}
	if !w.tray.lean.bare() || !w.rightBox.Visible() {
		t.Error("names in a narrow tray, or no panel")
	}
	if high := w.findings.Object().Size().Height; high < 125 {
		t.Errorf("the findings have %.0f units: a tab that is not shown takes the rest", high)
	}
	w.showTab(3) // the readings need more
	if list := w.tabs.Selected().Content; list.Size().Height < list.MinSize().Height {
		t.Errorf("the readings have %.0f of %.0f", list.Size().Height, list.MinSize().Height)
	}
	w.showTab(0)
	if high := w.findings.Object().Size().Height; high < 125 {
		t.Errorf("after the readings the findings have %.0f", high)
	}
	w.take(tool.NameLamp)
	if got := w.tray.lean.open1.Text; got != "Choices" {
		t.Errorf("with a lamp in hand the bare tray offers %q, not what it can be set to", got)
	}
	w.take(tool.NameSelect)
	if got := w.tray.lean.open1.Text; got != "Names" {
		t.Errorf("with Select the bare tray offers %q", got)
	}
	w.tray.setOpen(true)
	if w.tray.lean.bare() || w.rightBox.Visible() {
		t.Error("the panel does not make room for the names")
	}
	w.showTab(1)
	if !w.rightBox.Visible() || w.tabs.SelectedIndex() != 1 {
		t.Error("asking for a tab does not bring the panel back")
	}
	w.Fyne().Resize(fyne.NewSize(1280, 800))
	if w.tray.lean.narrow || !w.rightBox.Visible() {
		t.Error("a large window does not unfold")
	}
}

// Ctrl+B folds the panel and brings it back; the keyboard does not stay behind.
func TestFoldByHand(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	w := r.w
	w.Fyne().Canvas().Focus(w.tabBar)
	w.toggleFold()
	if w.rightBox.Visible() || !w.menus.fold.Checked || w.Fyne().Canvas().Focused() != fyne.Focusable(w.plan) {
		t.Error("not folded, not ticked, or the keyboard stays in the panel")
	}
	w.toggleFold()
	if !w.rightBox.Visible() || w.menus.fold.Checked {
		t.Error("not brought back")
	}
}

// Keys move the divider, each press as far as the one before.
func TestDividerByKeyboard(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	w := r.w
	was := w.rightBox.Size().Width
	r.entryOf("Move its edge left").Action()
	wider := w.rightBox.Size().Width
	if wider < was+20 {
		t.Errorf("the panel has %g units after %g", wider, was)
	}
	for range 40 {
		r.entryOf("Move its edge right").Action()
	}
	if got := w.rightBox.Size().Width; math.Abs(float64(got-rightLeast)) > 12 {
		t.Errorf("the panel has %g units at least, expected %d", got, rightLeast)
	}
	r.entryOf("Move its edge left").Action()
	if got := w.rightBox.Size().Width; got < rightLeast+20 {
		t.Errorf("one press after many brings %g units", got)
	}
	if w.memory.Panel != w.middle.Offset {
		t.Errorf("remembered %g, expected %g", w.memory.Panel, w.middle.Offset)
	}
}

// The strip of first steps comes with a new scheme, goes when it is closed and
// then stays away, until it is asked for.
func TestStepsComeWithANewScheme(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	shown := func() bool { return r.w.steps.box.Visible() }
	fresh := func() {
		r.menu("New")
		r.answer("Start drawing")
	}
	if shown() {
		t.Error("the strip stands over the example")
	}
	fresh()
	if !shown() || !r.w.blank.box.Visible() {
		t.Fatal("a new scheme has no first steps, or an empty plan says nothing")
	}
	r.w.plan.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	r.w.plan.KeyDown(&fyne.KeyEvent{Name: fyne.KeySpace})
	r.w.plan.KeyUp(&fyne.KeyEvent{Name: fyne.KeySpace})
	if r.desk.Frame().Scheme.Supplies.Len() != 1 || !r.w.steps.marks[0].Visible() || r.w.steps.marks[1].Visible() || r.w.blank.box.Visible() {
		t.Errorf("%d supply points, ticked %v, words over the plan %v", r.desk.Frame().Scheme.Supplies.Len(), r.w.steps.marks[0].Visible(), r.w.blank.box.Visible())
	}
	r.menu("Undo")
	if r.w.steps.marks[0].Visible() {
		t.Error("undo leaves the tick")
	}
	r.w.closeSteps()
	fresh()
	if shown() {
		t.Error("closed, the strip comes back by itself")
	}
	r.menu("First steps")
	if !shown() {
		t.Error("the Help menu does not bring it back")
	}
}

// The switch of the views keeps to its room: with little of it the views that are
// not shown lose their names, never the one that is; with room all have theirs.
func TestViewSwitchFits(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	v := &r.w.views
	check := func(when string, named int) {
		t.Helper()
		n := 0
		for i, b := range v.buttons {
			if right := b.Position().X + b.Size().Width; right > v.row.Size().Width {
				t.Errorf("%s: %s ends at %.0f of %.0f", when, v.all[i].name, right, v.row.Size().Width)
			}
			if b.Size().Width < b.MinSize().Width {
				t.Errorf("%s: %s is cut off", when, v.all[i].name)
			}
			if !b.name.Hidden {
				n++
			}
		}
		if n != named || v.buttons[v.now].name.Hidden {
			t.Errorf("%s: %d names are shown, expected %d", when, n, named)
		}
	}
	r.w.Fyne().Resize(fyne.NewSize(1280, 800))
	check("large", len(v.all))
	r.w.Fyne().Resize(fyne.NewSize(640, 400))
	check("at 200 %", 1)
	r.w.showView(1)
	check("at 200 % with another view", 1)
	r.w.Fyne().Resize(fyne.NewSize(1280, 800))
	check("large again", len(v.all))
}
