package edit

import "duskwire/layout/doc"

// limit is how many steps undo can take back.
const limit = 500

// step is one state of the scheme and the name of what led to it.
type step struct {
	name   string
	scheme *doc.Scheme
}

// History is every state of the scheme since it was opened, and which one is
// the present. It is a value: the methods return a new one. Undo moves the
// index; there is no inverse of an operation to get wrong.
type History struct {
	steps []step // steps[0] has no name
	at    int
}

// NewHistory returns the history that starts with the scheme.
func NewHistory(s *doc.Scheme) History {
	return History{steps: []step{{scheme: s}}}
}

// Scheme returns the present state.
func (h History) Scheme() *doc.Scheme { return h.steps[h.at].scheme }

// Record returns the history with one more step; what was undone is dropped,
// and the oldest step when there are more than 500.
func (h History) Record(name string, s *doc.Scheme) History {
	first := max(0, h.at+1-limit)
	kept := h.steps[first : h.at+1 : h.at+1]
	return History{steps: append(kept, step{name, s}), at: len(kept)}
}

// Undo returns the history one step back; ok is false at the start.
func (h History) Undo() (back History, ok bool) {
	if h.at == 0 {
		return h, false
	}
	return History{h.steps, h.at - 1}, true
}

// Redo returns the history one step on; ok is false at the end.
func (h History) Redo() (on History, ok bool) {
	if h.at+1 >= len(h.steps) {
		return h, false
	}
	return History{h.steps, h.at + 1}, true
}

// UndoName returns the name of the step that Undo takes back, "" for none.
func (h History) UndoName() string {
	if h.at == 0 {
		return ""
	}
	return h.steps[h.at].name
}

// RedoName returns the name of the step that Redo does again, "" for none.
func (h History) RedoName() string {
	if h.at+1 >= len(h.steps) {
		return ""
	}
	return h.steps[h.at+1].name
}
