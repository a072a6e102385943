package ui

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// overEdge lists what is drawn of an object right of x. What scrolls sideways, as the
// text of a field, may.
func overEdge(r *rig, o fyne.CanvasObject, x float32) (out []string) {
	if !o.Visible() {
		return nil
	}
	at := r.w.cfg.App.Driver().AbsolutePositionForObject(o)
	var parts []fyne.CanvasObject
	switch c := o.(type) {
	case *canvas.Text:
		w := fyne.MeasureText(c.Text, c.TextSize, c.TextStyle).Width
		right := at.X + w
		if c.Alignment == fyne.TextAlignCenter {
			right = at.X + c.Size().Width/2 + w/2
		}
		if c.Text != "" && right > x+0.5 {
			out = append(out, fmt.Sprintf("%q ends at %.0f of %.0f", c.Text, right, x))
		}
	case *canvas.Rectangle:
		if right := at.X + c.Size().Width; right > x+0.5 {
			out = append(out, fmt.Sprintf("a rectangle ends at %.0f of %.0f", right, x))
		}
	case *container.Scroll:
		if c.Direction == container.ScrollVerticalOnly {
			parts = test.WidgetRenderer(c).Objects()
		}
	case *fyne.Container:
		parts = c.Objects
	case fyne.Widget:
		parts = test.WidgetRenderer(c).Objects()
	}
	for _, p := range parts {
		out = append(out, overEdge(r, p, x)...)
	}
	return out
}

// longNames gives zones, lamps, boxes and the supply point names as long as people can,
// and returns one thing of every kind.
func longNames(r *rig) (one []doc.ID) {
	r.t.Helper()
	const long = "A terrace, steps down to the lower lawn, the orchard and theiroldgardenhouseatthebottom "
	s := r.desk.Frame().Scheme
	seen := map[doc.Kind]bool{}
	doc.Each(s, func(e doc.Entity, k doc.Kind) {
		if !seen[k] {
			seen[k], one = true, append(one, e.Key())
		}
	})
	var ops []edit.Operation
	for _, z := range s.Zones.All() {
		n := *z
		n.Tag = long + z.Tag[:1] + fmt.Sprint(z.Number)
		ops = append(ops, edit.ChangeZone{Zone: &n})
	}
	for _, l := range s.Lamps.All() {
		n := *l
		n.Tag = long + l.Tag
		ops = append(ops, edit.SetLamp{Lamp: &n})
	}
	for _, b := range s.Boxes.All() {
		n := *b
		n.Tag = long + b.Tag
		ops = append(ops, edit.SetBox{Box: &n})
	}
	for _, p := range s.Supplies.All() {
		n := *p
		n.Tag = long + p.Tag
		ops = append(ops, edit.SetSupply{Supply: &n})
	}
	if err := r.desk.Commit(edit.Batch{Label: "Name", Ops: ops}); err != nil {
		r.t.Fatal(err)
	}
	return one
}

// However large the scale, whatever is selected and however long the names, nothing
// runs under the right edge of the window: not the panel brought back beside the open
// names of the tray, not the buttons in it.
func TestNothingRunsUnderTheEdge(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	one := longNames(r)
	w := r.w
	for _, wide := range []float32{420, 512, 640, 800, 1280} {
		w.Fyne().Resize(fyne.NewSize(wide, 400))
		check := func(when string) {
			t.Helper()
			for _, line := range overEdge(r, w.Fyne().Content(), wide) {
				t.Errorf("%g wide, %s: %s", wide, when, line)
			}
		}
		w.tray.setOpen(true)
		check("names open")
		for i, tab := range w.tabs.Items {
			w.showTab(i)
			w.Fyne().Resize(fyne.NewSize(wide-1, 400)) // the driver lays out what has other words; that of tests does not
			w.Fyne().Resize(fyne.NewSize(wide, 400))
			check("names open, then " + tab.Text)
		}
		if !w.rightBox.Visible() {
			t.Errorf("%g wide: no panel, which was asked for", wide)
		}
		w.showTab(0)
		for _, id := range one {
			w.plan.Select(id)
			check("properties of " + doc.KindOf(r.desk.Frame().Scheme, id).String())
		}
		w.plan.Select(one...)
		check("properties of many")
		for range 6 {
			w.findings.Next()
			check("an open finding")
		}
	}
}

// Where the panel has no room beside the plan it stands in its place, until the
// keyboard goes to the plan.
func TestPanelInThePlaceOfThePlan(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	w := r.w
	w.Fyne().Resize(fyne.NewSize(512, 320)) // 250 %
	if w.rightBox.Visible() {
		t.Fatal("the panel stands beside a plan of no width")
	}
	w.showTab(1)
	if !w.rightBox.Visible() || w.stage.Visible() {
		t.Fatalf("panel %v, plan %v, expected the panel alone", w.rightBox.Visible(), w.stage.Visible())
	}
	w.focusPlan()
	if w.rightBox.Visible() || !w.stage.Visible() {
		t.Fatalf("at the plan: panel %v, plan %v", w.rightBox.Visible(), w.stage.Visible())
	}
	w.showTab(1)
	w.Fyne().Resize(fyne.NewSize(1280, 800))
	if !w.rightBox.Visible() || !w.stage.Visible() {
		t.Error("in a large window not both")
	}
}
