package main

import (
	"fmt"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"duskwire/layout"
)

// dusk measures the night view: a lamp is dragged, the plan is panned, and the
// row after each says how many pictures came meanwhile.
func (h *hand) dusk() {
	const drag, pan = "  drag one lamp, night view", "  pan, night view"
	if !wanted(drag, h.only) && !wanted(pan, h.only) {
		return
	}
	onUI(func() {
		h.board.ZoomFit()
		h.menu("Dusk")
	})
	defer onUI(func() { h.menu("Plan") })
	begun := time.Now()
	tell(row{Name: "  night view, first picture", Text: fmt.Sprintf("coarse after %.0f ms, fine after %.0f ms",
		ms(h.night(func(s *layout.DuskShot) bool { return true }).Sub(begun)), ms(h.night(func(s *layout.DuskShot) bool { return !s.Coarse }).Sub(begun)))})
	var lamp fyne.Position
	count, last := 0, (*layout.DuskShot)(nil)
	seen := func() {
		if s := h.board.Night(); s != last {
			count, last = count+1, s
		}
	}
	pictures := func(name string) {
		if wanted(name, h.only) {
			tell(row{Name: name + ", pictures", Text: fmt.Sprintf("%d during these frames", count)})
		}
		count = 0
	}
	onUI(func() {
		h.board.Select("L500")
		l, _ := h.desk.Frame().Scheme.Lamps.Get("L500")
		lamp = h.board.Where(l.Place.At)
	})
	time.Sleep(500 * time.Millisecond) // its light is set apart meanwhile, as under a hand
	h.row(drag, func() { h.press(lamp, desktop.MouseButtonPrimary) }, func(i int) {
		seen()
		h.drag(round(lamp, i, 60))
	}, func() {
		h.board.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		h.release(desktop.MouseButtonPrimary)
		h.board.Select()
	})
	pictures(drag)
	middle := fyne.NewPos(h.board.Size().Width/2, h.board.Size().Height/2)
	h.row(pan, func() { h.press(middle, desktop.MouseButtonTertiary) }, func(i int) {
		seen()
		h.drag(round(middle, i, 200))
	}, func() { h.release(desktop.MouseButtonTertiary) })
	pictures(pan)
}

// night waits for a picture and returns when it was there.
func (h *hand) night(is func(*layout.DuskShot) bool) time.Time {
	for range 3000 {
		var there bool
		onUI(func() {
			s := h.board.Night()
			there = s != nil && is(s)
		})
		if there {
			break
		}
		time.Sleep(5 * time.Millisecond)
	}
	return time.Now()
}
