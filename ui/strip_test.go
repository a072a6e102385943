package ui

import (
	"testing"

	"fyne.io/fyne/v2"

	"duskwire/layout/geom"
	"duskwire/layout/scene"
	"duskwire/layout/tool"
)

// TestStripInWindow: the strip comes with a run and goes with it, F7 hides it,
// and while something is drawn it keeps out of the way.
func TestStripInWindow(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	strip := r.w.side.strip
	shown := func(want bool, when string) {
		t.Helper()
		if strip.Visible() != want {
			t.Errorf("%s: visible %v", when, strip.Visible())
		}
	}
	shown(false, "at the start")
	run := r.idOf("R1")
	r.w.plan.Select(run)
	shown(true, "with a run")
	if strip.Run() != run {
		t.Errorf("shows %q", strip.Run())
	}
	ends := r.desk.Frame().RunEnds(run)
	if !ends[0].Known || !ends[1].Known || ends[0].Volts < ends[1].Volts || ends[0].Amps <= 0 {
		t.Errorf("readings %+v", ends)
	}
	r.w.take(tool.NameLamp)
	shown(false, "while lamps are placed")
	r.w.take(tool.NameSelect)
	shown(true, "with Select again")
	r.w.plan.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF7})
	shown(false, "after F7")
	r.w.plan.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF7})
	shown(true, "after F7 again")
	if r.w.Fyne().Canvas().Focused() != fyne.Focusable(strip) {
		t.Error("F7 does not go to the strip")
	}
	n := r.desk.Frame().Undo
	strip.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	strip.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	if r.desk.Frame().Undo == n {
		t.Error("the keys of the strip change nothing")
	}
	r.menu("Circuit")
	shown(false, "over the circuit")
	r.menu("Plan")
	shown(true, "over the plan")
	strip.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	said := r.w.status.Hint()
	r.w.plan.Select()
	shown(false, "with nothing selected")
	if got := r.w.status.Hint(); got == said || got == "" {
		t.Errorf("the strip said %q; without it the line says %q", said, got)
	}
	undone := r.desk.Frame().Undo
	r.w.undo()
	if got := r.w.status.Hint(); got != "Undone: "+lowerFirst(undone) {
		t.Errorf("undoing %q says %q", undone, got)
	}
}

// TestDigView: the view draws the plan by digging and explains it; zones go by
// their own key.
func TestDigView(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	groups := func() map[string]bool {
		out := map[string]bool{}
		for _, e := range r.w.tray.legend.shown {
			out[e.Group] = true
		}
		return out
	}
	r.menu("Dig")
	if g := groups(); r.w.plan.Look() != scene.LookDig || !g[scene.GroupDepths] || !g[scene.GroupGround] || g["Zones"] {
		t.Errorf("look %v, legend %v", r.w.plan.Look(), g)
	}
	r.menu("Plan")
	if g := groups(); r.w.plan.Look() != scene.LookPlan || g[scene.GroupDepths] || !g["Zones"] {
		t.Errorf("look %v, legend %v", r.w.plan.Look(), g)
	}
	r.w.plan.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF8})
	if r.w.plan.Zones() || groups()["Zones"] {
		t.Error("F8 hides no zones")
	}
	r.menu("Zones of lamps")
	if !r.w.plan.Zones() || !groups()["Zones"] {
		t.Error("the menu brings no zones back")
	}
}

// TestStripHidesNoRun: every run is seen above the strip that it brings up, and the
// plan goes back when the strip goes, unless it was moved by hand.
func TestStripHidesNoRun(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.w.Fyne().Resize(fyne.NewSize(1280, 800))
	s := r.desk.Frame().Scheme
	start, moved := r.w.plan.Area(), 0
	for _, run := range s.Runs.All() {
		r.w.plan.Select(run.ID)
		if !r.w.side.strip.Visible() {
			t.Fatalf("%s brings up no strip", run.Tag)
		}
		open := r.w.plan.Size().Height - r.w.side.strip.Size().Height
		box := tool.Extent(s, run.ID)
		top, bottom := r.w.plan.Where(geom.Point{X: box.Min.X, Y: box.Max.Y}).Y, r.w.plan.Where(box.Min).Y
		if bottom > open || top < 0 {
			t.Errorf("%s reaches from %.0f down to %.0f, the strip begins at %.0f", run.Tag, top, bottom, open)
		}
		if r.w.plan.Area() != start {
			moved++
		}
		r.w.plan.Select()
		if r.w.plan.Area() != start {
			t.Errorf("after %s the plan does not go back", run.Tag)
		}
	}
	if moved == 0 {
		t.Error("no run lay behind the strip, so nothing was tested")
	}
	// From run to run the moves add up, and still all goes back.
	for _, run := range s.Runs.All() {
		r.w.plan.Select(run.ID)
	}
	r.w.plan.Select()
	if got := r.w.plan.Area(); got != start {
		t.Errorf("after a walk over all runs the plan shows %v, expected %v", got, start)
	}
	low := r.idOf("R1")
	r.w.plan.Select(low)
	r.w.plan.ZoomIn()
	by := r.w.plan.Area()
	r.w.plan.Select()
	if r.w.plan.Area() != by {
		t.Error("a view that was changed by hand went back")
	}
}
