package ui

import (
	"testing"

	"fyne.io/fyne/v2"
)

// where names the part of the window that has the keyboard.
func (r *rig) where() string {
	for i, a := range r.w.regions() {
		if r.w.holds(a.area) {
			return []string{"tray", "plan", "findings", "panel", "status"}[i]
		}
	}
	return ""
}

// TestTabOrder: Tab goes through the parts in their order and comes round; it
// stays in a part until that is done.
func TestTabOrder(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	c := r.w.Fyne().Canvas()
	c.Focus(r.w.tray.held())
	got := []string{"tray"}
	start := c.Focused()
	for range 300 {
		c.FocusNext()
		if c.Focused() == start {
			break
		}
		if at := r.where(); at != got[len(got)-1] {
			got = append(got, at)
		}
	}
	want := []string{"tray", "plan", "findings", "panel", "status"}
	if len(got) != len(want) {
		t.Fatalf("Tab goes %v, expected %v", got, want)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Fatalf("Tab goes %v, expected %v", got, want)
		}
	}
}

// F6 goes from part to part, over those that are folded away.
func TestF6(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.w.focusPlan()
	for _, want := range []string{"findings", "panel", "status", "tray", "plan"} {
		r.w.Fyne().Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyF6})
		if got := r.where(); got != want {
			t.Fatalf("F6 goes to %q, expected %q", got, want)
		}
	}
	r.w.nextRegion(-1)
	if got := r.where(); got != "tray" {
		t.Errorf("back goes to %q", got)
	}
	r.w.focusPlan()
	r.w.toggleFold()
	r.w.nextRegion(1)
	if r.w.Fyne().Canvas().Focused() == nil || !r.w.holds(r.w.status.Object()) {
		t.Error("F6 does not go past the folded panel")
	}
}

// TestF6GoesToTheStrip: the strip is a part of its own while it is shown, at every
// size, and F7 twice goes there from anywhere.
func TestF6GoesToTheStrip(t *testing.T) {
	for _, size := range []fyne.Size{{Width: 1280, Height: 800}, {Width: 640, Height: 400}} {
		r := newRig(t, "townhouse.yaml")
		r.w.Fyne().Resize(size)
		r.w.plan.Select(r.idOf("R3"))
		c, strip := r.w.Fyne().Canvas(), fyne.Focusable(r.w.side.strip)
		press := func(k fyne.KeyName) { c.Focused().TypedKey(&fyne.KeyEvent{Name: k}) }
		r.w.focusPlan()
		if press(fyne.KeyF6); c.Focused() != strip {
			t.Errorf("%v: F6 on the plan goes to %T", size, c.Focused())
		}
		if press(fyne.KeyF6); c.Focused() == strip || r.w.holds(r.w.stage) {
			t.Errorf("%v: F6 on the strip goes to %T", size, c.Focused())
		}
		r.w.nextRegion(-1)
		if c.Focused() != strip {
			t.Errorf("%v: back goes to %T", size, c.Focused())
		}
		r.w.nextRegion(-1)
		if c.Focused() != fyne.Focusable(r.w.plan) {
			t.Errorf("%v: back from the strip goes to %T", size, c.Focused())
		}
		c.Focus(r.w.status.First())
		press(fyne.KeyF7)
		if press(fyne.KeyF7); c.Focused() != strip {
			t.Errorf("%v: F7 twice goes to %T", size, c.Focused())
		}
		r.w.plan.Select()
		if press(fyne.KeyF6); c.Focused() == strip {
			t.Errorf("%v: F6 goes to a strip that is not shown", size)
		}
	}
}

// The heads of the tabs take the arrows, and Return goes into a tab.
func TestTabsByKeyboard(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	c := r.w.Fyne().Canvas()
	c.Focus(r.w.tabBar)
	for i, key := range []fyne.KeyName{fyne.KeyRight, fyne.KeyRight, fyne.KeyLeft, fyne.KeyHome} {
		r.w.tabBar.TypedKey(&fyne.KeyEvent{Name: key})
		if got, want := r.w.tabs.SelectedIndex(), []int{1, 2, 1, 0}[i]; got != want {
			t.Errorf("after %s tab %d, expected %d", key, got, want)
		}
	}
	r.w.tabBar.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if c.Focused() == fyne.Focusable(r.w.tabBar) || !r.w.holds(r.w.properties.Object()) {
		t.Error("Return does not go into the tab")
	}
}
