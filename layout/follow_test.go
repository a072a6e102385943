package layout_test

import (
	"fmt"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
	"duskwire/layout/geom"
	"duskwire/layout/internal/garden"
)

// worker is a worker that a test steps through: it takes a preview, works, and
// hands the outcome back when it is told to.
type worker struct {
	take       func() (work, done func())
	work, done func()
}

func (w *worker) run(take func() (work, done func())) { w.take = take }

// step does the next thing that is to be done; false when there is none.
func (w *worker) step() bool {
	switch {
	case w.take != nil:
		take := w.take
		w.take = nil
		w.work, w.done = take()
	case w.work != nil:
		w.work()
		w.work = nil
	case w.done != nil:
		done := w.done
		w.done = nil
		done()
	default:
		return false
	}
	return true
}

// TestFollow: with previews evaluated in a worker, whatever comes between what,
// no frame of a committed scheme lags, and a worker that was let finish leaves
// the figures of the last move.
func TestFollow(t *testing.T) {
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	first := garden.Large(200)
	if first.Lamps.Len()+first.Runs.Len() < 300 {
		t.Fatal("the garden is too small to be evaluated in a worker")
	}
	equal := func(t *rapid.T, f *layout.Frame) {
		full := layout.NewDesk(stock, rules, f.Scheme, "").Frame()
		if !reflect.DeepEqual(full.Findings, f.Findings) || !reflect.DeepEqual(full.Circuits.Lengths, f.Circuits.Lengths) || full.Totals != f.Totals {
			t.Fatal("findings, lengths or totals differ from a full evaluation")
		}
	}
	lagged, caught := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		d := layout.NewDesk(stock, rules, first, "")
		w := &worker{}
		d.Follow(w.run)
		d.Subscribe(func(f *layout.Frame) {
			if f.Behind {
				lagged++
				if !f.Preview {
					t.Fatal("a frame of a committed scheme lags")
				}
			} else if f.Preview {
				caught++
			}
			if len(f.Results) != len(f.Circuits.Circuits) {
				t.Fatal("results are not of the circuits")
			}
		})
		op := func(n string) edit.Operation {
			lamps := d.Frame().Scheme.Lamps.All()
			id := lamps[rapid.IntRange(0, len(lamps)-1).Draw(t, "lamp"+n)].ID
			return edit.MovePoints{IDs: []doc.ID{id}, By: geom.Pt(float64(rapid.IntRange(-50, 50).Draw(t, "x"+n))/10, 0.3)}
		}
		for i := range rapid.IntRange(1, 12).Draw(t, "steps") {
			switch n := fmt.Sprint(i); rapid.IntRange(0, 9).Draw(t, "act"+n) {
			case 0:
				_ = d.Commit(op(n))
			case 1:
				d.Cancel()
			case 2:
				d.Undo()
			case 3, 4, 5:
				_ = d.Preview(op(n))
			default:
				w.step()
			}
		}
		_ = d.Preview(op("last"))
		for w.step() {
		}
		if d.Frame().Behind {
			t.Fatal("the worker has finished and the frame still lags")
		}
		equal(t, d.Frame())
		if rapid.Bool().Draw(t, "keep") {
			_ = d.Commit(op("kept"))
		} else {
			d.Cancel()
		}
		equal(t, d.Frame())
	})
	if lagged == 0 || caught == 0 {
		t.Errorf("%d frames lagged and %d caught up: the law looked at nothing", lagged, caught)
	}
}
