package ui

import (
	"time"

	"duskwire/ui/board"
)

// stallStep is how often the window is asked whether it answers.
const stallStep = 2 * time.Millisecond

// Stalls tells how long the window took to answer, again and again until the
// window is closed: a bit more than nothing while it is idle, and during work
// on the UI goroutine what was left of it. tell runs on the UI goroutine. It is
// for measuring; nothing calls it in daily use.
func (w *Window) Stalls(tell func(time.Duration)) {
	var ask func()
	ask = func() {
		asked := time.Now()
		w.bridge.Tell(func() {
			tell(time.Since(asked))
			w.bridge.later(stallStep, ask)
		})
	}
	ask()
}

// Plan returns the board, for measuring: gestures are given to it as the driver
// of the toolkit would.
func (w *Window) Plan() *board.Board { return w.plan }
