//go:build e2e

package main_test

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
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
		soak.trim()
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
	soak.agree(sheet.Findings)
	p.quit()
}

// agree waits until the window shows the findings that dusksheet has of the saved
// file: those of light and of drums come in frames of their own.
func (s *soaking) agree(want []found) {
	s.t.Helper()
	var got []found
	for until := time.Now().Add(soon); time.Now().Before(until); time.Sleep(settle) {
		if got = s.newestOr().Findings; slices.Equal(got, want) {
			return
		}
	}
	s.t.Errorf("seed %d: %d findings in the window, %d from dusksheet", s.seed, len(got), len(want))
	for _, f := range got {
		if !slices.Contains(want, f) {
			s.t.Errorf("only in the window: %+v", f)
		}
	}
	for _, f := range want {
		if !slices.Contains(got, f) {
			s.t.Errorf("only from dusksheet: %+v", f)
		}
	}
}

type soaking struct {
	*program
	r           *rand.Rand
	seed        uint64
	acts, beats int
}

// soakKeys are pressed at random. Those that ask for a file, replace the scheme or
// end the program are not among them: a blind hand must not write over files. Nor
// is the price list, whose sheet comes when a worker is done and can write files.
// Nor is Ctrl+D: at each change of theme the toolkit reads its fonts again and its
// text shaper keeps the old ones, more than a megabyte, which would hide a leak
// of ours. It is pressed twice at the start.
var soakKeys = strings.Fields("v p b l r g s a w t d n c e u m o i h at Escape Escape Return Return BackSpace Delete space Tab shift+Tab Up Down Left Right " +
	"shift+Right ctrl+Right ctrl+shift+Up bracketleft bracketright braceleft 1 2 3 4 5 6 period comma less minus plus f Home Prior Next question Menu F6 F7 F8 F9 " +
	"ctrl+z ctrl+z ctrl+y ctrl+a ctrl+k ctrl+g ctrl+b ctrl+j ctrl+1 ctrl+2 ctrl+3 ctrl+4 ctrl+5 ctrl+6 ctrl+7 ctrl+8 ctrl+9 ctrl+h ctrl+0 ctrl+equal ctrl+minus " +
	"ctrl+c ctrl+v ctrl+x ctrl+i ctrl+l ctrl+m ctrl+r ctrl+u ctrl+shift+4 ctrl+shift+7 ctrl+shift+a ctrl+shift+b ctrl+shift+c ctrl+shift+d ctrl+shift+f ctrl+shift+g " +
	"ctrl+shift+h ctrl+shift+i ctrl+shift+j ctrl+shift+k ctrl+shift+l ctrl+shift+m ctrl+shift+n ctrl+shift+o ctrl+shift+r ctrl+shift+v ctrl+shift+w ctrl+shift+x " +
	"ctrl+alt+Left ctrl+alt+Right ctrl+alt+Up ctrl+alt+Down")

// soakSheets open a sheet, or with nothing fit for it selected only say so: what a
// sheet answers to is in sheetKeys, none of which presses a button.
var (
	soakSheets = strings.Fields("ctrl+p F1 ctrl+f ctrl+t ctrl+h ctrl+i ctrl+shift+e ctrl+shift+p ctrl+shift+t")
	sheetKeys  = strings.Fields("Tab Tab shift+Tab Down Up Left Right Next Prior Home End plus minus 0 1 2 w BackSpace")
	standKeys  = strings.Fields("Left Right Up Down shift+Left plus minus Next Prior Return")
	drawing    = strings.Fields("r r a w d n c p b l t e") // tools that are clicked with
	typing     = strings.Fields("1 2 3 5 8 0 period m less 9 comma at minus")
	reading    = strings.Fields("Tab Tab Down Up Return 0 1 2 period 5 M shift+Tab")
)

// burst does some twenty random acts in one go.
func (s *soaking) burst() {
	s.t.Helper()
	b := &burst{soaking: s}
	for range 20 {
		s.acts++
		b.act()
		b.wait("0.02")
	}
	s.do(b.args...)
}

// burst is what xdotool is to do in one call.
type burst struct {
	*soaking
	args []string
}

func (b *burst) add(args ...string) { b.args = append(b.args, args...) }

func (b *burst) wait(seconds string) { b.add("sleep", seconds) }

func (b *burst) num(low, high int) string { return strconv.Itoa(low + b.r.IntN(high-low)) }

// keys presses a number of keys out of some.
func (b *burst) keys(n int, of []string) {
	for range n {
		b.add("key", of[b.r.IntN(len(of))])
		b.wait("0.02")
	}
}

func (b *burst) point() {
	if b.r.IntN(10) < 8 { // mostly on the plan
		v := b.last.View
		b.add("mousemove", b.num(int(v.Left)+5, int(v.Left+v.Width)-5), b.num(int(v.Top)+5, int(v.Top+v.Height)-5))
	} else {
		b.add("mousemove", b.num(5, 1275), b.num(40, 795)) // not the menu bar
	}
	b.wait("0.02")
}

// act is one random act of a hand.
func (b *burst) act() {
	switch k := b.r.IntN(27); {
	case k < 6:
		b.point()
		b.add("click", "1")
	case k < 8: // drag
		b.point()
		b.add("mousedown", "1", "sleep", "0.02")
		b.point()
		b.point()
		b.add("mouseup", "1")
	case k < 10:
		b.point()
		b.add("click", b.num(4, 6)) // wheel
	case k == 10: // drag the view
		b.point()
		b.add("mousedown", "2", "sleep", "0.02")
		b.point()
		b.add("mouseup", "2")
	case k == 11:
		b.point()
		b.add("click", "3", "sleep", "0.03", "key", "Escape")
	case k == 12:
		b.point()
		b.add("click", "--repeat", "2", "1")
	case k < 16:
		b.draw()
	case k == 16:
		b.keys(1, soakSheets)
		b.wait("0.1")
		b.keys(b.r.IntN(6), sheetKeys)
		b.add("key", "Escape", "sleep", "0.02", "key", "Escape")
	case k == 17:
		b.stand()
	case k == 18:
		b.add("key", "ctrl+shift+7", "sleep", "0.1")
		b.keys(2+b.r.IntN(8), reading)
		b.add("key", "Escape", "sleep", "0.02", "key", "Escape")
	default:
		b.keys(1, soakKeys)
	}
}

// draw takes a tool that draws, clicks, types something like a length and commits it.
func (b *burst) draw() {
	b.add("key", "Escape")
	b.keys(1, drawing)
	b.point()
	b.add("click", "1")
	for range 1 + b.r.IntN(2) {
		b.point()
		b.keys(1+b.r.IntN(4), typing)
		b.add("key", "Return")
	}
	b.add("key", []string{"Return", "Escape", "BackSpace"}[b.r.IntN(3)])
}

// stand looks round in the standing view, which needs an eye point to show anything.
func (b *burst) stand() {
	b.add("key", "Escape", "sleep", "0.02", "key", "e")
	b.point()
	b.add("click", "1", "sleep", "0.02", "key", "ctrl+shift+4", "sleep", "0.1")
	b.keys(b.r.IntN(8), standKeys)
	if b.r.IntN(3) > 0 {
		b.add("key", "ctrl+shift+4")
	}
}

// calm ends what is open and half done: a menu or list over a field, the field, the
// sheet it is on and one below, a standing view or readings that have the keyboard,
// what is drawn, the tool and the selection.
func (s *soaking) calm() {
	s.t.Helper()
	s.do("mouseup", "1", "mouseup", "2", "mouseup", "3")
	var args []string
	for range 8 {
		args = append(args, "key", "Escape", "sleep", "0.05")
	}
	s.do(args...)
}

// mostThings is how many things the plan may hold: what is pasted again and again
// would double until the memory said more of the plan than of leaks.
const mostThings = 150

// trim takes back steps while the plan holds too much. The next edit throws away
// what could be done again.
func (s *soaking) trim() {
	s.t.Helper()
	for range 10 {
		if f := s.newestOr(); len(f.Places)+len(f.Runs) <= mostThings || f.Undo == "" {
			return
		}
		s.do("key", "--repeat", "40", "--delay", "20", "ctrl+z")
	}
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
