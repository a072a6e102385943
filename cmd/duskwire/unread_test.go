//go:build e2e

package main_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// TestUnreadFile names a file that is no scheme, as a file manager does: the window
// opens all the same, with an empty plan below what is wrong; the terminal gets the
// same line, and the end is a normal one.
func TestUnreadFile(t *testing.T) {
	s := newScreen(t, 1280, 800)
	if err := os.WriteFile(filepath.Join(s.home, "broken.yaml"), []byte("scheme: [\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	p := s.run("1", "broken.yaml")
	if f := p.last; f.Totals.Lamps != 0 || f.Path != "" || f.Unsaved {
		t.Errorf("the plan holds %d lamps of %q, unsaved: %v", f.Totals.Lamps, f.Path, f.Unsaved)
	}
	p.key("ctrl+q") // not past what the window tells
	select {
	case <-p.ended:
		t.Fatalf("the window tells nothing\n%s", p.log.String())
	case <-time.After(10 * settle):
	}
	p.key("Escape")
	time.Sleep(settle)
	p.quit()
	if log := p.log.String(); !strings.Contains(log, "duskwire: broken.yaml:1: ") {
		t.Errorf("the terminal says %q", log)
	}
}
