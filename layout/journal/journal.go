// Package journal keeps unsaved work where the end of the program cannot take
// it, and remembers small things from one start to the next. Each running
// window has a session folder of its own with a lock that the system lets go of
// when the process ends, however it ends; a session without its process is lost
// work, which the next start offers.
package journal

import (
	"errors"
	"os"
	"path/filepath"
	"sync"
	"time"

	"duskwire/layout/doc"
	"duskwire/layout/file"
)

// Folder returns where the program keeps its state: the folder named by
// DUSKWIRE_STATE, else one in the user's folder for settings. It does not make
// it.
func Folder() (string, error) {
	if f := os.Getenv("DUSKWIRE_STATE"); f != "" {
		return f, nil
	}
	base, err := os.UserConfigDir()
	if err != nil {
		return "", err
	}
	return filepath.Join(base, "duskwire", "state"), nil
}

// Config says how a journal writes.
type Config struct {
	State string // see Folder
	// Quiet is how long the drawing has to rest before it is written, Latest
	// how long at most work stays unwritten while it does not rest; 0 stands for
	// the usual times.
	Quiet, Latest time.Duration
	// Wrote is told of each state that is on the disk, Failed of a write that
	// failed after one that did not. Both are called in the journal's own
	// goroutine and may be nil.
	Wrote  func(Entry)
	Failed func(error)
}

// Usual times of a journal.
const (
	usualQuiet  = 400 * time.Millisecond
	usualLatest = 2 * time.Second
)

// Journal writes the newest unsaved state of one window. Note, Clear and Close
// may be called from any goroutine; Note and Clear never wait for the disk.
type Journal struct {
	cfg  Config
	wake chan struct{} // holds one
	stop chan struct{}
	done chan struct{}
	once sync.Once

	mu   sync.Mutex
	next note
}

// note is what is to be done next; waiting is false once it has been.
type note struct {
	waiting bool
	scheme  *doc.Scheme // nil: there is nothing to keep
	path    string
	since   time.Time // of the oldest state that was not written
	last    time.Time // of this one
}

// Start returns a journal for this process. Nothing is on the disk before the
// first unsaved state.
func Start(cfg Config) *Journal {
	if cfg.Quiet == 0 {
		cfg.Quiet = usualQuiet
	}
	if cfg.Latest == 0 {
		cfg.Latest = usualLatest
	}
	j := &Journal{cfg: cfg, wake: make(chan struct{}, 1), stop: make(chan struct{}), done: make(chan struct{})}
	go j.run()
	return j
}

// Note says that s, which belongs to the file at path ("" for none), is the
// newest state and is not saved.
func (j *Journal) Note(s *doc.Scheme, path string) {
	if path != "" {
		if abs, err := filepath.Abs(path); err == nil {
			path = abs // the next start may be in another folder
		}
	}
	now := time.Now()
	j.mu.Lock()
	since := now
	if j.next.waiting && j.next.scheme != nil {
		since = j.next.since
	}
	j.next = note{true, s, path, since, now}
	j.mu.Unlock()
	j.ring()
}

// Clear says that everything is saved or given up: there is nothing to keep.
func (j *Journal) Clear() {
	j.mu.Lock()
	j.next = note{waiting: true}
	j.mu.Unlock()
	j.ring()
}

// Close ends the journal and takes away what it kept. It is for a clean end of
// the program and returns once the disk is clean.
func (j *Journal) Close() {
	j.once.Do(func() { close(j.stop) })
	<-j.done
}

func (j *Journal) ring() {
	select {
	case j.wake <- struct{}{}:
	default: // it will look anyway
	}
}

// due returns how long to wait before the next note is written; ok is false
// when there is none.
func (j *Journal) due() (wait time.Duration, ok bool) {
	j.mu.Lock()
	defer j.mu.Unlock()
	n := j.next
	if !n.waiting {
		return 0, false
	}
	if n.scheme == nil {
		return 0, true
	}
	at := n.last.Add(j.cfg.Quiet)
	if latest := n.since.Add(j.cfg.Latest); latest.Before(at) {
		at = latest
	}
	return max(0, time.Until(at)), true
}

func (j *Journal) take() (note, bool) {
	j.mu.Lock()
	defer j.mu.Unlock()
	n := j.next
	j.next.waiting = false
	return n, n.waiting
}

// run writes until it is stopped.
func (j *Journal) run() {
	defer close(j.done)
	w := &writer{cfg: j.cfg}
	defer w.end()
	var timer *time.Timer
	for {
		var ready <-chan time.Time
		if wait, ok := j.due(); ok {
			timer = time.NewTimer(wait)
			ready = timer.C
		}
		select {
		case <-j.stop:
			return
		case <-j.wake:
		case <-ready:
			if n, ok := j.take(); ok {
				w.write(n)
			}
		}
		if timer != nil {
			timer.Stop()
		}
	}
}

// writer puts notes on the disk.
type writer struct {
	cfg     Config
	session *session
	failed  bool // the last write did, and that was told
}

func (w *writer) write(n note) {
	if n.scheme == nil {
		if w.session != nil {
			w.tell(w.session.clear())
		}
		return
	}
	e, err := w.put(n)
	w.tell(err)
	if err == nil && w.cfg.Wrote != nil {
		w.cfg.Wrote(e)
	}
}

// tell reports a failure once, until a write went well again.
func (w *writer) tell(err error) {
	if err != nil && !w.failed && w.cfg.Failed != nil {
		w.cfg.Failed(err)
	}
	w.failed = err != nil
}

func (w *writer) put(n note) (Entry, error) {
	text, err := file.WriteScheme(n.scheme)
	if err != nil {
		return Entry{}, err
	}
	e := entryOf(n.scheme, n.path, text, n.last)
	data, err := encode(e, text)
	if err != nil {
		return Entry{}, err
	}
	if w.session == nil {
		if w.session, err = newSession(w.cfg.State); err != nil {
			return Entry{}, err
		}
	}
	err = file.WriteFile(w.session.work(), data)
	if errors.Is(err, os.ErrNotExist) { // somebody cleared the folder
		w.session.end()
		if w.session, err = newSession(w.cfg.State); err != nil {
			return Entry{}, err
		}
		err = file.WriteFile(w.session.work(), data)
	}
	return e, err
}

func (w *writer) end() {
	if w.session != nil {
		w.session.end()
	}
}
