package ui

import "runtime"

// GiveWay puts the window before everything else that the program does: the light of
// a night, pages and the collector may take every core, and what draws the window
// without a graphics card then waits for one, up to 100 ms a frame. It is called once,
// on the main thread and before the window is made. Nothing depends on it but how
// soon the window answers.
//
// Two things are needed. The scheduler gets room for one goroutine more than there
// are cores, or the UI goroutine would wait up to 10 ms for its turn after each call
// into the graphics library. And the other threads get less of the processor than
// the main thread and those that draw for it, see behind.
func GiveWay() {
	runtime.GOMAXPROCS(runtime.GOMAXPROCS(0) + 1)
	behind()
}
