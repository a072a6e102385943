package ui

// lane has what workers draw and work out under a gesture done one at a time, in the
// order in which it was asked for: two of them beside a frame, and OpenGL in software
// with its own threads, are more than two cores bear. Everything runs on the UI
// goroutine.
type lane struct {
	busy bool
	wait []func()
}

// enter does f now or when its turn has come. f ends in leave, at once or later.
func (l *lane) enter(f func()) {
	if l.busy {
		l.wait = append(l.wait, f)
		return
	}
	l.busy = true
	f()
}

// leave lets the next one in.
func (l *lane) leave() {
	l.busy = false
	if len(l.wait) > 0 {
		next := l.wait[0]
		l.wait = l.wait[1:]
		l.enter(next)
	}
}
