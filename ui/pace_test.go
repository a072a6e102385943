package ui

import (
	"testing"
	"time"
)

// TestPace: of many moves in a row the first is followed at once, the others
// together a little later; the end of a gesture is never put off.
func TestPace(t *testing.T) {
	now := time.Unix(100, 0)
	var waiting []func()
	done := 0
	p := pace{every: panelsEvery, now: func() time.Time { return now }, later: func(d time.Duration, f func()) {
		if d <= 0 || d > panelsEvery {
			t.Errorf("put off by %v", d)
		}
		waiting = append(waiting, f)
	}}
	do := func(moving bool) { p.do(moving, func() { done++ }) }
	expect := func(what string, n, later int) {
		t.Helper()
		if done != n || len(waiting) != later {
			t.Fatalf("%s: done %d times with %d to come, want %d with %d", what, done, len(waiting), n, later)
		}
	}
	do(true)
	expect("first move", 1, 0)
	for range 5 {
		now = now.Add(panelsEvery / 10)
		do(true)
	}
	expect("five moves soon after", 1, 1)
	now = now.Add(panelsEvery)
	waiting[0]()
	waiting = nil
	expect("a little later", 2, 0)
	now = now.Add(panelsEvery / 2)
	do(true)
	do(false)
	expect("the end", 3, 1)
	waiting[0]() // has nothing left to do
	waiting = nil
	expect("after the end", 3, 0)
	now = now.Add(2 * panelsEvery)
	do(true)
	expect("the next gesture", 4, 0)
}

// TestFramesFirst: what leaves the cores to the frames waits even when nothing
// was done for long, and is done once for all that came in between.
func TestFramesFirst(t *testing.T) {
	now := time.Unix(100, 0)
	var waiting []func()
	done := 0
	p := pace{every: lightEvery, first: framesFirst, now: func() time.Time { return now }, later: func(d time.Duration, f func()) {
		if d != framesFirst {
			t.Errorf("put off by %v, expected %v", d, framesFirst)
		}
		waiting = append(waiting, f)
	}}
	p.do(true, func() { done++ })
	p.do(true, func() { done++ })
	if done != 0 || len(waiting) != 1 {
		t.Fatalf("done %d times with %d to come, want 0 with 1", done, len(waiting))
	}
	waiting[0]()
	if done != 1 {
		t.Errorf("done %d times, want 1", done)
	}
}

// TestPaceOfTests: without a clock that calls back nothing is put off.
func TestPaceOfTests(t *testing.T) {
	var p pace
	done := 0
	for range 3 {
		p.do(true, func() { done++ })
	}
	if done != 3 {
		t.Errorf("done %d times, want 3", done)
	}
}
