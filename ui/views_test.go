package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"duskwire/layout/doc"
	"duskwire/layout/scene"
	"duskwire/layout/tool"
)

// TestViewSwitch goes through the views by menu and by button: one is shown at
// a time, it has the keyboard, and the switch says which.
func TestViewSwitch(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	shows := func(n int) {
		t.Helper()
		for i, v := range r.w.views.all {
			on, seen := i == n, v.in == r.w.views.all[n].in // two views may share the plan
			if r.w.views.buttons[i].on != on || r.w.views.entries[i].Checked != on || v.in.Visible() != seen {
				t.Errorf("view %s: button %v, menu %v, visible %v, expected %v", v.name, r.w.views.buttons[i].on, r.w.views.entries[i].Checked, v.in.Visible(), on)
			}
		}
		if got := r.w.Fyne().Canvas().Focused(); got != fyne.Focusable(r.w.views.all[n].in) {
			t.Errorf("the keyboard is with %T", got)
		}
	}
	shows(0)
	r.menu("Circuit")
	shows(1)
	test.Tap(r.w.views.buttons[0])
	shows(0)
	test.Tap(r.w.views.buttons[1])
	shows(1)
	if got := r.w.status.Hint(); !strings.Contains(got, "Click selects") {
		t.Errorf("the hint over the circuit is %q", got)
	}
	r.w.take(tool.NameLamp) // what draws needs the plan
	shows(0)
}

// TestSharedSelection selects on the plan, in the circuit and by the arrows.
func TestSharedSelection(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.menu("Circuit")
	same := func(tag string) {
		t.Helper()
		id := r.idOf(tag)
		for name, ids := range map[string][]doc.ID{"plan": r.w.plan.Selection(), "circuit": r.w.circuit.Selection()} {
			if len(ids) != 1 || ids[0] != id {
				t.Errorf("%s: selected %v, expected %s", name, ids, tag)
			}
		}
	}
	r.w.plan.Select(r.idOf("B1"))
	same("B1")
	r.w.circuit.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	same("R1")
	r.w.circuit.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	same("SP1")
	for range 2 {
		r.w.circuit.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	}
	same("B1")
	for range 4 {
		r.w.plan.ZoomIn()
	}
	r.w.plan.Select(r.idOf("L12"))
	r.w.circuit.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	same("L12")
	l, _ := r.desk.Frame().Scheme.Lamps.Get(r.idOf("L12"))
	if r.w.views.now != 0 || !r.w.plan.Area().Contains(l.Place.At) {
		t.Error("Return does not show L12 on the plan")
	}
}

// TestAlongRuns: one figure at a time, shown on the plan and in the legend.
func TestAlongRuns(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	groups := func() (out []string) {
		for _, e := range r.w.tray.legend.shown {
			if n := len(out); n == 0 || out[n-1] != e.Group {
				out = append(out, e.Group)
			}
		}
		return out
	}
	before := len(groups())
	r.menu("Circuit")
	r.menu("Volts along runs")
	if r.w.views.now != 0 || r.w.plan.Look() != scene.LookVolts || groups()[0] != scene.AlongGroup(scene.LookVolts) {
		t.Errorf("view %d, look %d, legend %v", r.w.views.now, r.w.plan.Look(), groups())
	}
	r.menu("Amperes along runs")
	if r.w.plan.Look() != scene.LookAmperes || r.w.views.along[scene.LookVolts].Checked || !r.w.views.along[scene.LookAmperes].Checked {
		t.Error("amperes do not take the place of volts")
	}
	r.menu("Amperes along runs")
	if r.w.plan.Look() != scene.LookPlan || len(groups()) != before {
		t.Errorf("look %d, legend %v after it was taken off", r.w.plan.Look(), groups())
	}
}
