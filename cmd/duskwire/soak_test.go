//go:build e2e

package main_test

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"duskwire/assets"
)

// TestSoak sends a long random run of pointer and keys to the real window and
// looks whether it lives, answers and keeps its size. It runs only when
// SOAK_SECONDS says how long; SOAK_SEED repeats a run.
func TestSoak(t *testing.T) {
	seconds, err := strconv.Atoi(os.Getenv("SOAK_SECONDS"))
	if err != nil || seconds <= 0 {
		t.Skip("SOAK_SECONDS is not set: make soak sets it")
	}
	seed := uint64(20261126)
	if text := os.Getenv("SOAK_SEED"); text != "" {
		if seed, err = strconv.ParseUint(text, 10, 64); err != nil {
			t.Fatalf("SOAK_SEED: %v", err)
		}
	}
	t.Logf("%d s, seed %d", seconds, seed)
	s := newScreen(t, 1280, 800)
	path := filepath.Join(s.home, "soak.yaml")
	data, err := assets.FS.ReadFile("examples/townhouse.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	p := s.run("1", path)
	soak := &soaking{program: p, r: rand.New(rand.NewPCG(seed, 1)), seed: seed}
	p.key("ctrl+d", "ctrl+d")
	soak.heartbeat()
	first := soak.memory()
	begun, early := time.Now(), 0
	for n := 1; time.Since(begun) < time.Duration(seconds)*time.Second; n++ {
		soak.burst()
		soak.heartbeat()
		if early == 0 && time.Since(begun) > time.Duration(seconds)*time.Second/4 {
			early = soak.memory()
		}
	}
	last := soak.memory()
	t.Logf("%d acts, %d heartbeats; memory %d MB at the start, %d MB after a quarter, %d MB at the end",
		soak.acts, soak.beats, first, early, last)
	// 500 steps of a small scheme take some tens of megabytes, and the collector
	// lets the heap grow to twice what lives; more than this is a leak.
	if most := 250; last-first > most {
		t.Errorf("memory grew by %d MB, at most %d MB are expected", last-first, most)
	}
	soak.calm()
	p.key("ctrl+s")
	p.await("a saved file", func(f *frame) bool { return !f.Unsaved })
	var sheet struct{ Findings []found }
	if code := sheetJSON(t, &sheet, "findings", path); code > 1 {
		t.Errorf("dusksheet ended with %d on the saved file", code)
	}
	if !reflect.DeepEqual(p.last.Findings, sheet.Findings) {
		t.Errorf("findings differ\nwindow    %+v\ndusksheet %+v", p.last.Findings, sheet.Findings)
	}
	p.quit()
}

type soaking struct {
	*program
	r           *rand.Rand
	seed        uint64
	acts, beats int
}

// soakKeys are pressed at random. Those that ask for a file, or end the
// program, are not among them: a blind hand must not write over files. Nor is
// Ctrl+D: at each change of theme the toolkit reads its fonts again and its
// text shaper keeps the old ones, more than a megabyte, which would hide a leak
// of ours. It is pressed twice at the start.
var soakKeys = strings.Fields("v p b l r g s Escape Escape Return Return BackSpace Delete space Tab shift+Tab Up Down Left Right " +
	"shift+Right bracketleft bracketright 1 2 3 5 period comma less minus plus f question ctrl+z ctrl+z ctrl+y ctrl+a ctrl+k ctrl+g " +
	"ctrl+b ctrl+j ctrl+1 ctrl+2 ctrl+3 ctrl+h ctrl+0 ctrl+equal ctrl+minus ctrl+c ctrl+v ctrl+x ctrl+i")

// burst does some twenty random acts in one go.
func (s *soaking) burst() {
	s.t.Helper()
	var args []string
	num := func(low, high int) string { return strconv.Itoa(low + s.r.IntN(high-low)) }
	point := func() {
		if s.r.IntN(10) < 8 { // mostly on the plan
			v := s.last.View
			args = append(args, "mousemove", num(int(v.Left)+5, int(v.Left+v.Width)-5), num(int(v.Top)+5, int(v.Top+v.Height)-5))
		} else {
			args = append(args, "mousemove", num(5, 1275), num(40, 795)) // not the menu bar
		}
		args = append(args, "sleep", "0.02")
	}
	for range 20 {
		s.acts++
		switch k := s.r.IntN(20); {
		case k < 6:
			point()
			args = append(args, "click", "1")
		case k < 8: // drag
			point()
			args = append(args, "mousedown", "1", "sleep", "0.02")
			point()
			point()
			args = append(args, "mouseup", "1")
		case k < 10:
			point()
			args = append(args, "click", num(4, 6)) // wheel
		case k == 10: // drag the view
			point()
			args = append(args, "mousedown", "2", "sleep", "0.02")
			point()
			args = append(args, "mouseup", "2")
		case k == 11:
			point()
			args = append(args, "click", "3", "sleep", "0.03", "key", "Escape")
		case k == 12:
			point()
			args = append(args, "click", "--repeat", "2", "1")
		default:
			args = append(args, "key", soakKeys[s.r.IntN(len(soakKeys))])
		}
		args = append(args, "sleep", "0.02")
	}
	s.do(args...)
}

// calm ends what is open and half done.
func (s *soaking) calm() {
	s.t.Helper()
	s.do("mouseup", "1", "mouseup", "2", "mouseup", "3")
	s.do("key", "Escape", "sleep", "0.05", "key", "Escape", "sleep", "0.05", "key", "Escape", "sleep", "0.05", "key", "Escape")
}

// heartbeat asks for another scale of the plan until the trace shows one. A
// window that does not answer is made to say where its goroutines are.
func (s *soaking) heartbeat() {
	s.t.Helper()
	s.beats++
	for until := time.Now().Add(soon); time.Now().Before(until); {
		s.calm()
		s.do("key", "ctrl+1", "sleep", "0.1") // the trace tells of the plan only
		before := s.newestOr()
		s.do("key", "ctrl+0", "sleep", "0.1", "key", "ctrl+equal", "sleep", "0.1")
		for range 10 {
			select {
			case err := <-s.ended:
				s.t.Fatalf("seed %d: the program ended after %d acts: %v\n%s", s.seed, s.acts, err, s.log.String())
			default:
			}
			if f := s.newestOr(); f.View.PerMetre != before.View.PerMetre || f.View.X != before.View.X {
				s.last = f
				return
			}
			time.Sleep(settle)
		}
		s.do("key", "ctrl+minus")
	}
	s.picture("soak-failed.png")
	_ = s.cmd.Process.Signal(syscall.SIGQUIT)
	select {
	case <-s.ended:
	case <-time.After(soon):
	}
	s.t.Fatalf("seed %d: no answer after %d acts\n%s", s.seed, s.acts, s.log.String())
}

func (s *soaking) newestOr() frame {
	f, err := s.newest()
	if err != nil {
		s.t.Fatal(err)
	}
	if f == nil {
		return frame{}
	}
	return *f
}

// memory is what the program holds in RAM, in megabytes (Linux).
func (s *soaking) memory() int {
	s.t.Helper()
	data, err := os.ReadFile("/proc/" + strconv.Itoa(s.cmd.Process.Pid) + "/status")
	if err != nil {
		s.t.Fatalf("seed %d: the program is gone: %v\n%s", s.seed, err, s.log.String())
	}
	for line := range strings.Lines(string(data)) {
		if rest, ok := strings.CutPrefix(line, "VmRSS:"); ok {
			kb, _ := strconv.Atoi(strings.Fields(rest)[0])
			return kb >> 10
		}
	}
	return 0
}
