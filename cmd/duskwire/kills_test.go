//go:build e2e

package main_test

import (
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"syscall"
	"testing"
	"time"
)

// kept is how soon the journal promises an edit to be on the disk (2 s), with
// what a busy machine may add between the window and the trace.
const kept = 3 * time.Second

// TestKilledAtRandom draws lamps in the real window, ends it by SIGKILL at a
// random moment, takes up what the next start offers and draws on, over and over.
// No lamp of longer ago than the journal promises may be lost and none may appear
// that nobody drew. KILLS says how often; make soak asks for 50.
func TestKilledAtRandom(t *testing.T) {
	kills := 6
	if text := os.Getenv("KILLS"); text != "" {
		var err error
		if kills, err = strconv.Atoi(text); err != nil {
			t.Fatalf("KILLS: %v", err)
		}
	}
	if kills <= 0 {
		t.Skipf("KILLS is %d: nothing is killed", kills)
	}
	s := newScreen(t, 1280, 800)
	h := &crashing{screen: s, path: emptyScheme(t), r: rand.New(rand.NewPCG(3, 50))}
	for i := range kills {
		h.round(i)
	}
	if len(s.works()) == 0 {
		t.Fatalf("after %d kills there is no work on the disk", kills)
	}
	p := s.run("1")
	p.key("Return")
	h.found(p, kills)
	p.key("ctrl+s")
	p.await("a saved file", func(f *frame) bool { return !f.Unsaved })
	p.quit()
	if h.low < kills {
		t.Errorf("%d lamps after %d kills: hardly anything was drawn", h.low, kills)
	}
	t.Logf("%d kills of the window, %d of them with the offer open; %d lamps clicked, %d kept at the end; at most %d given up at a kill",
		kills, h.offers, h.total, h.low, h.most)
}

type crashing struct {
	*screen
	path      string
	r         *rand.Rand
	low, high int // lamps that must and that can be in the kept work
	total     int // clicks of all
	offers    int
	most      int // lamps that were seen and not kept
}

// round starts the window, takes up the work, draws and kills.
func (h *crashing) round(i int) {
	h.t.Helper()
	var args []string
	offered := len(h.works()) > 0
	if !offered { // killed before anything had to be kept
		args, h.high = []string{h.path}, 0
	}
	p := h.run("1", args...)
	after := time.Duration(h.r.IntN(6000)) * time.Millisecond
	if offered && i%5 == 4 { // while the offer is open
		h.offers++
		time.Sleep(after / 10)
		h.end(p)
		return
	}
	if offered {
		p.key("Return")
		h.found(p, i)
	}
	moment := time.Now().Add(after)
	dead := time.AfterFunc(after, func() { _ = p.cmd.Process.Signal(syscall.SIGKILL) })
	defer dead.Stop()
	var seen []sight
	for time.Now().Before(moment) {
		h.draw(p)
		if f, err := p.newest(); err == nil && f != nil {
			p.last = *f
			seen = append(seen, sight{time.Now(), f.Totals.Lamps})
		}
	}
	h.end(p)
	last := h.low
	for _, v := range seen {
		if last = max(last, v.lamps); v.at.Add(kept).Before(moment) {
			h.low = max(h.low, v.lamps)
		}
	}
	// What the next start finds is told now, so that a loss is told with its round.
	works := h.works()
	if len(works) == 0 && h.low > 0 {
		h.t.Fatalf("kill %d after %v: %d lamps were drawn, no work is on the disk", i, after, h.low)
	}
	if len(works) > 0 {
		h.most = max(h.most, last-slices.Max(works))
	}
}

// sight is how many lamps the window showed when.
type sight struct {
	at    time.Time
	lamps int
}

// draw places a lamp somewhere in the view.
func (h *crashing) draw(p *program) {
	h.t.Helper()
	v := p.last.View
	x, y := v.X+(0.1+0.8*h.r.Float64())*v.Width/v.PerMetre, v.Y-(0.1+0.6*h.r.Float64())*v.Height/v.PerMetre
	h.total, h.high = h.total+1, h.high+1
	p.key(keyLamp)
	p.click(x, y)
}

// end makes sure that the program is gone.
func (h *crashing) end(p *program) {
	h.t.Helper()
	_ = p.cmd.Process.Signal(syscall.SIGKILL)
	<-p.ended
	if err := os.Remove(p.trace); err != nil && !os.IsNotExist(err) {
		h.t.Fatal(err)
	}
}

// found looks at the work that was taken up.
func (h *crashing) found(p *program, round int) {
	h.t.Helper()
	f := p.await("the work that was taken up", func(f *frame) bool { return f.Unsaved && !f.Preview })
	n := f.Totals.Lamps
	if n < h.low || n > h.high {
		p.picture("failed.png")
		h.t.Fatalf("before round %d: %d lamps came back, want %d to %d", round, n, h.low, h.high)
	}
	h.low, h.high = n, n
}
