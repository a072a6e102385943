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
