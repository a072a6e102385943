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
