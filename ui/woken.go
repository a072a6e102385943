package ui

import "time"

// While the computer sleeps, or the process is stopped, the toolkit's clock runs on,
// and what it remembers of every part of the window is a minute too old at once: it
// forgets which window the parts belong to, and what they then want to have drawn
// anew is drawn nowhere. The window looks dead until something has all of it
// painted, which remembers them again (version 2.8.1; found by stopping the process
// for 75 s).
const (
	wakeEvery = 2 * time.Second
	sleptFor  = 20 * time.Second // the toolkit forgets after a minute
)

// sleep notices that the clock has jumped. Painting all is asked for twice: the frame
// before may still be under way.
type sleep struct {
	last  time.Time // of the wall clock: the other one stands still in a sleep
	again int
}

// slept takes the time and reports whether all has to be painted.
func (s *sleep) slept(now time.Time) bool {
	now = now.Round(0) // the wall clock alone
	if !s.last.IsZero() && now.Sub(s.last) > sleptFor {
		s.again = 2
	}
	s.last = now
	if s.again == 0 {
		return false
	}
	s.again--
	return true
}

// watchSleep looks every two seconds whether the computer has slept.
func (w *Window) watchSleep() {
	var s sleep
	var look func()
	look = func() {
		if c := w.win.Canvas(); s.slept(time.Now()) {
			c.Refresh(c.Content())
		}
		w.bridge.later(wakeEvery, func() { w.bridge.Tell(look) })
	}
	look()
}
