package ui

import "testing"

// The colours chosen last are those of the next start.
func TestDarkIsRemembered(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	var told []bool
	r.w.cfg.Darkened = func(dark bool) { told = append(told, dark) }
	r.w.toggleDark()
	r.w.toggleDark()
	if len(told) != 2 || !told[0] || told[1] {
		t.Errorf("told %v", told)
	}
	cfg := r.w.cfg
	cfg.Dark, cfg.Darkened = true, nil
	w := New(cfg)
	if !w.theme.Dark() || !w.menus.dark.Checked {
		t.Error("the window does not start dark")
	}
}

// The wider panel takes half of the window and gives it back.
func TestWiderPanel(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	narrow := r.w.middle.Offset
	r.w.toggleWide()
	if r.w.middle.Offset >= narrow || !r.w.menus.wide.Checked {
		t.Errorf("offset %g after %g", r.w.middle.Offset, narrow)
	}
	if r.w.toggleWide(); r.w.middle.Offset != narrow {
		t.Errorf("offset %g, want %g again", r.w.middle.Offset, narrow)
	}
}
