package ui

import (
	"context"
	"time"
)

// How often at most something is done anew while a gesture goes on: often enough
// to be followed by the eye, seldom enough to leave the frames to the plan.
const (
	panelsEvery  = 80 * time.Millisecond
	figuresEvery = 120 * time.Millisecond // of a plan too large to be worked out in a frame
	lightEvery   = 250 * time.Millisecond // findings of light, of a scheme that was changed
	coilsEvery   = 250 * time.Millisecond // plans of long cut lists, the same
	// framesFirst is how long light and coils, which take a core for a tenth of a
	// second, leave the cores to the frames after an edit.
	framesFirst = 200 * time.Millisecond
	// pictureFirst is how long the figures of a large edit leave the cores to its frame
	// and to the picture of the plan.
	pictureFirst  = 60 * time.Millisecond
	picturesEvery = 60 * time.Millisecond // of a plan too large to be drawn in a frame
)

// paced returns what does work for board or desk in a worker, at most that often.
// A long work is followed by a rest as long, which is the frames', and begins no
// sooner than first after it was asked for.
func (w *Window) paced(key string, every, first time.Duration) func(take func() (work, done func())) {
	return w.pacedIn(&lane{}, key, every, first)
}

// pacedIn is paced for work that takes turns with other work in the lane.
func (w *Window) pacedIn(l *lane, key string, every, first time.Duration) func(take func() (work, done func())) {
	p := &pace{later: w.pace.later, first: first}
	return func(take func() (work, done func())) {
		p.do(true, func() {
			l.enter(func() {
				work, done := take()
				if work == nil {
					l.leave()
					return
				}
				begun := time.Now()
				Run(w.bridge, key, func(context.Context) (struct{}, error) {
					work()
					return struct{}{}, nil
				}, func(struct{}, error) {
					p.last, p.every = begun, max(every, 2*time.Since(begun))
					done()
					l.leave()
				})
			})
		})
	}
}

// pace spaces out what would otherwise be done with every move of a gesture.
type pace struct {
	every time.Duration
	first time.Duration               // least wait of what may be put off
	later func(time.Duration, func()) // calls back on the UI goroutine; nil: nothing is put off
	now   func() time.Time            // nil: time.Now
	last  time.Time
	due   bool
}

// do does f: at once when moving is false, otherwise at once or a little later,
// and then only once for all that came in between.
func (p *pace) do(moving bool, f func()) {
	clock := time.Now
	if p.now != nil {
		clock = p.now
	}
	if moving && p.later != nil {
		if p.due {
			return
		}
		if wait := max(p.every-clock().Sub(p.last), p.first); wait > 0 {
			p.due = true
			p.later(wait, func() {
				if p.due {
					p.do(false, f)
				}
			})
			return
		}
	}
	p.due = false
	f()
	p.last = clock()
}
