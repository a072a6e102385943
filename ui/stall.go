package ui

import (
	"time"

	"fyne.io/fyne/v2"

	"duskwire/ui/board"
)

// heldLong is the time without an answer from which the trace tells of it.
const heldLong = 50 * time.Millisecond

// Stalls tells how long the window took from one look at pointer and keys to the
// next, again and again until stop is called: about a sixtieth of a second while it
// is idle, and with work on the UI goroutine and the paint after it as long as they
// took. tell runs on the UI goroutine, where stop has to be called too. It is for
// measuring; nothing calls it in daily use.
//
// The toolkit ticks its animations each time it has looked. What is posted with
// fyne.Do would tell too much: while frames take longer than a tick, the toolkit
// tosses a coin between what is posted and the next frame.
func (w *Window) Stalls(tell func(time.Duration)) (stop func()) {
	var last time.Time
	beat := &fyne.Animation{Duration: time.Second, RepeatCount: fyne.AnimationRepeatForever}
	beat.Tick = func(float32) {
		now := time.Now()
		if !last.IsZero() {
			tell(now.Sub(last))
		}
		last = now
	}
	beat.Start()
	return beat.Stop
}

// Plan returns the board, for measuring: gestures are given to it as the driver
// of the toolkit would.
func (w *Window) Plan() *board.Board { return w.plan }
