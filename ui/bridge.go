package ui

import (
	"context"

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
	current map[string]*job
	closed  bool
}

type job struct{ cancel context.CancelFunc }

// NewBridge returns a bridge that posts results with post; nil means fyne.Do.
// Tests pass a queue that they empty themselves.
func NewBridge(post func(func())) *Bridge {
	if post == nil {
		post = fyne.Do
	}
	return &Bridge{post: post, current: map[string]*job{}}
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

// Run does work on a goroutine of its own and hands the result to done on the
// UI goroutine. The work must only look at what it was given: an immutable
// scheme, a path.
func Run[T any](b *Bridge, key string, work func(context.Context) (T, error), done func(T, error)) {
	if b.closed {
		return
	}
	if old := b.current[key]; old != nil {
		old.cancel()
	}
	ctx, cancel := context.WithCancel(context.Background())
	mine := &job{cancel}
	b.current[key] = mine
	go func() {
		result, err := work(ctx)
		b.post(func() {
			if b.closed || b.current[key] != mine {
				return
			}
			delete(b.current, key)
			cancel()
			done(result, err)
		})
	}()
}
