package ui

import (
	"time"

	"duskwire/ui/board"
)

// How often the window is asked whether it answers: for measuring, and while the
// trace is on.
const (
	stallStep = 2 * time.Millisecond
	watchStep = 5 * time.Millisecond
)

// heldLong is the time without an answer from which the trace tells of it.
const heldLong = 50 * time.Millisecond

// Stalls tells how long the window took to answer, again and again until stop
// is called or the window is closed: next to nothing while it is idle, and
// during work on the UI goroutine what was left of it. tell runs on the UI
// goroutine, where stop has to be called too. It is for measuring; nothing calls
// it in daily use.
func (w *Window) Stalls(tell func(time.Duration)) (stop func()) {
	return w.stalls(stallStep, tell)
}

func (w *Window) stalls(step time.Duration, tell func(time.Duration)) (stop func()) {
	ended := false
	var ask func()
	ask = func() {
		asked := time.Now()
		w.bridge.Tell(func() {
			if ended {
				return
			}
			tell(time.Since(asked))
			w.bridge.later(step, ask)
		})
	}
	ask()
	return func() { ended = true }
}

// Plan returns the board, for measuring: gestures are given to it as the driver
// of the toolkit would.
func (w *Window) Plan() *board.Board { return w.plan }
