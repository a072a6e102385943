package board

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// covered fails when the base image leaves part of the board bare.
func covered(h *hand, when string) {
	h.t.Helper()
	r, size := h.board.base.raster, h.board.Size()
	at, far := r.Position(), r.Position().AddXY(r.Size().Width, r.Size().Height)
	if at.X > 0 || at.Y > 0 || far.X < size.Width || far.Y < size.Height {
		h.t.Fatalf("%s: the image lies from %v to %v on a board of %v", when, at, far, size)
	}
}

// TestPanLeads: a long pan is drawn again seldom, because most of the margin is
// put where the plan comes from, and the board is never bare.
func TestPanLeads(t *testing.T) {
	for _, step := range []fyne.Delta{{DX: 10}, {DX: -10}, {DY: 10}, {DY: -10}, {DX: 7, DY: -7}} {
		h := newHand(t, smallGarden(), size)
		before := h.board.base.draws
		at := fyne.NewPos(300, 200)
		h.press(at, desktop.MouseButtonTertiary)
		far := float32(0)
		for range 60 {
			at = at.AddXY(step.DX, step.DY)
			far += max(step.DX, -step.DX, step.DY, -step.DY)
			h.move(at)
			h.paint()
			covered(h, "while panning")
		}
		if n, most := h.board.base.draws-before, int(far/(1.5*margin))+1; n > most {
			t.Errorf("%v a step: drawn %d times over %v units, want at most %d", step, n, far, most)
		}
	}
}

// TestZoomBare: while the wheel turns the image has no margin; the first move
// of a pan gives it one.
func TestZoomBare(t *testing.T) {
	h := newHand(t, smallGarden(), size)
	h.wheel(fyne.NewPos(200, 100), 0, 25)
	h.paint()
	if got := h.board.base.raster.Size(); got != h.board.Size() {
		t.Errorf("the image is %v, the board %v", got, h.board.Size())
	}
	covered(h, "after the wheel")
	h.press(fyne.NewPos(200, 100), desktop.MouseButtonTertiary)
	h.move(fyne.NewPos(210, 100))
	h.paint()
	covered(h, "in the pan")
	if got, want := h.board.base.raster.Size(), h.board.Size().AddWidthHeight(2*margin, 2*margin); got != want {
		t.Errorf("the image is %v, want %v", got, want)
	}
	h.let()
}

// TestNoLargeRectangle: nothing over the plan makes the toolkit go over the
// whole board once more.
func TestNoLargeRectangle(t *testing.T) {
	h := newHand(t, smallGarden(), size)
	h.board.FocusGained()
	h.move(fyne.NewPos(100, 100))
	shown := 0
	for _, r := range h.board.over.pool.rects.items {
		if !r.Visible() {
			continue
		}
		shown++
		if a := r.Size().Width * r.Size().Height; a >= hollow {
			t.Errorf("a rectangle of %v over the plan", r.Size())
		}
	}
	if shown < 4 {
		t.Errorf("%d bars, want the four of the focus ring", shown)
	}
}
