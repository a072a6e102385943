package board

import (
	"image"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

// nightHand is a board that looks at the night, with a picture for its view.
func nightHand(t *testing.T, asked *int) *hand {
	h := newHand(t, smallGarden(), fyne.NewSize(600, 400))
	h.board.cfg.OnNight = func() { *asked++ }
	h.board.SetLook(scene.LookDusk)
	h.give()
	h.paint()
	return h
}

// give answers what the board wishes for.
func (h *hand) give() {
	var w layout.DuskWish
	if !h.board.NightWish(&w) {
		h.t.Fatal("no wish")
	}
	px := func(mm float64) int { return int(math.Round(mm * w.PxPerMM)) }
	img := image.NewRGBA(image.Rect(0, 0, px(w.Width), px(w.Height)))
	for i := range img.Pix {
		img.Pix[i] = 200
	}
	h.board.SetNight(&layout.DuskShot{Seq: h.board.frame.Seq, Image: img, View: w.View, Width: w.Width, Height: w.Height})
}

// TestNightFollowsView: a pan moves the picture with the plan and asks for another
// in time, a zoom stretches it; bars fill what it does not reach.
func TestNightFollowsView(t *testing.T) {
	asked := 0
	h := nightHand(t, &asked)
	b := h.board
	if asked != 1 { // when the look was chosen, with nothing to show
		t.Errorf("asked %d times at first", asked)
	}
	lies := func() {
		t.Helper()
		at, want := b.night.raster.Position(), b.view.at(b.night.at.origin)
		if math.Abs(float64(at.X-want.X)) > 0.51 || math.Abs(float64(at.Y-want.Y)) > 0.51 {
			t.Errorf("the picture lies at %v, its ground at %v", at, want)
		}
		if !b.night.raster.Visible() {
			t.Error("the picture is hidden")
		}
	}
	lies()
	middle := fyne.NewPos(300, 200)
	h.press(middle, desktop.MouseButtonTertiary)
	h.move(middle.AddXY(40, 10))
	lies()
	if asked != 1 {
		t.Error("a short pan asks for another picture")
	}
	h.move(middle.AddXY(180, 10))
	h.let()
	lies()
	if asked < 2 {
		t.Error("a long pan asks for no picture")
	}
	bar := b.night.bars[2]
	if !bar.Visible() || math.Abs(float64(bar.Size().Width-b.night.raster.Position().X)) > 0.01 {
		t.Errorf("no bar fills the left: %v wide, the picture begins at %v", bar.Size().Width, b.night.raster.Position().X)
	}
	h.give()
	was := b.night.raster.Size()
	h.wheel(middle, 0, 25)
	lies()
	if got := b.night.raster.Size(); math.Abs(float64(got.Width/was.Width)-step) > 0.01 {
		t.Errorf("zoomed by %g the picture is %v wide, it was %v", step, got.Width, was.Width)
	}
	for range 10 {
		h.wheel(middle, 0, 25)
	}
	if b.night.raster.Visible() {
		t.Error("a picture stretched ten steps is still shown")
	}
	b.SetLook(scene.LookPlan)
	if b.night.box.Visible() {
		t.Error("the night stays under the plan")
	}
}

// TestNightUnderLines: over the picture the plan is clear between its lines, and a
// drag of a lamp does not draw it again.
func TestNightUnderLines(t *testing.T) {
	asked := 0
	h := nightHand(t, &asked)
	img := h.board.base.image
	clear, inked := 0, 0
	for i := 3; i < len(img.Pix); i += 4 {
		switch img.Pix[i] {
		case 0:
			clear++
		case 255:
			inked++
		}
	}
	if clear < len(img.Pix)/4*8/10 || inked < 200 {
		t.Errorf("%d pixels are clear and %d inked of %d", clear, inked, len(img.Pix)/4)
	}
	h.click(4, 0)
	h.press(h.where(4, 0), desktop.MouseButtonPrimary)
	h.move(h.where(4.5, 0))
	h.paint()
	draws := h.board.base.draws
	for k := range 5 {
		h.move(h.where(4.5+0.1*float64(k), 0.5))
		h.paint()
	}
	if got := h.board.base.draws; got != draws {
		t.Errorf("the lines were drawn %d times during the drag", got-draws)
	}
	h.let()
}

// TestAimOnBoard: the diamond of a selected lamp is dragged, and Ctrl with an
// arrow turns it.
func TestAimOnBoard(t *testing.T) {
	s := smallGarden()
	h := newHand(t, s, fyne.NewSize(600, 400))
	h.desk.stock.Lamps[0].Beam = 36
	h.click(4, 4)
	l := func() *doc.Lamp { e, _ := h.desk.scheme().Lamps.Get("l2"); return e }
	at := h.where(4, 4)
	// Straight up by assumption: the diamond stands three pick radii up the sheet.
	h.press(at.AddXY(0, -3*pickUnits), desktop.MouseButtonPrimary)
	h.move(at.AddXY(75, 0))
	h.let()
	if got := l(); math.Abs(got.Aim-90) > 0.5 || math.Abs(got.Tilt-45) > 1 {
		t.Errorf("aim %g, tilt %g, expected 90 and 45", got.Aim, got.Tilt)
	}
	if got := l().Place.At; got != geom.Pt(4, 4) {
		t.Errorf("the lamp moved to %v", got)
	}
	before := l().Aim
	h.board.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyRight, Modifier: fyne.KeyModifierControl})
	h.board.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyUp, Modifier: fyne.KeyModifierControl | fyne.KeyModifierShift})
	if got := l(); math.Abs(got.Aim-before-5) > 1e-6 || got.Tilt < 45 {
		t.Errorf("by keys: aim %g, tilt %g, before %g", got.Aim, got.Tilt, before)
	}
}
