package layout_test

import (
	"fmt"
	"reflect"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"duskwire/calc/finding"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
	"duskwire/layout/geom"
)

// move is the operation of dragging one lamp.
func move(id doc.ID, x, y float64) edit.Operation {
	return edit.MovePoints{IDs: []doc.ID{id}, By: geom.Pt(x, y)}
}

// TestPreview: a preview is applied to the scheme the gesture started from,
// cancel drops it and leaves no step, commit is one step.
func TestPreview(t *testing.T) {
	d := scenario(t, "1-terrace-wall.yaml")
	start := d.Frame().Scheme
	for i := 1; i <= 5; i++ {
		if err := d.Preview(move("L4", float64(i), 0)); err != nil {
			t.Fatal(err)
		}
	}
	l, _ := d.Frame().Scheme.Lamps.Get("L4")
	if want := geom.Pt(12, 2); l.Place.At != want || !d.Frame().Preview {
		t.Errorf("after five previews L4 is at %v, want %v: previews must not add up", l.Place.At, want)
	}
	d.Cancel()
	if d.Frame().Scheme != start || d.Frame().Preview || d.Frame().Undo != "" || d.Frame().Unsaved {
		t.Error("cancel left something behind")
	}
	commit(t, d, move("L4", 1, 0))
	if d.Frame().Undo == "" || !d.Frame().Unsaved {
		t.Error("commit is not one undo step")
	}
	if !d.Undo() || d.Frame().Scheme != start || d.Frame().Unsaved {
		t.Error("undo does not return the very first scheme")
	}
	if d.Undo() {
		t.Error("undo beyond the start")
	}
}

// TestSubscribe: a subscriber sees every frame in order until it stops.
func TestSubscribe(t *testing.T) {
	d := scenario(t, "1-terrace-wall.yaml")
	var seen []uint64
	stop := d.Subscribe(func(f *layout.Frame) { seen = append(seen, f.Seq) })
	commit(t, d, move("L4", 1, 0))
	d.Undo()
	stop()
	d.Redo()
	if len(seen) != 2 || seen[1] != seen[0]+1 {
		t.Errorf("saw frames %v, want two in order", seen)
	}
}

// TestOverrule: a recorded decision stays visible but no longer counts.
func TestOverrule(t *testing.T) {
	d := scenario(t, "3-tt-cottage.yaml")
	var f finding.Finding
	for _, x := range d.Frame().Findings {
		if x.Level == finding.Stop {
			f = x
		}
	}
	commit(t, d, edit.Overrule{Decision: doc.Decision{Code: string(f.Code), Subject: doc.ID(f.Subject.ID), By: "A. Tester", On: "2026-11-25", Reason: "fitted in the week after"}})
	if got := d.Frame().Totals.Stop; got != 0 {
		t.Errorf("%d stops stand, want none", got)
	}
	for _, x := range d.Frame().Findings {
		if x.Code == f.Code && (x.Overruled == nil || x.Level != finding.Stop) {
			t.Errorf("overruled finding is shown as %v %v", x.Level, x.Overruled)
		}
	}
}

// TestExplain: the working of what holds is there for every lamp and run.
func TestExplain(t *testing.T) {
	d := scenario(t, "1-terrace-wall.yaml")
	for _, id := range []doc.ID{"L1", "L4", "R1", "R4"} {
		held := 0
		for _, x := range d.Explain(id) {
			if x.Level == finding.Held {
				held++
				if x.Working == "" || x.Source.String() == "" {
					t.Errorf("%s %s has no working or no source", id, x.Code)
				}
			}
		}
		if held < 2 {
			t.Errorf("%s: %d checks explained, want at least 2", id, held)
		}
	}
}

// TestIncrementalEqualsFull is the law of design.md 3: after any sequence of
// edits, previews, undo and redo the frame equals one made from scratch.
func TestIncrementalEqualsFull(t *testing.T) {
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	first, err := file.LoadScheme("../assets/examples/townhouse.yaml", stock)
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		d := layout.NewDesk(stock, rules, first, "")
		steps := rapid.IntRange(1, 12).Draw(t, "steps")
		for i := range steps {
			act(t, d, fmt.Sprint(i))
		}
		full := layout.NewDesk(stock, rules, d.Frame().Scheme, "").Frame()
		got := d.Frame()
		for i := range full.Results {
			if diff := cmp.Diff(full.Results[i].Points, got.Results[i].Points); diff != "" {
				t.Fatalf("readings of circuit %d (-full +incremental):\n%s", i, diff)
			}
		}
		if !reflect.DeepEqual(full.Findings, got.Findings) || !reflect.DeepEqual(full.Circuits.Lengths, got.Circuits.Lengths) || full.Totals != got.Totals {
			t.Fatalf("findings, lengths or totals differ from a full evaluation")
		}
		for d.Undo() {
		}
		if d.Frame().Scheme != first {
			t.Fatal("undo of everything does not return the first scheme")
		}
	})
}

// act does one random thing at the desk.
func act(t *rapid.T, d *layout.Desk, n string) {
	s := d.Frame().Scheme
	lamp := func() doc.ID {
		all := s.Lamps.All()
		if len(all) == 0 {
			return "none"
		}
		return all[rapid.IntRange(0, len(all)-1).Draw(t, "lamp"+n)].ID
	}
	run := func() doc.ID {
		all := s.Runs.All()
		if len(all) == 0 {
			return "none"
		}
		return all[rapid.IntRange(0, len(all)-1).Draw(t, "run"+n)].ID
	}
	by := func() edit.Operation {
		return edit.MovePoints{IDs: []doc.ID{lamp()}, By: geom.Pt(float64(rapid.IntRange(-20, 20).Draw(t, "x"+n))/10, 0.3)}
	}
	switch rapid.IntRange(0, 7).Draw(t, "act"+n) {
	case 0:
		_ = d.Commit(by())
	case 1:
		_ = d.Preview(by())
	case 2:
		d.Cancel()
	case 3:
		_ = d.Commit(edit.SetCable{Runs: []doc.ID{run()}, Cable: rapid.SampledFrom([]string{"swa-3x1.5", "swa-3x2.5", "elv-2x4", ""}).Draw(t, "cable"+n)})
	case 4:
		_ = d.Commit(edit.Delete{IDs: []doc.ID{run()}})
	case 5:
		_ = d.Commit(edit.Delete{IDs: []doc.ID{lamp()}})
	case 6:
		d.Undo()
	case 7:
		d.Redo()
	}
	d.Cancel()
}
