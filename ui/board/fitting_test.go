package board

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"duskwire/assets"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/file"
	"duskwire/layout/tool"
)

// gardenBoard opens the example on a board of a size.
func gardenBoard(t *testing.T, size fyne.Size) *Board {
	t.Helper()
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	data, err := assets.FS.ReadFile("examples/townhouse.yaml")
	if err != nil {
		t.Fatal(err)
	}
	s, err := file.ReadScheme("townhouse.yaml", data, stock)
	if err != nil {
		t.Fatal(err)
	}
	test.NewTempApp(t)
	desk := layout.NewDesk(stock, rules, s, "")
	b := New(desk, Config{})
	w := test.NewTempWindow(t, b)
	w.SetPadded(false)
	w.Resize(size)
	b.SetFrame(desk.Frame())
	w.Canvas().Capture()
	return b
}

// On a small board, as at 200 %, fitting leaves the room that labels and marks take and
// no more: all of them are seen, and one side of the drawing reaches the edge.
func TestFitSmallBoard(t *testing.T) {
	for _, size := range []fyne.Size{fyne.NewSize(250, 252), fyne.NewSize(330, 200), fyne.NewSize(450, 460)} {
		b := gardenBoard(t, size)
		lo, hi, ok := b.base.list.Reach()
		from := b.Where(b.base.list.View.Origin) // the image has a margin that a pan uncovers
		left, above := float64(from.X)+lo.X*unitsPerMM, float64(from.Y)+lo.Y*unitsPerMM
		right, below := float64(size.Width-from.X)-hi.X*unitsPerMM, float64(size.Height-from.Y)-hi.Y*unitsPerMM
		if !ok || min(left, right, above, below) < 0 {
			t.Errorf("%v: labels are cut off: %.0f left, %.0f right, %.0f above, %.0f below are free", size, left, right, above, below)
		}
		if above+below > 30 && left+right > 30 {
			t.Errorf("%v, 1:%.0f: %.0f left, %.0f right, %.0f above, %.0f below are wasted", size, b.Scale(), left, right, above, below)
		}
	}
}

// Flying to a zone on a small board shows its lamps no smaller than the whole plan would
// be; the next lamp has the scale from before. What the person chose meanwhile stays.
func TestFlyToZoneAndBack(t *testing.T) {
	b := gardenBoard(t, fyne.NewSize(250, 252))
	all := b.Scale()
	for b.Scale() > 60 {
		b.ZoomIn()
	}
	near := b.Scale()
	s := b.frame.Scheme
	lamp := doc.WithTag(s, "L5").Key()
	for _, z := range s.Zones.All() {
		b.FlyTo(z.ID)
		if b.Scale() > all+1 {
			t.Errorf("zone %s is shown 1:%.0f, all of the plan 1:%.0f", z.Tag, b.Scale(), all)
		}
		area, r := b.view.area(b.open()), tool.Extent(s, z.ID)
		if !area.Contains(r.Min) || !area.Contains(r.Max) {
			t.Errorf("zone %s is not in view", z.Tag)
		}
		b.FlyTo(lamp)
		if at := b.Where(tool.Extent(s, lamp).Centre()); b.Scale() != near || at.X < 0 || at.X > 250 || at.Y < 0 || at.Y > 252 {
			t.Errorf("after zone %s the lamp is at %v, 1:%.0f, expected in view at 1:%.0f", z.Tag, at, b.Scale(), near)
		}
	}
	b.FlyTo(s.Zones.All()[3].ID)
	b.ZoomOut()
	mine := b.Scale()
	b.FlyTo(lamp)
	if b.Scale() != mine {
		t.Errorf("1:%.0f that was chosen became 1:%.0f", mine, b.Scale())
	}
}
