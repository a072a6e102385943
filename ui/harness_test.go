package ui

import (
	"errors"
	"maps"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"duskwire/assets"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/file"
)

// rig is a window on the example with its workers' results queued, so that
// nothing of the UI runs on another goroutine than the test's.
type rig struct {
	t     *testing.T
	w     *Window
	desk  *layout.Desk
	queue chan func()
	saved *disk
	fail  error         // of the next save
	hold  chan struct{} // loads of saved files wait for it
	quits int
}

// disk is what was saved. Workers write it while the test reads.
type disk struct {
	sync.Mutex
	files map[string]*doc.Scheme
}

func (d *disk) get(path string) *doc.Scheme {
	d.Lock()
	defer d.Unlock()
	return d.files[path]
}

func (d *disk) put(path string, s *doc.Scheme) {
	d.Lock()
	defer d.Unlock()
	d.files[path] = s
}

// paths are the files there are, sorted.
func (d *disk) paths() []string {
	d.Lock()
	defer d.Unlock()
	return slices.Sorted(maps.Keys(d.files))
}

func newRig(t *testing.T, example string) *rig {
	t.Helper()
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	read := func(name string) (*doc.Scheme, error) {
		data, err := assets.FS.ReadFile("examples/" + name)
		if err != nil {
			return nil, err
		}
		return file.ReadScheme(name, data, stock)
	}
	start, err := read(example)
	if err != nil {
		t.Fatal(err)
	}
	r := &rig{t: t, queue: make(chan func(), 16), saved: &disk{files: map[string]*doc.Scheme{}}}
	r.desk = layout.NewDesk(stock, rules, start, "")
	r.w = New(Config{
		App: test.NewTempApp(t), Desk: r.desk, Folder: t.TempDir(),
		Post: func(f func()) { r.queue <- f },
		Now:  func() time.Time { return time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC) },
		Load: func(path string) (*doc.Scheme, error) {
			if s := r.saved.get(path); s != nil {
				if r.hold != nil {
					<-r.hold
				}
				return s, nil
			}
			return nil, errors.New(path + ":1: found nothing, expected a scheme")
		},
		Save: func(path string, s *doc.Scheme) error {
			if r.fail != nil {
				return r.fail
			}
			r.saved.put(path, s)
			return nil
		},
		Example: func() (*doc.Scheme, error) { return read(example) },
		Quit:    func() { r.quits++ },
	})
	r.w.Fyne().Show()
	return r
}

// patience is how long a test waits for what must come: the race detector and a busy
// machine make a second of work a minute.
const patience = 2 * time.Minute

// wait runs one result of a worker.
func (r *rig) wait() {
	r.t.Helper()
	select {
	case f := <-r.queue:
		f()
	case <-time.After(patience):
		r.t.Fatal("no result came back from a worker")
	}
}

// menu does a menu entry whose label starts with the name.
func (r *rig) menu(name string) {
	r.t.Helper()
	for _, m := range r.w.Fyne().MainMenu().Items {
		for _, i := range m.Items {
			if strings.HasPrefix(i.Label, name) {
				i.Action()
				return
			}
		}
	}
	r.t.Fatalf("no menu entry %q", name)
}

// label returns the label of the menu entry whose label starts with the name.
func (r *rig) label(name string) string {
	for _, m := range r.w.Fyne().MainMenu().Items {
		for _, i := range m.Items {
			if strings.HasPrefix(i.Label, name) {
				return i.Label
			}
		}
	}
	return ""
}

// answer presses the button of the sheet on top.
func (r *rig) answer(text string) {
	r.t.Helper()
	s := r.top()
	for _, b := range s.buttons {
		if b.Text == text {
			test.Tap(b)
			return
		}
	}
	r.t.Fatalf("sheet %q has no button %q", s.title, text)
}

func (r *rig) top() *sheet {
	r.t.Helper()
	if len(r.w.sheets) == 0 {
		r.t.Fatal("no sheet is open")
	}
	return r.w.sheets[len(r.w.sheets)-1]
}

func (r *rig) noSheet() {
	r.t.Helper()
	if n := len(r.w.sheets); n > 0 {
		r.t.Fatalf("sheet %q is open", r.w.sheets[n-1].title)
	}
}

// find walks an object tree and returns the first thing that fits.
func find[T any](o fyne.CanvasObject, fits func(T) bool) (found T, ok bool) {
	walk(o, func(o fyne.CanvasObject) bool {
		if t, is := o.(T); is && !ok && fits(t) {
			found, ok = t, true
		}
		return !ok
	})
	return found, ok
}

// walk visits visible objects; it stops when f returns false.
func walk(o fyne.CanvasObject, f func(fyne.CanvasObject) bool) bool {
	if o == nil || !o.Visible() {
		return true
	}
	if !f(o) {
		return false
	}
	switch o := o.(type) {
	case *fyne.Container:
		for _, c := range o.Objects {
			if !walk(c, f) {
				return false
			}
		}
	case *container.Scroll:
		return walk(o.Content, f)
	case fyne.Widget:
		for _, c := range test.WidgetRenderer(o).Objects() {
			if !walk(c, f) {
				return false
			}
		}
	}
	return true
}

// texts returns the words of all labels of an object, a line each.
func texts(o fyne.CanvasObject) string {
	var out []string
	walk(o, func(o fyne.CanvasObject) bool {
		if l, ok := o.(*widget.Label); ok {
			out = append(out, l.Text)
			return true
		}
		return true
	})
	return strings.Join(out, "\n")
}
