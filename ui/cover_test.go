package ui

import (
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/software"
	"fyne.io/fyne/v2/test"
)

// TestCover: every point of the window is painted once by the cover, so that a sheet
// as large as the window costs no more than the window does; what is shown stands in
// the middle and grows with what it needs, up to the window.
func TestCover(t *testing.T) {
	test.NewTempApp(t)
	win := test.NewTempWindow(t, canvas.NewRectangle(nil))
	win.SetPadded(false)
	win.Resize(fyne.NewSize(600, 400))
	body := canvas.NewRectangle(nil)
	for _, need := range []fyne.Size{{Width: 200, Height: 100}, {Width: 590, Height: 390}, {Width: 900, Height: 390}} {
		body.SetMinSize(need)
		c := newCover(body, win.Canvas())
		c.Show()
		want := need.Min(fyne.NewSize(600, 400))
		if got := body.Size(); got != want {
			t.Errorf("%v is needed, %v was given", need, got)
		}
		if at := body.Position(); at != fyne.NewPos((600-want.Width)/2, (400-want.Height)/2) {
			t.Errorf("%v stands at %v", need, at)
		}
		r := test.WidgetRenderer(c)
		for x := float32(0.5); x < 600; x += 3 {
			for y := float32(0.5); y < 400; y += 3 {
				if n := painted(r.Objects(), body, x, y); n != 1 {
					t.Fatalf("%v: %d times painted at %v, %v", need, n, x, y)
				}
			}
		}
		if n := len(win.Canvas().Overlays().List()); n != 1 {
			t.Errorf("%d covers", n)
		}
		c.Hide()
		if n := len(win.Canvas().Overlays().List()); n != 0 {
			t.Errorf("%d covers after the last was taken away", n)
		}
	}
}

// TestCoverOnPoints: the toolkit rounds place and size of a rectangle to points of the
// screen one by one. Whatever a sheet needs and at every scale each point is still
// painted once, or a line runs through the window along the edge of the sheet.
func TestCoverOnPoints(t *testing.T) {
	test.NewTempApp(t)
	win := test.NewTempWindow(t, canvas.NewRectangle(nil))
	win.SetPadded(false)
	body := canvas.NewRectangle(nil)
	for _, scale := range []float32{1, 1.25, 1.5, 2} {
		win.Canvas().(software.WindowlessCanvas).SetScale(scale)
		win.Resize(fyne.NewSize(600/scale, 400/scale))
		for step := range 40 {
			part := float32(step) / 40
			body.SetMinSize(fyne.NewSize(200+part, 100+7*part))
			c := newCover(body, win.Canvas())
			c.Show()
			r := test.WidgetRenderer(c)
			for i := range 400 {
				at := float32(i) + 0.5
				for _, p := range []fyne.Position{fyne.NewPos(at*1.5, 3.5), fyne.NewPos(3.5, at), fyne.NewPos(300.5, at), fyne.NewPos(at, 200.5)} {
					if n := paintedPoint(r.Objects(), body, p, scale); n != 1 {
						t.Fatalf("scale %v, %v needed: %d times painted at %v", scale, body.MinSize(), n, p)
					}
				}
			}
			c.Hide()
		}
	}
}

// paintedPoint counts what lies over a point of the screen as the toolkit draws it.
func paintedPoint(all []fyne.CanvasObject, but fyne.CanvasObject, p fyne.Position, scale float32) int {
	point := func(v float32) float32 { return float32(math.Round(float64(v * scale))) }
	n := 0
	for _, o := range all {
		at, size := o.Position(), o.Size()
		x, y, w, h := point(at.X), point(at.Y), point(size.Width), point(size.Height)
		if o != but && p.X >= x && p.X < x+w && p.Y >= y && p.Y < y+h {
			n++
		}
	}
	return n
}

// painted counts what lies over a point, a thing left out.
func painted(all []fyne.CanvasObject, but fyne.CanvasObject, x, y float32) int {
	n := 0
	for _, o := range all {
		at, size := o.Position(), o.Size()
		if o != but && o.Visible() && x >= at.X && x < at.X+size.Width && y >= at.Y && y < at.Y+size.Height {
			n++
		}
	}
	return n
}
