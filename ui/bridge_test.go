package ui

import (
	"context"
	"errors"
	"slices"
	"testing"
	"time"

	"fyne.io/fyne/v2/test"
)

// clockBridge is a bridge whose timers fire when the test says so.
func clockBridge() (b *Bridge, queue chan func(), fire func()) {
	queue = make(chan func(), 16)
	b = NewBridge(func(f func()) { queue <- f })
	timers := make(chan func(), 16)
	b.later = func(_ time.Duration, f func()) { timers <- f }
	fire = func() {
		for {
			select {
			case f := <-timers:
				f()
				(<-queue)()
			default:
				return
			}
		}
	}
	return b, queue, fire
}

// Long work is shown with what it says of itself; short work never is.
func TestLongWorkIsShown(t *testing.T) {
	b, queue, fire := clockBridge()
	var shown []Progress
	b.OnShown = func(list []Progress) { shown = list }
	said, goOn := make(chan bool), make(chan bool)
	var got int
	RunTask(b, Task{Key: "k", Title: "Opening a.yaml"}, func(_ context.Context, report Report) (int, error) {
		report(0.25, "reading")
		said <- true
		<-goOn
		return 7, nil
	}, func(n int, _ error) { got = n })
	<-said
	if shown != nil {
		t.Fatalf("shown at once: %+v", shown)
	}
	fire()
	if len(shown) != 1 || shown[0].Title != "Opening a.yaml" || shown[0].Share != 0.25 || shown[0].Step != "reading" {
		t.Fatalf("shown %+v", shown)
	}
	close(goOn)
	(<-queue)()
	if got != 7 || len(shown) != 0 {
		t.Errorf("result %d, still shown %+v", got, shown)
	}
	RunTask(b, Task{Key: "k", Title: "Short"}, func(context.Context, Report) (int, error) { return 8, nil }, func(n int, _ error) { got = n })
	(<-queue)()
	fire()
	if got != 8 || len(shown) != 0 {
		t.Errorf("result %d, shown %+v after the end", got, shown)
	}
}

// Cancel drops work that changes nothing at once, and waits for the end of
// work that may have written.
func TestCancel(t *testing.T) {
	for _, whole := range []bool{false, true} {
		b, queue, fire := clockBridge()
		var shown []Progress
		b.OnShown = func(list []Progress) { shown = list }
		goOn := make(chan bool)
		var ended []error
		RunTask(b, Task{Key: "k", Title: "Work", Whole: whole}, func(ctx context.Context, _ Report) (int, error) {
			<-goOn
			return 1, ctx.Err()
		}, func(_ int, err error) { ended = append(ended, err) })
		fire()
		shown[0].Cancel()
		if whole && (len(ended) != 0 || len(shown) != 1 || !shown[0].Stopping) {
			t.Errorf("work that may have written: ended %v, shown %+v", ended, shown)
		}
		if !whole && (len(ended) != 1 || len(shown) != 0) {
			t.Errorf("other work: ended %v, shown %+v", ended, shown)
		}
		close(goOn)
		(<-queue)()
		if len(ended) != 1 || !errors.Is(ended[0], context.Canceled) || b.Busy("k") {
			t.Errorf("whole %v: ended %v", whole, ended)
		}
	}
}

// The row lies over the line of help while there is something to show.
func TestProgressRow(t *testing.T) {
	test.NewTempApp(t)
	p := newProgressRow()
	if p.box.Visible() {
		t.Error("visible with nothing to show")
	}
	cancelled := 0
	p.show([]Progress{{Title: "Saving a.pdf", Share: -1, Step: "drawing", Cancel: func() { cancelled++ }}, {Title: "Other"}})
	if !p.box.Visible() || p.text.Text != "Saving a.pdf: drawing (and 1 more)…" || p.bar.Visible() {
		t.Errorf("row %q, bar %v", p.text.Text, p.bar.Visible())
	}
	test.Tap(p.cancel)
	if cancelled != 1 {
		t.Error("the button does not cancel")
	}
	p.show([]Progress{{Title: "Saving a.pdf", Stopping: true}})
	if !p.cancel.Disabled() || p.text.Text != "Stopping: saving a.pdf…" {
		t.Errorf("row %q", p.text.Text)
	}
	p.show(nil)
	if p.box.Visible() {
		t.Error("still visible")
	}
}

// TestGathered: what is posted from many goroutines comes in one turn of the
// toolkit, in the order of each; what is asked for meanwhile waits for the next.
func TestGathered(t *testing.T) {
	var turns []func()
	post := func(f func()) { turns = append(turns, f) }
	g := &gathered{post: post, again: post, now: func() time.Time { return time.Time{} }}
	var got []int
	for i := range 5 {
		g.do(func() {
			got = append(got, i)
			if i == 2 {
				g.do(func() { got = append(got, 100) })
			}
		})
	}
	if len(turns) != 1 {
		t.Fatalf("%d turns for what came together", len(turns))
	}
	turns[0]()
	if !slices.Equal(got, []int{0, 1, 2, 3, 4}) || len(turns) != 2 {
		t.Fatalf("done %v, %d turns asked for", got, len(turns))
	}
	turns[1]()
	if got[5] != 100 {
		t.Error("what was asked for during a turn was lost")
	}
}

// TestGatheredLong: after something that took long the rest waits for the next turn,
// in its order and before what was asked for since; nothing is left over.
func TestGatheredLong(t *testing.T) {
	var turns []func()
	var clock time.Time
	post := func(f func()) { turns = append(turns, f) }
	g := &gathered{post: post, again: post, now: func() time.Time { return clock }}
	var got []int
	work := func(name int, takes time.Duration) {
		g.do(func() { got, clock = append(got, name), clock.Add(takes) })
	}
	work(0, turnLong/3)
	work(1, turnLong)
	work(2, 2*turnLong)
	work(3, 0)
	for i, want := range [][]int{{0, 1}, {0, 1, 2}, {0, 1, 2, 3, 4}} {
		if len(turns) != i+1 {
			t.Fatalf("%d turns asked for, expected %d", len(turns), i+1)
		}
		turns[i]()
		if !slices.Equal(got, want) {
			t.Fatalf("done %v after turn %d, expected %v", got, i+1, want)
		}
		if i == 1 {
			work(4, 0)
		}
	}
	if len(turns) != 3 {
		t.Errorf("%d turns asked for when nothing was left", len(turns))
	}
}
