package edit

import "duskwire/layout/doc"

// Store keeps the current scheme with its history and knows whether it is in
// the file. It is not safe for use by several goroutines at once; the Desk,
// its only user in the program, is kept on one.
type Store struct {
	history History
	saved   *doc.Scheme
}

// NewStore returns a store with the scheme as the saved state.
func NewStore(s *doc.Scheme) *Store {
	return &Store{NewHistory(s), s}
}

// Current returns the current scheme.
func (t *Store) Current() *doc.Scheme { return t.history.Scheme() }

// Do applies the operation to the current scheme as one step. When it is
// refused nothing changes; when it changes nothing no step is recorded.
func (t *Store) Do(op Operation) error {
	was := t.Current()
	now, err := op.Apply(was)
	if err != nil {
		return err
	}
	if now != was {
		t.history = t.history.Record(Title(op, was), now)
	}
	return nil
}

// Undo takes the last step back; false when there is none.
func (t *Store) Undo() (ok bool) {
	t.history, ok = t.history.Undo()
	return ok
}

// Redo does the step that was undone again; false when there is none.
func (t *Store) Redo() (ok bool) {
	t.history, ok = t.history.Redo()
	return ok
}

// UndoName returns the name of the step that Undo takes back, "" for none.
func (t *Store) UndoName() string { return t.history.UndoName() }

// RedoName returns the name of the step that Redo does again, "" for none.
func (t *Store) RedoName() string { return t.history.RedoName() }

// MarkSaved says that the current scheme is now what the file holds.
func (t *Store) MarkSaved() { t.MarkSavedAs(t.Current()) }

// MarkSavedAs says that s, which may be an earlier state, is what the file
// holds: a file is written while the drawing goes on.
func (t *Store) MarkSavedAs(s *doc.Scheme) { t.saved = s }

// Unsaved reports whether the current scheme differs from the file. Undo back
// to what was saved makes it saved again.
func (t *Store) Unsaved() bool { return t.Current() != t.saved }
