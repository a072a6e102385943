package ui

import (
	"image"
	"testing"

	"fyne.io/fyne/v2"

	"duskwire/layout/doc"
)

// A window whose colours were changed, and changed back, looks like one that
// began with those colours, whatever it shows.
func TestOtherColoursReachEverything(t *testing.T) {
	pick := func(r *rig, e doc.Entity) { r.w.plan.Select(e.Key()) }
	for name, show := range map[string]func(*rig){
		"working, section": func(r *rig) { pick(r, r.desk.Frame().Scheme.Runs.All()[0]); r.menu("Section"); r.menu("Working") },
		"finding, lengths": func(r *rig) { r.menu("Next finding"); r.menu("Lengths") },
		"circuit, history": func(r *rig) { r.menu("Circuit"); r.menu("History") },
		"lamp, keys":       func(r *rig) { pick(r, r.desk.Frame().Scheme.Lamps.All()[0]); r.menu("Keys") },
	} {
		t.Run(name, func(t *testing.T) {
			open := func(dark bool) *rig {
				r := newRig(t, "townhouse.yaml")
				cfg := r.w.cfg
				cfg.Dark = dark
				r.w = New(cfg)
				r.w.Fyne().Show()
				r.w.Fyne().Resize(fyne.NewSize(1100, 760))
				show(r)
				r.w.Fyne().Canvas().Capture() // makes what was never shown
				return r
			}
			look := func(r *rig, dark bool) image.Image {
				r.w.setDark(dark)
				return r.w.Fyne().Canvas().Capture()
			}
			r := open(false)
			light, turned, again := look(r, false), look(r, true), look(r, false)
			sameLook(t, "light again", again, light)
			sameLook(t, "dark", turned, look(open(true), true))
		})
	}
}

func sameLook(t *testing.T, name string, got, want image.Image) {
	t.Helper()
	a, b := got.(*image.NRGBA), want.(*image.NRGBA)
	if a.Rect != b.Rect {
		t.Fatalf("%s: sizes %v and %v", name, a.Rect, b.Rect)
	}
	n, where := 0, image.Rectangle{}
	for i := 0; i < len(a.Pix); i += 4 {
		if [4]byte(a.Pix[i:]) != [4]byte(b.Pix[i:]) {
			p := image.Pt(i%a.Stride/4, i/a.Stride)
			n, where = n+1, where.Union(image.Rectangle{Min: p, Max: p.Add(image.Pt(1, 1))})
		}
	}
	if n > 0 {
		t.Errorf("%s: %d pixels differ, in %v", name, n, where)
	}
}
