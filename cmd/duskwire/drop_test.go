//go:build e2e

package main_test

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"duskwire/layout/doc"
	"duskwire/layout/file"
	"duskwire/layout/geom"
)

// drop drags files from another program onto the middle of the plan and lets go.
// It returns when the window has said that it is done with them, or that it does not
// take them; see testdata/drop.py.
func (p *program) drop(files ...string) {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), 3*soon)
	defer cancel()
	x, y := p.pixel(p.spot(0.5, 0.4))
	cmd := exec.CommandContext(ctx, "python3", append([]string{filepath.Join("testdata", "drop.py"), strconv.Itoa(x), strconv.Itoa(y)}, files...)...)
	cmd.Env = p.env()
	if out, err := cmd.CombinedOutput(); err != nil {
		p.picture("failed.png")
		p.t.Fatalf("dropping %v: %v\n%s", files, err, out)
	}
	time.Sleep(settle)
}

// written writes a scheme with so many lamps and returns its path.
func written(t *testing.T, folder, name string, lamps int) string {
	t.Helper()
	path := filepath.Join(folder, name)
	s := &doc.Scheme{Title: name, Rules: "uk-18", Country: "England", Plan: doc.Plan{Scale: 50, Grid: geom.Metres(grid), Checked: true}}
	var all []*doc.Lamp
	for i := range lamps {
		tag := fmt.Sprint("L", i+1)
		all = append(all, &doc.Lamp{ID: doc.ID(tag), Tag: tag, Stock: "spike-5w-12"})
	}
	s.Lamps = doc.NewSet(all...)
	if err := file.SaveScheme(path, s); err != nil {
		t.Fatal(err)
	}
	return path
}

// needsPython skips a test that drops files where nothing can drop them.
func needsPython(t *testing.T) {
	t.Helper()
	if _, err := exec.LookPath("python3"); err != nil {
		if os.Getenv("CI") != "" {
			t.Fatalf("python3 is not installed: %v", err)
		}
		t.Skip("SKIPPED: python3 is not installed, so nothing was dropped on the window")
	}
}

// TestDropFromALostProgram: a program that ends in the middle of a drop, while the
// window is too busy to answer, takes nothing along.
func TestDropFromALostProgram(t *testing.T) {
	needsPython(t)
	s := newScreen(t, 1280, 800)
	first := written(t, t.TempDir(), "first.yaml", 1)
	p := s.run("1")
	if err := p.cmd.Process.Signal(syscall.SIGSTOP); err != nil {
		t.Fatal(err)
	}
	x, y := p.pixel(p.spot(0.5, 0.4))
	ctx, cancel := context.WithTimeout(context.Background(), 2*time.Second)
	defer cancel()
	lost := exec.CommandContext(ctx, "python3", filepath.Join("testdata", "drop.py"), strconv.Itoa(x), strconv.Itoa(y), first)
	lost.Env = p.env()
	if out, err := lost.CombinedOutput(); ctx.Err() == nil {
		t.Fatalf("the drop has ended by itself: %v\n%s", err, out)
	}
	if err := p.cmd.Process.Signal(syscall.SIGCONT); err != nil {
		t.Fatal(err)
	}
	p.drop(first)
	p.await("the file that was dropped next", func(f *frame) bool { return f.Path == first && f.Totals.Lamps == 1 })
	p.quit()
}

// TestDrop drops files on the window by the protocol that file managers speak: a
// scheme, a picture, two files at once, one while a question is open, and one after
// the unsaved work was discarded.
func TestDrop(t *testing.T) {
	needsPython(t)
	s := newScreen(t, 1280, 800)
	folder := t.TempDir()
	first, second, third := written(t, folder, "first one.yaml", 1), written(t, folder, "second.yaml", 2), written(t, folder, "third, of the café.yaml", 3)
	photo := filepath.Join(folder, "survey.png")
	testPicture(t, photo)
	p := s.run("1", first)
	open := func(path string, lamps int) {
		t.Helper()
		p.await(filepath.Base(path)+" to be open", func(f *frame) bool {
			return f.Path == path && f.Totals.Lamps == lamps && !f.Unsaved && f.Undo == ""
		})
	}
	// stays looks a while: what must not happen leaves no other trace.
	stays := func(what, path string) {
		t.Helper()
		for range 12 {
			time.Sleep(settle)
			if f, err := p.newest(); err != nil || f.Path != path {
				t.Fatalf("%s: %+v is open, want %s (%v)", what, f, path, err)
			}
		}
	}
	open(first, 1)
	p.drop(second)
	open(second, 2)

	p.drop(first, third)
	stays("two files at once", second)

	p.drop(photo)
	p.await("the picture under the plan", func(f *frame) bool {
		return f.Unsaved && !f.Preview && strings.Contains(f.text("CIR-10"), "has no scale yet")
	})
	p.drop(third) // now there is something to lose
	stays("while it is asked what becomes of the work", second)
	p.drop(first)
	stays("a drop while a question is open", second)
	p.key("Escape") // stays with the work
	stays("after Stay", second)
	if f, err := p.newest(); err != nil || !f.Unsaved {
		t.Errorf("after Stay the work is gone: %+v, %v", f, err)
	}
	p.drop(third)
	p.key("shift+Tab", "Return") // Discard stands before Save
	open(third, 3)
	p.drop(first) // nothing to lose: it is not asked
	open(first, 1)
	p.quit()
}
