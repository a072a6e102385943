package ui

import (
	"context"
	"sync"
	"time"

	"fyne.io/fyne/v2"
)

// Bridge is the one place where work leaves the UI goroutine and where its
// results come back. Nothing else under ui starts a goroutine or calls
// fyne.Do, so every other method may assume that it runs on the UI goroutine.
//
// Work with the same key supersedes itself: the older job's context is
// cancelled and its result is dropped. After Close every result is dropped,
// because a window that is gone must not be touched.
type Bridge struct {
	post    func(func())
	later   func(time.Duration, func()) // calls back on any goroutine
	current map[string]*job
	started int
	closed  bool
	// OnShown is told of the work that has become long, oldest first, whenever
	// the list or what it says has changed; nil for nobody.
	OnShown func([]Progress)
}

// Task names work that is shown when it takes long.
type Task struct {
	Key   string
	Title string // "Opening garden.yaml"; "" for work that is never shown
	// Whole says that the work may change something outside, such as a file.
	// After Cancel its own end is then awaited, because only that tells whether
	// it has. Other work is dropped at once.
	Whole bool
}

// Progress is what is shown of work that takes long.
type Progress struct {
	Title    string
	Share    float64 // done, 0 to 1; below 0 when nobody knows
	Step     string  // what it does now, "" for nothing to say
	Stopping bool    // cancelled, and its end is awaited
	Cancel   func()
}

// Report says from inside the work how far it has come. It may be called from
// the goroutine of the work, as often as it likes.
type Report func(share float64, step string)

// Work is shown when it takes longer than showAfter, and what it says is
// followed that often at most.
const (
	showAfter   = 150 * time.Millisecond
	followEvery = 100 * time.Millisecond
)

type job struct {
	task    Task
	order   int
	cancel  context.CancelFunc
	abandon func() // tells whoever waits that it was cancelled
	shown   bool
	stopped bool

	mu     sync.Mutex // of what the work itself says
	share  float64
	step   string
	queued bool // a look at it is on its way to the UI goroutine
}

// NewBridge returns a bridge that posts results with post; nil means fyne.Do and the
// frames of the toolkit, see gathered.
// Tests pass a queue that they empty themselves; work is then not shown
// unless the test sets later.
func NewBridge(post func(func())) *Bridge {
	b := &Bridge{post: post, later: func(time.Duration, func()) {}, current: map[string]*job{}}
	if post == nil {
		b.post = (&gathered{post: func(f func()) { fyne.Do(func() { nextFrame(f) }) }, again: nextFrame, now: time.Now}).do
		b.later = func(d time.Duration, f func()) { time.AfterFunc(d, f) }
	}
	return b
}

// Drop cancels work that nobody waits for any more; its end is told to nobody. It
// is called on the UI goroutine.
func (b *Bridge) Drop(key string) {
	if j := b.current[key]; j != nil {
		j.cancel()
		delete(b.current, key)
		b.tell()
	}
}

// turnLong is the time after which what is still to be done on the UI goroutine
// waits for the next frame.
const turnLong = 6 * time.Millisecond

// gathered hands on what is to be done on the UI goroutine, as much of it a turn as
// takes no long time. With one turn a frame the window looks at pointer and keys
// between any two.
type gathered struct {
	post  func(func()) // does something in a turn to come, asked from anywhere
	again func(func()) // likewise, asked in a turn
	now   func() time.Time
	mu    sync.Mutex
	queue []func()
	asked bool // the next turn is on its way
}

func (g *gathered) do(f func()) {
	g.mu.Lock()
	g.queue = append(g.queue, f)
	first := !g.asked
	g.asked = true
	g.mu.Unlock()
	if first {
		g.post(g.drain)
	}
}

// drain does what is queued, in its order, until that has taken long; the rest, and
// what it asks for itself, waits for the next turn.
func (g *gathered) drain() {
	begun, long := g.now(), false
	g.mu.Lock()
	for n := len(g.queue); n > 0 && !long; n-- {
		f := g.queue[0]
		g.queue = g.queue[1:]
		g.mu.Unlock()
		f()
		long = g.now().Sub(begun) >= turnLong
		g.mu.Lock()
	}
	g.asked = len(g.queue) > 0
	again := g.asked
	g.mu.Unlock()
	if again {
		g.again(g.drain)
	}
}

// nextFrame does f in the next frame: the toolkit ticks its animations between its
// look at pointer and keys and the paint. What is given to fyne.Do comes in any number
// before the next look, and while frames take longer than a tick the toolkit tosses a
// coin between the two. It is called on the UI goroutine: an animation started
// elsewhere is lost when the last one ends just then.
func nextFrame(f func()) {
	a := &fyne.Animation{Duration: time.Hour}
	a.Tick = func(float32) {
		a.Stop()
		f()
	}
	a.Start()
}

// Close cancels all work and drops every result still under way. It is called
// on the UI goroutine, as are Run and Busy.
func (b *Bridge) Close() {
	b.closed = true
	for key, j := range b.current {
		j.cancel()
		delete(b.current, key)
	}
}

// Busy reports whether work with the key is under way.
func (b *Bridge) Busy(key string) bool { return b.current[key] != nil }

// After returns what calls back on the UI goroutine after a while; nil when
// results come through a queue that a test empties.
func (b *Bridge) After() func(time.Duration, func()) {
	return func(d time.Duration, f func()) { b.later(d, func() { b.Tell(f) }) }
}

// Tell does f on the UI goroutine; it is the only method for other goroutines.
func (b *Bridge) Tell(f func()) {
	b.post(func() {
		if !b.closed {
			f()
		}
	})
}

// Run does work on a goroutine of its own and hands the result to done on the
// UI goroutine. The work must only look at what it was given: an immutable
// scheme, a path.
func Run[T any](b *Bridge, key string, work func(context.Context) (T, error), done func(T, error)) {
	RunTask(b, Task{Key: key}, func(ctx context.Context, _ Report) (T, error) { return work(ctx) }, done)
}

// RunTask is Run for work that is shown, and can be cancelled, when it takes
// long. Of cancelled work done gets context.Canceled; see Task.Whole.
func RunTask[T any](b *Bridge, task Task, work func(context.Context, Report) (T, error), done func(T, error)) {
	if b.closed {
		return
	}
	if old := b.current[task.Key]; old != nil {
		old.cancel()
	}
	ctx, cancel := context.WithCancel(context.Background())
	b.started++
	mine := &job{task: task, order: b.started, cancel: cancel, share: -1}
	mine.abandon = func() {
		var none T
		done(none, context.Canceled)
	}
	b.current[task.Key] = mine
	if task.Title != "" {
		b.later(showAfter, func() { b.Tell(func() { b.show(mine) }) })
	}
	go func() {
		result, err := work(ctx, func(share float64, step string) { b.follow(mine, share, step) })
		b.post(func() {
			if b.closed || b.current[task.Key] != mine {
				return
			}
			delete(b.current, task.Key)
			cancel()
			b.tell()
			done(result, err)
		})
	}()
}

// show puts a job that has become long among those that are shown.
func (b *Bridge) show(j *job) {
	if b.current[j.task.Key] == j {
		j.shown = true
		b.tell()
	}
}

// follow takes what the work says of itself, on the goroutine of the work.
func (b *Bridge) follow(j *job, share float64, step string) {
	j.mu.Lock()
	defer j.mu.Unlock()
	j.share, j.step = share, step
	if j.queued {
		return
	}
	j.queued = true
	b.later(followEvery, func() {
		b.Tell(func() {
			j.mu.Lock()
			j.queued = false
			j.mu.Unlock()
			if j.shown && b.current[j.task.Key] == j {
				b.tell()
			}
		})
	})
}

// stop cancels a job because a person wants it.
func (b *Bridge) stop(j *job) {
	if b.current[j.task.Key] != j || j.stopped {
		return
	}
	j.stopped = true
	j.cancel()
	if j.task.Whole {
		b.tell()
		return
	}
	delete(b.current, j.task.Key)
	b.tell()
	j.abandon()
}

// tell hands out the list of what is shown.
func (b *Bridge) tell() {
	if b.OnShown == nil {
		return
	}
	var jobs []*job
	for _, j := range b.current {
		if j.shown {
			at := 0
			for at < len(jobs) && jobs[at].order < j.order {
				at++
			}
			jobs = append(jobs[:at], append([]*job{j}, jobs[at:]...)...)
		}
	}
	var list []Progress
	for _, j := range jobs {
		j.mu.Lock()
		list = append(list, Progress{Title: j.task.Title, Share: j.share, Step: j.step, Stopping: j.stopped,
			Cancel: func() { b.stop(j) }})
		j.mu.Unlock()
	}
	b.OnShown(list)
}
