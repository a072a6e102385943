package layout_test

import (
	"errors"
	"fmt"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"duskwire/calc/check"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
	"duskwire/layout/geom"
	"duskwire/layout/internal/garden"
)

// lateDesk is a desk whose large edits a worker evaluates, which the test steps.
func lateDesk(stock doc.Stock, rules []*check.Rules, s *doc.Scheme) (*layout.Desk, *worker) {
	d, w := layout.NewDesk(stock, rules, s, ""), &worker{}
	d.Follow(w.run)
	d.FollowEdits(w.run)
	return d, w
}

// sameAsFull compares a frame with one of a desk without workers.
func sameAsFull(stock doc.Stock, rules []*check.Rules, f *layout.Frame) error {
	d := layout.NewDesk(stock, rules, f.Scheme, "")
	if f.Under != nil {
		d.SetUnder(f.Under)
	}
	full := d.Frame()
	for _, one := range []struct {
		what      string
		want, got any
	}{
		{"findings", full.Findings, f.Findings}, {"lengths", full.Circuits.Lengths, f.Circuits.Lengths}, {"totals", full.Totals, f.Totals},
		{"results", full.Results, f.Results}, {"plans", full.Drums, f.Drums}, {"behind", false, f.Behind || f.LightBehind || f.DrumsBehind},
	} {
		if !reflect.DeepEqual(one.want, one.got) {
			return fmt.Errorf("%s differ from a full evaluation", one.what)
		}
	}
	return nil
}

// lampIDs returns n lamps of a scheme from one on.
func lampIDs(s *doc.Scheme, from, n int) (ids []doc.ID) {
	for i, l := range s.Lamps.All() {
		if i >= from && i < from+n {
			ids = append(ids, l.ID)
		}
	}
	return ids
}

// TestFollowEdits: with large edits evaluated in a worker, whatever comes between
// what, every frame has the scheme that was committed at once, a frame that does
// not say it is behind equals a full evaluation, and so do Whole at any time, Finish,
// and what stands when the worker was let finish. Undo returns to the first scheme.
func TestFollowEdits(t *testing.T) {
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	first := garden.Large(200)
	late := 0
	rapid.Check(t, func(t *rapid.T) {
		d, w := lateDesk(stock, rules, first)
		cuts, light := &worker{}, &worker{}
		d.CutApart(cuts.run)
		d.LightApart(light.run)
		must := func(what string, f *layout.Frame) {
			t.Helper()
			if err := sameAsFull(stock, rules, f); err != nil {
				t.Fatalf("%s: %v", what, err)
			}
		}
		seq := uint64(0)
		d.Subscribe(func(f *layout.Frame) {
			if f.Seq <= seq {
				t.Fatal("a frame is no later than the one before")
			}
			seq = f.Seq
			if f.Behind && !f.Preview {
				late++
				for _, one := range f.Findings {
					if one.Subject.ID != "" && doc.KindOf(f.Scheme, doc.ID(one.Subject.ID)) == doc.NoKind {
						t.Fatalf("%s is about what is no longer drawn", one.Code)
					}
				}
			}
			if len(f.Results) != len(f.Circuits.Circuits) {
				t.Fatal("results are not of the circuits")
			}
		})
		op := func(n string) edit.Operation {
			s := d.Frame().Scheme
			by := geom.Pt(float64(rapid.IntRange(-50, 50).Draw(t, "x"+n))/10, 0.3)
			some := lampIDs(s, rapid.IntRange(0, 20).Draw(t, "from"+n), rapid.SampledFrom([]int{1, 3, 105, 200}).Draw(t, "many"+n))
			switch rapid.IntRange(0, 3).Draw(t, "op"+n) {
			case 0:
				return edit.Delete{IDs: some}
			case 1:
				return edit.SetLock{IDs: some, On: rapid.Bool().Draw(t, "on"+n)}
			}
			return edit.MovePoints{IDs: some, By: by}
		}
		for i := range rapid.IntRange(1, 8).Draw(t, "steps") {
			switch n := fmt.Sprint(i); rapid.IntRange(0, 13).Draw(t, "act"+n) {
			case 0, 1, 2, 3:
				_ = d.Commit(op(n))
			case 4:
				d.Undo()
			case 5:
				d.Redo()
			case 6:
				_ = d.Preview(op(n))
			case 7:
				d.Cancel()
			case 8:
				if f := d.Frame(); !f.Preview && d.Whole(f)().Behind {
					t.Fatal("Whole is behind")
				}
			case 9:
				light.step()
			case 10:
				cuts.step()
			default:
				w.step()
			}
		}
		d.Cancel()
		must("whole", d.Whole(d.Frame())())
		for w.step() || light.step() || cuts.step() {
		}
		must("caught up", d.Frame())
		d.GoTo(0)
		if d.Frame().Scheme != first {
			t.Fatal("undo does not lead back to the first scheme")
		}
		for w.step() || light.step() || cuts.step() {
		}
		must("undone", d.Frame())
	})
	if late == 0 {
		t.Error("no frame of an edit was ever behind: the law looked at nothing")
	}
}

// TestEditWhileOneIsUnderWay goes through what may come while a worker is at an
// edit; each ends with the figures of what was committed last.
func TestEditWhileOneIsUnderWay(t *testing.T) {
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	first := garden.Large(160)
	first.Plan.Underlay = doc.Underlay{File: "garden.png", Width: 10, Height: 10, Pixel: 0.1}
	all := lampIDs(first, 0, 160)
	move := func(x float64, ids ...doc.ID) edit.Operation { return edit.MovePoints{IDs: ids, By: geom.Pt(x, 0.2)} }
	other := garden.Large(150)
	for _, c := range []struct {
		name  string
		do    func(*layout.Desk) error
		undos int  // steps that can be taken back then
		late  bool // the frame is behind right after it
	}{
		{"nothing", func(*layout.Desk) error { return nil }, 1, true},
		{"a small edit", func(d *layout.Desk) error { return d.Commit(move(0.4, all[7])) }, 2, true},
		{"a large edit", func(d *layout.Desk) error { return d.Commit(move(-0.7, all...)) }, 2, true},
		{"undo", func(d *layout.Desk) error { d.Undo(); return nil }, 0, false},
		{"undo and redo", func(d *layout.Desk) error { d.Undo(); d.Redo(); return nil }, 1, true},
		{"a gesture that is dropped", func(d *layout.Desk) error { err := d.Preview(move(1, all[3])); d.Cancel(); return err }, 1, true},
		{"a refused edit", func(d *layout.Desk) error {
			if d.Commit(edit.Delete{IDs: []doc.ID{"nobody"}}) == nil {
				return fmt.Errorf("not refused")
			}
			return nil
		}, 1, true},
		{"another file", func(d *layout.Desk) error { d.Load(other, ""); return nil }, 0, false},
		{"another file, edited", func(d *layout.Desk) error {
			d.Load(other, "")
			d.Subscribe(func(f *layout.Frame) {
				if len(f.Circuits.Lengths) != other.Runs.Len() {
					t.Error("figures of the file that was open before")
				}
			})
			return d.Commit(move(0.3, lampIDs(other, 0, 150)...))
		}, 1, true},
		{"saved", func(d *layout.Desk) error { d.Saved(d.Frame().Scheme, "a.yaml"); return nil }, 1, true},
		{"the picture read", func(d *layout.Desk) error {
			d.SetUnder(&layout.Under{File: "garden.png", Err: errors.New("gone")})
			return nil
		}, 1, true},
	} {
		// The worker has taken the edit, or has worked too and only not handed it over.
		for began := 1; began <= 2; began++ {
			t.Run(fmt.Sprint(c.name, began), func(t *testing.T) {
				d, w := lateDesk(stock, rules, first)
				if err := d.Commit(move(0.3, all...)); err != nil {
					t.Fatal(err)
				}
				if f := d.Frame(); !f.Behind || f.Scheme == first || f.Undo == "" || !f.Unsaved {
					t.Fatalf("behind %v, undo %q, unsaved %v; expected the new scheme at once, marked", f.Behind, f.Undo, f.Unsaved)
				}
				for range began {
					w.step()
				}
				if err := c.do(d); err != nil {
					t.Fatal(err)
				}
				if got := d.Frame().Behind; got != c.late {
					t.Errorf("behind: %v, expected %v", got, c.late)
				}
				if err := sameAsFull(stock, rules, d.Whole(d.Frame())()); err != nil {
					t.Errorf("whole: %v", err)
				}
				for w.step() {
				}
				if err := sameAsFull(stock, rules, d.Frame()); err != nil {
					t.Error(err)
				}
				if _, done := d.Steps(); done != c.undos {
					t.Errorf("%d steps done, expected %d", done, c.undos)
				}
			})
		}
	}
}

// TestSmallEditsAreWhole: what is soon evaluated comes with its own figures, and so
// does every edit of a small scheme.
func TestSmallEditsAreWhole(t *testing.T) {
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		lamps, moved int
		late         bool
	}{{160, 3, false}, {160, 150, true}, {40, 40, false}} {
		s := garden.Large(c.lamps)
		d, _ := lateDesk(stock, rules, s)
		if err := d.Commit(edit.MovePoints{IDs: lampIDs(s, 0, c.moved), By: geom.Pt(1, 0)}); err != nil {
			t.Fatal(err)
		}
		if d.Frame().Behind != c.late {
			t.Errorf("%d of %d lamps moved: behind %v", c.moved, c.lamps, d.Frame().Behind)
		}
	}
}
