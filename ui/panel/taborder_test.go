package panel

import (
	"testing"

	"fyne.io/fyne/v2"

	"duskwire/layout/doc"
)

// TestTabGoesDown: Tab walks through the form of every kind of thing, and of several
// at once, from top to bottom and on a line from left to right, and leaves out nothing
// twice.
func TestTabGoesDown(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	s := d.Frame().Scheme
	picks := map[string][]doc.ID{"scheme": nil}
	doc.Each(s, func(e doc.Entity, k doc.Kind) {
		if _, have := picks[k.String()]; !have {
			picks[k.String()] = []doc.ID{e.Key()}
		}
	})
	picks["several"] = []doc.ID{doc.WithTag(s, "L1").Key(), doc.WithTag(s, "R3").Key(), doc.WithTag(s, "B1").Key()}
	for name, ids := range picks {
		p, w := properties(t, d, "")
		p.SetSelection(ids)
		c := w.Canvas()
		driver := fyne.CurrentApp().Driver()
		seen := map[fyne.Focusable]bool{}
		var last fyne.Position
		for range 100 {
			c.FocusNext()
			f := c.Focused()
			if f == nil || seen[f] {
				break
			}
			at := driver.AbsolutePositionForObject(f.(fyne.CanvasObject)).Add(p.scroll.Offset) // focus scrolls
			if len(seen) > 0 && (at.Y < last.Y-6 || at.Y < last.Y+6 && at.X <= last.X) {
				t.Errorf("%s: after %v Tab goes up to %v (%T)", name, last, at, f)
			}
			seen[f], last = true, at
		}
		if len(seen) < 3 {
			t.Errorf("%s: Tab reaches %d parts", name, len(seen))
		}
	}
}
