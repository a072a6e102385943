package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"duskwire/layout/doc"
	"duskwire/layout/scene"
)

// TestRestingShowsTheWorking: resting on a run of the plan that shows volts brings
// the working of its drop; it goes when the pointer moves on, when the view changes
// and when the drawing does, and it takes neither focus nor clicks.
func TestRestingShowsTheWorking(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	w := r.w
	w.tips.After = nil // due at once
	w.toggleAlong(scene.LookVolts)
	w.Fyne().Canvas().Capture()
	s := r.desk.Frame().Scheme
	run, _ := s.Runs.Get(doc.WithTag(s, "R9").Key())
	path := doc.RunPath(s, run)
	on := w.plan.Where(path[1])
	to := w.plan.Where(path[2])
	on.X, on.Y = (on.X+to.X)/2, (on.Y+to.Y)/2
	move := func(p fyne.Position) {
		e := &desktop.MouseEvent{}
		e.Position = p
		w.plan.MouseMoved(e)
	}
	rest := func() {
		t.Helper()
		move(fyne.NewPos(3, 3))
		move(on)
		if tip := w.tips.Shown(); !strings.HasPrefix(tip.Head, "VD-01") || !strings.Contains(tip.Working, "R9") {
			t.Fatalf("resting on R9 shows %q\n%s", tip.Head, tip.Working)
		}
	}
	focus := w.Fyne().Canvas().Focused()
	rest()
	if w.Fyne().Canvas().Focused() != focus || w.Fyne().Canvas().Overlays().Top() != nil {
		t.Error("the tip took the focus, or lies over the window")
	}
	for what, leave := range map[string]func(){
		"the pointer": func() { move(on.AddXY(30, 30)); move(fyne.NewPos(3, 3)) },
		"the view":    func() { w.showView(1) },
		"a press": func() {
			e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
			e.Position = on
			w.plan.MouseDown(e)
			w.plan.MouseUp(e)
		},
		"Escape": func() { w.plan.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape}) },
	} {
		rest()
		leave()
		if tip := w.tips.Shown(); !tip.Empty() {
			t.Errorf("%s leaves %q", what, tip.Head)
		}
		w.showView(0)
		w.plan.Select()
		w.Fyne().Canvas().Capture()
	}
}

// TestTotalsAt200: a window of 640 by 400 units shows findings, worst drop and worst
// loop along the bottom.
func TestTotalsAt200(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.w.Fyne().Resize(fyne.NewSize(640, 400))
	shown := texts(r.w.status.Object())
	f := r.desk.Frame().Totals
	for _, want := range []string{"drop", "at " + f.DropAt, "loop " + f.WorstLoop.String(), "\n1\n"} {
		if !strings.Contains("\n"+shown+"\n", want) {
			t.Errorf("expected %q in\n%s", want, shown)
		}
	}
}
