//go:build e2e

package main_test

import (
	"bufio"
	"encoding/json"
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"duskwire/layout/file"
)

// killed ends the program as a crash does.
func (p *program) killed() {
	p.t.Helper()
	if err := p.cmd.Process.Signal(syscall.SIGKILL); err != nil {
		p.t.Fatal(err)
	}
	<-p.ended
	if err := os.Remove(p.trace); err != nil { // the next start writes its own
		p.t.Fatal(err)
	}
}

// works lists the unsaved work kept on the disk by what its first line says.
func (s *screen) works() (lamps []int) {
	names, _ := filepath.Glob(filepath.Join(s.home, ".config", "duskwire", "state", "journal", "*", "work"))
	for _, n := range names {
		f, err := os.Open(n)
		if err != nil {
			continue // just replaced
		}
		line, _ := bufio.NewReader(f).ReadBytes('\n')
		f.Close()
		var head struct{ Lamps int }
		if json.Unmarshal(line, &head) == nil {
			lamps = append(lamps, head.Lamps)
		}
	}
	return lamps
}

// onDisk waits until the work with so many lamps is kept.
func (p *program) onDisk(lamps int) {
	p.t.Helper()
	for until := time.Now().Add(soon); time.Now().Before(until); time.Sleep(settle) {
		if w := p.works(); len(w) == 1 && w[0] == lamps {
			return
		}
	}
	p.t.Fatalf("waited in vain for work with %d lamps on the disk; there is %v", lamps, p.works())
}

func (p *program) lamps(n int, unsaved bool) *frame {
	p.t.Helper()
	return p.await("so many lamps", func(f *frame) bool { return f.Totals.Lamps == n && f.Unsaved == unsaved && !f.Preview })
}

// TestKilledWorkComesBack draws, is killed, takes up the offer of the next
// start, draws on, is killed again, puts the offer off once, and saves.
func TestKilledWorkComesBack(t *testing.T) {
	s := newScreen(t, 1280, 800)
	path := emptyScheme(t)
	p := s.run("1", path)
	lamp := func(right, down float64, n int) {
		t.Helper()
		v := p.last.View
		p.key(keyLamp)
		p.click(v.X+right*v.Width/v.PerMetre, v.Y-down*v.Height/v.PerMetre)
		p.lamps(n, true)
		p.key("Escape")
	}
	lamp(0.3, 0.3, 1)
	lamp(0.6, 0.3, 2)
	p.onDisk(2)
	p.killed()

	p = s.run("1") // opens the example and offers the work
	p.picture("offer.png")
	p.key("Return")
	p.lamps(2, true)
	lamp(0.3, 0.6, 3)
	p.onDisk(3)
	p.killed()

	p = s.run("1")
	p.key("Escape") // look later
	p.quit()
	if err := os.Remove(p.trace); err != nil {
		t.Fatal(err)
	}
	if w := s.works(); len(w) != 1 {
		t.Fatalf("after an offer that was put off the disk holds %v", w)
	}

	p = s.run("1")
	p.key("Return")
	p.lamps(3, true)
	p.key("ctrl+s")
	p.lamps(3, false)
	p.quit()
	if w := s.works(); len(w) != 0 {
		t.Errorf("after a clean end the disk holds %v", w)
	}
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	saved, err := file.LoadScheme(path, stock, file.Keys(rules)...)
	if err != nil || saved.Lamps.Len() != 3 {
		t.Errorf("the file: %v", err)
	}
}
