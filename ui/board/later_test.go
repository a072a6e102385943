package board

import (
	"bytes"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/scene"
)

// newLarge opens a board on a large garden with a worker that the test sends.
func newLarge(t *testing.T) (*hand, *errand) {
	t.Helper()
	h, e := newHand(t, largeGarden(300), fyne.NewSize(800, 600)), &errand{}
	h.paint()
	h.board.cfg.Work = e.ask
	return h, e
}

// sameAsAtOnce compares the picture shown with one that is drawn at once.
func sameAsAtOnce(t *testing.T, h *hand, when string) {
	t.Helper()
	s := &h.board.base
	if s.ahead.soft || s.stale {
		t.Fatalf("%s: the picture is not there", when)
	}
	got := bytes.Clone(s.image.Pix)
	it := s.sheet(s.view, s.raster.Size())
	it.draw(scene.NewRasteriser(), s.image)
	if !bytes.Equal(got, s.image.Pix) {
		t.Errorf("%s: the worker's picture is another than one drawn at once", when)
	}
}

// TestChangesOfLargePlansAreDrawnLater: what has changed on a large plan is drawn by
// a worker, the last picture stands, and what changes meanwhile is drawn too.
func TestChangesOfLargePlansAreDrawnLater(t *testing.T) {
	h, e := newLarge(t)
	lamps := h.desk.scheme().Lamps.All()
	gone := func(i int) {
		t.Helper()
		if err := h.desk.Commit(edit.Delete{IDs: []doc.ID{lamps[i].ID}}); err != nil {
			t.Fatal(err)
		}
	}
	n := h.board.base.draws
	gone(10)
	if h.paint(); h.board.base.draws != n {
		t.Error("drawn in the paint")
	}
	done := e.begin()
	if done == nil {
		t.Fatal("no worker was asked")
	}
	gone(20) // while it draws
	done()
	if done = e.begin(); done == nil {
		t.Fatal("the second change is not drawn")
	}
	done()
	h.paint()
	sameAsAtOnce(t, h, "after two changes")
	for _, change := range []func(){
		func() { h.board.SetGrid(!h.board.Grid()) },
		func() { h.board.SetPalette(scene.Dark()) },
		func() { h.board.SetLook(scene.LookDig) },
	} {
		change()
		for done := e.begin(); done != nil; done = e.begin() {
			done()
		}
		h.paint()
		sameAsAtOnce(t, h, "after a change of looks")
	}
}

// TestWhatWasDraggedStaysInSight: the live picture of a gesture stands until the
// base shows what it came to.
func TestWhatWasDraggedStaysInSight(t *testing.T) {
	h, e := newLarge(t)
	l := h.desk.scheme().Lamps.All()[5]
	at := h.board.Where(l.Place.At)
	h.press(at, desktop.MouseButtonPrimary)
	h.move(at.AddXY(30, 10))
	h.move(at.AddXY(60, 20))
	if !h.board.live.raster.Visible() {
		t.Fatal("nothing is seen of the gesture")
	}
	h.let()
	if now, _ := h.desk.scheme().Lamps.Get(l.ID); now.Place == l.Place {
		t.Fatal("the lamp was not moved")
	}
	if h.paint(); !h.board.live.raster.Visible() {
		t.Error("the lamp is gone until the base is drawn")
	}
	for done := e.begin(); done != nil; done = e.begin() {
		done()
	}
	if h.paint(); h.board.live.raster.Visible() {
		t.Error("the live picture stayed")
	}
	sameAsAtOnce(t, h, "after the gesture")
}
