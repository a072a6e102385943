package ui

import (
	"testing"
	"time"
)

// TestSlept: only a jump of the clock forward has the window painted anew, and then
// twice.
func TestSlept(t *testing.T) {
	at := time.Date(2026, 1, 15, 22, 0, 0, 0, time.UTC)
	var s sleep
	for i, c := range []struct {
		after time.Duration
		want  bool
	}{
		{0, false}, {2 * time.Second, false}, {3 * time.Second, false},
		{75 * time.Second, true}, {2 * time.Second, true}, {2 * time.Second, false},
		{-time.Hour, false}, {2 * time.Second, false},
		{9 * time.Hour, true}, {2 * time.Minute, true}, {2 * time.Second, true}, {2 * time.Second, false},
	} {
		at = at.Add(c.after)
		if got := s.slept(at); got != c.want {
			t.Errorf("look %d, %v after the one before: %v", i, c.after, got)
		}
	}
}
