//go:build e2e

package main_test

import (
	"bytes"
	"os"
	"syscall"
	"testing"
	"time"
)

// TestWindowAfterSleep stops the program for longer than the toolkit remembers what
// stands in its window, as a computer that sleeps would, and looks whether the window
// is drawn anew afterwards. It takes more than a minute and runs with the soak.
func TestWindowAfterSleep(t *testing.T) {
	if os.Getenv("SOAK_SECONDS") == "" {
		t.Skip("SOAK_SECONDS is not set: make soak sets it")
	}
	s := newScreen(t, 1280, 800)
	p := s.run("1")
	x, y := p.pixel(p.spot(0.5, 0.5))
	for range 12 { // work up to the last moment is what the toolkit forgets over
		s.moveTo(x, y)
		s.do("click", "4", "click", "5")
		p.key("ctrl+shift+7", "Escape", "Escape", "ctrl+5")
	}
	s.do("click", "4")
	for _, next := range []struct {
		signal syscall.Signal
		wait   time.Duration
	}{{syscall.SIGSTOP, 75 * time.Second}, {syscall.SIGCONT, 4 * time.Second}} {
		if err := p.cmd.Process.Signal(next.signal); err != nil {
			t.Fatal(err)
		}
		time.Sleep(next.wait)
	}
	before, err := os.ReadFile(s.picture("sleep-before.png"))
	if err != nil {
		t.Fatal(err)
	}
	p.key("ctrl+equal", "ctrl+equal")
	p.settled()
	after, err := os.ReadFile(s.picture("sleep-after.png"))
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Equal(before, after) {
		t.Error("the window is not drawn any more after a sleep")
	}
	p.quit()
}
