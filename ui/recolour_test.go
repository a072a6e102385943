package ui

import (
	"image"
	"testing"

	"fyne.io/fyne/v2"
)

// A window whose colours were changed, and changed back, looks like one that
// began with those colours, whatever it shows.
func TestOtherColoursReachEverything(t *testing.T) {
	for name, show := range map[string]func(*rig){
		"working": func(r *rig) { r.w.plan.Select(r.desk.Frame().Scheme.Lamps.All()[0].ID); r.menu("Working") },
		"lengths": func(r *rig) { r.menu("Lengths") },
		"history": func(r *rig) { r.menu("History") },
		"finding": func(r *rig) { r.menu("Next finding") },
		"circuit": func(r *rig) { r.menu("Circuit") },
		"section": func(r *rig) { r.w.plan.Select(r.desk.Frame().Scheme.Runs.All()[0].ID); r.menu("Section") },
		"keys":    func(r *rig) { r.menu("Keys") },
	} {
		t.Run(name, func(t *testing.T) {
			// looks returns what is to be seen in the colours of the start, and twice
			// more after turn.
			looks := func(dark bool, turn func(*Window)) (out []image.Image) {
				r := newRig(t, "townhouse.yaml")
				cfg := r.w.cfg
				cfg.Dark = dark
				r.w = New(cfg)
				r.w.Fyne().Show()
				r.w.Fyne().Resize(fyne.NewSize(1280, 900))
				show(r)
				for range 2 {
					r.w.Fyne().Canvas().Capture()
					turn(r.w)
					out = append(out, r.w.Fyne().Canvas().Capture())
				}
				return out
			}
			same := func(w *Window) { w.setDark(w.theme.Dark()) } // settles sizes as a turn does
			turned := looks(false, (*Window).toggleDark)
			sameLook(t, "dark", turned[0], looks(true, same)[0])
			sameLook(t, "light again", turned[1], looks(false, same)[1])
		})
	}
}

func sameLook(t *testing.T, name string, got, want image.Image) {
	t.Helper()
	n, where := 0, image.Rectangle{}
	for y := range want.Bounds().Dy() {
		for x := range want.Bounds().Dx() {
			if got.At(x, y) != want.At(x, y) {
				n++
				where = where.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	if n > 0 {
		t.Errorf("%s: %d pixels differ, in %v", name, n, where)
	}
}
