package edit

// Names returns the name of every step, oldest first, undone ones included, and
// how many of them are done: 0 stands for the state that was opened (or, after
// 500 steps, the oldest that is left).
func (h History) Names() (names []string, done int) {
	for _, s := range h.steps[1:] {
		names = append(names, s.name)
	}
	return names, h.at
}

// GoTo returns the history with the first n steps done; ok is false when there
// are not as many, or when it is there already.
func (h History) GoTo(n int) (there History, ok bool) {
	if n < 0 || n >= len(h.steps) || n == h.at {
		return h, false
	}
	return History{h.steps, n}, true
}

// Steps returns the names of the steps and how many are done; see
// History.Names.
func (t *Store) Steps() (names []string, done int) { return t.history.Names() }

// GoTo undoes or does steps again until n are done; false when there is no such
// state or when it is the present one.
func (t *Store) GoTo(n int) (ok bool) {
	t.history, ok = t.history.GoTo(n)
	return ok
}
