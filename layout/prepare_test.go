package layout_test

import (
	"strings"
	"testing"

	"duskwire/layout"
	"duskwire/layout/edit"
	"duskwire/layout/file"
)

// newBorderDesk is a desk with n lamps.
func newBorderDesk(t testing.TB, n int) *layout.Desk {
	t.Helper()
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	return layout.NewDesk(stock, rules, border(n), "/g/a.yaml")
}

// A scheme prepared in a worker gives the frame that Load gives, and the desk
// knows nothing of it before it is put.
func TestPreparedEqualsLoaded(t *testing.T) {
	d, other := newBorderDesk(t, 10), newBorderDesk(t, 10)
	prepare, seq := d.Preparer(), d.Frame().Seq
	ready := make(chan *layout.Prepared)
	go func() { ready <- prepare(border(30), "/g/b.yaml") }()
	p := <-ready
	if d.Frame().Seq != seq || d.Frame().Totals.Lamps != 10 {
		t.Fatal("preparing changed the desk")
	}
	var seen []*layout.Frame
	d.Subscribe(func(f *layout.Frame) { seen = append(seen, f) })
	d.Put(p)
	other.Load(border(30), "/g/b.yaml")
	f, want := d.Frame(), other.Frame()
	if len(seen) != 1 || seen[0] != f || f.Seq != seq+1 || f.Path != "/g/b.yaml" || f.Unsaved || f.Undo != "" {
		t.Errorf("frame %d of %q, unsaved %v, undo %q; seen %d", f.Seq, f.Path, f.Unsaved, f.Undo, len(seen))
	}
	if f.Totals != want.Totals || len(f.Findings) != len(want.Findings) {
		t.Errorf("totals %+v, expected %+v", f.Totals, want.Totals)
	}
	d.Put(d.Preparer()(border(5), "/g/c.yaml").Unsaved())
	if !d.Frame().Unsaved || d.Frame().Totals.Lamps != 5 {
		t.Error("work that was found again counts as saved")
	}
	if err := d.Commit(edit.SetTitle{Title: "drawn on"}); err != nil {
		t.Fatal(err)
	}
	if d.Undo(); !d.Frame().Unsaved {
		t.Error("undo back to the work that was found again counts as saved")
	}
	d.Saved(d.Frame().Scheme, "/g/c.yaml")
	if d.Frame().Unsaved {
		t.Error("unsaved after it was saved")
	}
}

func TestGoToAStep(t *testing.T) {
	d := newBorderDesk(t, 5)
	start := d.Frame().Scheme
	for _, title := range []string{"one", "two", "three"} {
		if err := d.Commit(edit.SetTitle{Title: title}); err != nil {
			t.Fatal(err)
		}
	}
	for _, row := range []struct {
		to    int
		moved bool
		title string
		done  int
	}{{1, true, "one", 1}, {3, true, "three", 3}, {3, false, "three", 3}, {4, false, "three", 3}, {-1, false, "three", 3}, {0, true, "New scheme", 0}} {
		if moved := d.GoTo(row.to); moved != row.moved {
			t.Errorf("to %d: moved %v", row.to, moved)
		}
		names, done := d.Steps()
		if got := d.Frame().Scheme.Title; got != row.title || done != row.done || len(names) != 3 {
			t.Errorf("to %d: title %q, %d of %d done", row.to, got, done, len(names))
		}
	}
	if d.Frame().Scheme != start || d.Frame().Unsaved {
		t.Error("the first state is not the one that was opened")
	}
	if err := d.Commit(edit.SetTitle{Title: "four"}); err != nil {
		t.Fatal(err)
	}
	if names, done := d.Steps(); done != 1 || len(names) != 1 || !strings.Contains(names[0], "title") {
		t.Errorf("after another edit %d of %q", done, names)
	}
}

// BenchmarkOpen is what opening 1,000 lamps costs: the part in the worker, and
// the part that the window waits for (without its drawing).
func BenchmarkOpen(b *testing.B) {
	d := newBorderDesk(b, 1000)
	s := border(1000)
	b.Run("prepare", func(b *testing.B) {
		for b.Loop() {
			d.Preparer()(s, "")
		}
	})
	b.Run("put", func(b *testing.B) {
		for b.Loop() {
			b.StopTimer()
			p := d.Preparer()(s, "")
			b.StartTimer()
			d.Put(p)
		}
	})
	b.Run("write", func(b *testing.B) {
		for b.Loop() {
			if _, err := file.WriteScheme(s); err != nil {
				b.Fatal(err)
			}
		}
	})
}
