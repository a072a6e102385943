package derive

import "sync"

// large is the number of runs from which work is shared out: below it, that
// takes longer than it saves.
const large = 512

// inParts calls f for two halves of n things at the same time when there are
// many. The halves must not touch the same values.
func inParts(n int, f func(from, to int)) {
	if n < large {
		f(0, n)
		return
	}
	beside(n, func() { f(0, n/2) }, func() { f(n/2, n) })
}

// beside does two things at the same time when there are many. They must not
// touch the same values.
func beside(n int, f, g func()) {
	if n < large {
		f()
		g()
		return
	}
	var wait sync.WaitGroup
	wait.Go(f)
	g()
	wait.Wait()
}
