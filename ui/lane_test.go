package ui

import (
	"slices"
	"testing"
)

// TestLane: of works in a lane one goes on at a time, in the order in which they were
// asked for; one that has nothing to do lets the next one in.
func TestLane(t *testing.T) {
	var l lane
	var begun []string
	enter := func(name string) { l.enter(func() { begun = append(begun, name) }) }
	expect := func(when string, want ...string) {
		t.Helper()
		if !slices.Equal(begun, want) {
			t.Fatalf("%s: begun %v, want %v", when, begun, want)
		}
	}
	enter("a")
	enter("b")
	l.enter(l.leave)
	enter("c")
	expect("one under way", "a")
	l.leave()
	expect("the first done", "a", "b")
	l.leave()
	expect("the second done, one with nothing to do", "a", "b", "c")
	l.leave()
	enter("d")
	expect("empty again", "a", "b", "c", "d")
}

// TestLaneOfPacedWork: work with nothing to do, and work that has ended, leave the lane;
// what waits begins only then.
func TestLaneOfPacedWork(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	var l lane
	pictures, figures := r.w.pacedIn(&l, "a", 0, 0), r.w.pacedIn(&l, "b", 0, 0)
	var said []string
	take := func(name string) func() (work, done func()) {
		return func() (work, done func()) {
			said = append(said, name)
			return func() {}, func() { said = append(said, name+" done") }
		}
	}
	pictures(func() (work, done func()) { return nil, nil })
	pictures(take("a"))
	figures(take("b"))
	figures(func() (work, done func()) { return nil, nil })
	pictures(take("c"))
	for len(said) < 6 {
		r.wait()
	}
	if want := []string{"a", "a done", "b", "b done", "c", "c done"}; !slices.Equal(said, want) || l.busy || len(l.wait) > 0 {
		t.Errorf("%v, want %v; busy %v, %d wait", said, want, l.busy, len(l.wait))
	}
}
