//go:build e2e

package main_test

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"
)

// Times of the hand at the mouse. The toolkit looks at the pointer 60 times a
// second and puts moves between two looks into one, so a click that follows a
// move at once may land where the pointer was before.
const (
	settle = 80 * time.Millisecond
	soon   = 20 * time.Second // for anything that should happen at once
	start  = 60 * time.Second // for the window to stand, on a busy machine
)

// screen is a display without a monitor, with one program on it.
type screen struct {
	t       *testing.T
	display string
	home    string
	out     string // folder for pictures
}

// newScreen starts an X server of the size given on a free display.
func newScreen(t *testing.T, width, height int) *screen {
	t.Helper()
	for _, tool := range []string{"Xvfb", "xdotool", "import"} {
		if _, err := exec.LookPath(tool); err == nil {
			continue
		}
		if os.Getenv("CI") == "true" {
			t.Fatalf("%s is not installed: run make test-packages", tool)
		}
		t.Skipf("*** SKIPPED: %s IS NOT INSTALLED, SO THE WINDOW WAS NOT TESTED (make test-packages installs it) ***", tool)
	}
	s := &screen{t: t, home: t.TempDir(), out: os.Getenv("DUSKWIRE_OUT")}
	if s.out == "" {
		s.out = t.TempDir()
	}
	// The toolkit makes its cache one level below and gives up without it.
	if err := os.MkdirAll(filepath.Join(s.home, ".cache"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.MkdirAll(s.out, 0o755); err != nil {
		t.Fatal(err)
	}
	read, write, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer read.Close()
	server := exec.Command("Xvfb", "-displayfd", "3", "-screen", "0", fmt.Sprintf("%dx%dx24", width, height), "-noreset", "-nolisten", "tcp")
	server.ExtraFiles = []*os.File{write}
	if err := server.Start(); err != nil {
		t.Fatal(err)
	}
	write.Close()
	t.Cleanup(func() { kill(server) })
	number := make(chan string, 1)
	go func() {
		line, _ := bufio.NewReader(read).ReadString('\n')
		number <- strings.TrimSpace(line)
	}()
	select {
	case n := <-number:
		if n == "" {
			t.Fatal("Xvfb did not start")
		}
		s.display = ":" + n
	case <-time.After(soon):
		t.Fatal("Xvfb did not say its display")
	}
	return s
}

// kill ends a process that we started, the hard way, and waits for it.
func kill(c *exec.Cmd) {
	if c.Process == nil {
		return
	}
	_ = c.Process.Signal(syscall.SIGKILL)
	_ = c.Wait()
}

func (s *screen) env(more ...string) []string {
	env := []string{
		"DISPLAY=" + s.display, "HOME=" + s.home, "XDG_CONFIG_HOME=" + filepath.Join(s.home, ".config"),
		"PATH=" + os.Getenv("PATH"), "LANG=C.UTF-8", "TZ=UTC", "FYNE_THEME=light",
		"DBUS_SESSION_BUS_ADDRESS=unix:path=/nonexistent", "LIBGL_ALWAYS_SOFTWARE=1",
	}
	return append(env, more...)
}

// program is the window under test.
type program struct {
	*screen
	cmd   *exec.Cmd
	ended chan error
	trace string
	log   bytes.Buffer
	last  frame
}

// run starts the program and waits until its window stands.
func (s *screen) run(scale string, args ...string) *program {
	s.t.Helper()
	p := s.begin(scale, []string{"DUSKWIRE_NO_WELCOME=1"}, args...)
	p.settled()
	return p
}

// begin starts the program with more in its environment and waits until its
// window is there. It does not touch the pointer.
func (s *screen) begin(scale string, more []string, args ...string) *program {
	s.t.Helper()
	p := &program{screen: s, trace: filepath.Join(s.home, "trace.jsonl"), ended: make(chan error, 1)}
	p.cmd = exec.Command(binary(s.t, "DUSKWIRE_BIN", "duskwire"), args...)
	p.cmd.Env = append(s.env("FYNE_SCALE="+scale, "DUSKWIRE_READY=1", "DUSKWIRE_TRACE="+p.trace), more...)
	p.cmd.Dir = s.home
	stdout, err := p.cmd.StdoutPipe()
	if err != nil {
		s.t.Fatal(err)
	}
	p.cmd.Stderr = &p.log
	if err := p.cmd.Start(); err != nil {
		s.t.Fatal(err)
	}
	ready := make(chan bool, 1)
	go func() {
		lines := bufio.NewScanner(stdout)
		for lines.Scan() {
			if strings.TrimSpace(lines.Text()) == "READY" {
				ready <- true
			}
		}
		_, _ = io.Copy(io.Discard, stdout)
		p.ended <- p.cmd.Wait()
	}()
	s.t.Cleanup(func() { _ = p.cmd.Process.Signal(syscall.SIGKILL) })
	s.t.Cleanup(p.holds)
	select {
	case <-ready:
	case err := <-p.ended:
		s.t.Fatalf("the program ended before its window stood: %v\n%s", err, p.log.String())
	case <-time.After(start):
		s.picture("failed.png")
		s.t.Fatalf("no READY after %v\n%s", start, p.log.String())
	}
	return p
}

// settled waits until the window has been laid out: the view in the trace
// stays as it is while the pointer moves over the middle.
func (p *program) settled() {
	p.t.Helper()
	x, y := 400, 300
	var before frame
	p.await("a window that stands still", func(f *frame) bool {
		same := f.View == before.View && f.View.Width > 100 && f.View.PerMetre > 0
		before = *f
		x, y = x+3, y+2
		p.moveTo(x, y)
		time.Sleep(3 * settle)
		return same
	})
}

// binary returns the program named by an environment variable, or builds it.
func binary(t *testing.T, variable, name string) string {
	t.Helper()
	if path := os.Getenv(variable); path != "" {
		return path
	}
	path := filepath.Join(t.TempDir(), name)
	build := exec.Command("go", "build", "-tags", "x11,migrated_fynedo", "-o", path, "duskwire/cmd/"+name)
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("building %s: %v\n%s", name, err, out)
	}
	return path
}

// do calls xdotool.
func (s *screen) do(args ...string) {
	s.t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), soon)
	defer cancel()
	cmd := exec.CommandContext(ctx, "xdotool", args...)
	cmd.Env = s.env()
	if out, err := cmd.CombinedOutput(); err != nil {
		s.t.Fatalf("xdotool %v: %v\n%s", args, err, out)
	}
	time.Sleep(settle)
}

func (s *screen) key(names ...string) {
	s.t.Helper()
	for _, n := range names {
		s.do("key", n)
	}
}

func (s *screen) moveTo(x, y int) {
	s.t.Helper()
	s.do("mousemove", strconv.Itoa(x), strconv.Itoa(y))
}

func (s *screen) clickAt(x, y int) {
	s.t.Helper()
	s.moveTo(x, y)
	s.do("mousedown", "1")
	s.do("mouseup", "1")
}

// picture writes what is on the screen to a PNG in the out folder.
func (s *screen) picture(name string) string {
	s.t.Helper()
	path := filepath.Join(s.out, name)
	ctx, cancel := context.WithTimeout(context.Background(), soon)
	defer cancel()
	cmd := exec.CommandContext(ctx, "import", "-window", "root", path)
	cmd.Env = s.env()
	if out, err := cmd.CombinedOutput(); err != nil {
		s.t.Errorf("import: %v\n%s", err, out)
	}
	return path
}

// frame is one line of the trace; see ui/trace.go.
type frame struct {
	Seq     uint64
	Preview bool
	Behind  bool // something shown is of an earlier frame and follows
	Unsaved bool
	Path    string
	Undo    string
	Redo    string
	Places  []struct {
		Tag string
		X   float64 `json:"x_m"`
		Y   float64 `json:"y_m"`
	}
	Runs     []string
	Findings []found
	Totals   struct {
		Lamps  int
		Cable  float64 `json:"cut_length_m"`
		Stop   int
		Decide int
		Note   int
	}
	Rows []string
	View struct {
		Left     float64 `json:"left_px"`
		Top      float64 `json:"top_px"`
		Width    float64 `json:"width_px"`
		Height   float64 `json:"height_px"`
		PerMetre float64 `json:"pixels_per_metre"`
		X        float64 `json:"x_m"`
		Y        float64 `json:"y_m"`
	}
}

// found is a finding as both the trace and dusksheet write it.
type found struct {
	Code, Level, Subject, Text, Figure, Limit string
}

func (f *frame) place(tag string) (x, y float64, ok bool) {
	for _, p := range f.Places {
		if p.Tag == tag {
			return p.X, p.Y, true
		}
	}
	return 0, 0, false
}

// pixel returns where a plan point is in the window.
func (p *program) pixel(x, y float64) (int, int) {
	v := p.last.View
	return int(v.Left + (x-v.X)*v.PerMetre + 0.5), int(v.Top - (y-v.Y)*v.PerMetre + 0.5)
}

// click presses and lets go over a plan point.
func (p *program) click(x, y float64) {
	p.t.Helper()
	p.clickAt(p.pixel(x, y))
}

// drag takes hold at one plan point and lets go at another, in steps as a
// hand does.
func (p *program) drag(x, y, toX, toY float64) {
	p.t.Helper()
	p.moveTo(p.pixel(x, y))
	p.do("mousedown", "1")
	const steps = 8
	for i := 1; i <= steps; i++ {
		k := float64(i) / steps
		p.moveTo(p.pixel(x+k*(toX-x), y+k*(toY-y)))
	}
	p.do("mouseup", "1")
}

// await reads the trace until its last line satisfies the condition and everything
// that follows an edit has followed.
func (p *program) await(what string, ok func(*frame) bool) *frame {
	p.t.Helper()
	for until := time.Now().Add(soon); time.Now().Before(until); time.Sleep(settle / 2) {
		f, err := p.newest()
		if err != nil {
			p.t.Fatal(err)
		}
		if f != nil {
			p.last = *f
			if ok(f) && (f.Preview || !f.Behind) {
				return f
			}
		}
	}
	p.picture("failed.png")
	p.t.Fatalf("waited %v in vain for %s; last frame: %+v\nprogram said: %s", soon, what, p.last, p.log.String())
	return nil
}

// newest returns the last whole line of the trace, nil when there is none.
func (p *program) newest() (*frame, error) {
	data, err := os.ReadFile(p.trace)
	if errors.Is(err, os.ErrNotExist) {
		return nil, nil
	}
	end := bytes.LastIndexByte(data, '\n')
	if err != nil || end < 0 {
		return nil, err
	}
	line := data[bytes.LastIndexByte(data[:end], '\n')+1 : end]
	for bytes.HasPrefix(line, []byte(heldLine)) { // says nothing of what is shown
		if end -= len(line) + 1; end < 0 {
			return nil, nil
		}
		line = data[bytes.LastIndexByte(data[:end], '\n')+1 : end]
	}
	var f frame
	return &f, json.Unmarshal(line, &f)
}

// heldLine begins a line of the trace that says how long the window did not look at
// pointer and keys.
const heldLine = `{"held_ms":`

// holds prints how long the window did not look at pointer and keys at most. It is no check: the
// clock of a busy machine proves nothing.
func (p *program) holds() {
	data, _ := os.ReadFile(p.trace)
	n, most := 0, 0.0
	for line := range strings.Lines(string(data)) {
		var h struct {
			Held float64 `json:"held_ms"`
		}
		if strings.HasPrefix(line, heldLine) && json.Unmarshal([]byte(line), &h) == nil {
			n, most = n+1, max(most, h.Held)
		}
	}
	p.t.Logf("the window did not look at pointer and keys for more than 50 ms %d times, for %.0f ms at most", n, most)
}

// quit asks the program to end and says whether it did in time.
func (p *program) quit() {
	p.t.Helper()
	p.key("ctrl+q")
	select {
	case err := <-p.ended:
		if err != nil {
			p.t.Errorf("the program ended with %v\n%s", err, p.log.String())
		}
	case <-time.After(soon):
		p.picture("failed.png")
		p.t.Errorf("the program still ran %v after Ctrl+Q", soon)
	}
}
