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
)

// TestCutApart: with long cut lists planned in a worker, whatever comes between
// what, a frame of a committed scheme that does not say its plans are behind has
// those of a desk without a worker, and so has Whole at any time; once the worker
// has finished nothing is behind.
func TestCutApart(t *testing.T) {
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	first := border(24) // 24 pieces of one cable
	scratch := func(s *doc.Scheme) *layout.Frame { return layout.NewDesk(stock, rules, s, "").Frame() }
	equal := func(t *rapid.T, what string, f *layout.Frame) {
		full := scratch(f.Scheme)
		if f.DrumsBehind || f.LightBehind || !reflect.DeepEqual(full.Drums, f.Drums) || !reflect.DeepEqual(full.Findings, f.Findings) || full.Totals != f.Totals {
			t.Fatalf("%s: plans, findings or totals differ from a full evaluation", what)
		}
	}
	behind := 0
	rapid.Check(t, func(t *rapid.T) {
		d := layout.NewDesk(stock, rules, first, "")
		w, light := &worker{}, &worker{}
		d.CutApart(w.run)
		if rapid.Bool().Draw(t, "light apart") {
			d.LightApart(light.run)
		}
		d.Subscribe(func(f *layout.Frame) {
			if f.DrumsBehind {
				behind++
			} else if !f.Preview && !reflect.DeepEqual(scratch(f.Scheme).Drums, f.Drums) {
				t.Fatal("a frame says that its plans are its own, and they are not")
			}
			for _, one := range f.Findings {
				if one.Code == "LEN-01" && doc.KindOf(f.Scheme, doc.ID(one.Subject.ID)) == doc.NoKind {
					t.Fatal("LEN-01 is about what is no longer drawn")
				}
			}
		})
		for i := range rapid.IntRange(1, 6).Draw(t, "steps") {
			n := fmt.Sprint(i)
			switch rapid.IntRange(0, 3).Draw(t, "do"+n) {
			case 0, 1:
				w.step()
			case 2:
				light.step()
			default:
				act(t, d, n)
			}
		}
		d.Cancel()
		equal(t, "whole", d.Whole(d.Frame())())
		for w.step() || light.step() {
		}
		equal(t, "caught up", d.Frame())
	})
	if behind == 0 {
		t.Error("no frame was ever behind: the law looked at nothing")
	}
}

// TestCutApartKeeps: an edit of a long cut list keeps the plan of before until the
// worker has done; a loaded scheme comes with its own.
func TestCutApartKeeps(t *testing.T) {
	d, w := newBorderDesk(t, 24), &worker{}
	d.CutApart(w.run)
	before := d.Frame().Drums
	commit(t, d, edit.MovePoints{IDs: []doc.ID{"L9"}, By: geom.Pt(3.3, 2.2)})
	if f := d.Frame(); !f.DrumsBehind || !reflect.DeepEqual(f.Drums, before) {
		t.Fatalf("behind %v; expected the plans of before, marked", f.DrumsBehind)
	}
	for w.step() {
	}
	if f := d.Frame(); f.DrumsBehind || reflect.DeepEqual(f.Drums, before) {
		t.Fatalf("behind %v; expected plans of the new cut list", f.DrumsBehind)
	}
	d.Load(border(30), "")
	if d.Frame().DrumsBehind {
		t.Error("a loaded scheme is behind")
	}
	d.Saved(d.Frame().Scheme, "") // publishes again: nothing is to be planned
	if d.Frame().DrumsBehind {
		t.Error("nothing was changed and the plans are behind")
	}
}
