package layout_test

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"duskwire/calc"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
	"duskwire/layout/geom"
)

// TestLargeFrameIsWhole: circuits of a large scheme are evaluated side by side,
// and none may be left out: each has the result, and the headroom, that it has
// alone, before and after an edit.
func TestLargeFrameIsWhole(t *testing.T) {
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	s := border(600)
	for k := range 2 { // two small circuits beside it
		name := func(kind string) doc.ID { return doc.ID(fmt.Sprintf("%s-%d", kind, k)) }
		sp, l := *s.Supplies.All()[0], *s.Lamps.All()[0]
		sp.ID, sp.Tag, sp.Place.At = name("SP"), string(name("SP")), geom.Pt(float64(k), -20)
		l.ID, l.Tag, l.Place.At = name("lamp"), string(name("lamp")), geom.Pt(float64(k), -22)
		s.Supplies, s.Lamps = s.Supplies.With(&sp), s.Lamps.With(&l)
		s.Runs = s.Runs.With(&doc.Run{ID: name("run"), Tag: string(name("run")), Cable: "swa-3x1.5", From: doc.End{On: sp.ID}, To: doc.End{On: l.ID}, Legs: []doc.Leg{{}}})
	}
	d := layout.NewDesk(stock, rules, s, "")
	for step, id := range []doc.ID{"", "L5", "lamp-1"} {
		if id != "" {
			if err := d.Commit(edit.MovePoints{IDs: []doc.ID{id}, By: geom.Pt(0.25, 0)}); err != nil {
				t.Fatal(err)
			}
		}
		f := d.Frame()
		if len(f.Results) != 3 {
			t.Fatalf("%d circuits", len(f.Results))
		}
		rooms := d.Rooms()
		for i, got := range f.Results {
			in := f.Circuits.Circuits[i].Input
			want := calc.Evaluate(in)
			if got == nil {
				t.Fatalf("step %d: circuit %d has no result", step, i)
			}
			if diff := cmp.Diff(want.Points, got.Points); diff != "" {
				t.Errorf("step %d: points of circuit %d\n%.1000s", step, i, diff)
			}
			if diff := cmp.Diff(want.Runs, got.Runs); diff != "" {
				t.Errorf("step %d: runs of circuit %d\n%.1000s", step, i, diff)
			}
			room := calc.Room(in, want)
			for k, r := range want.Runs {
				if at, ok := rooms.At(doc.ID(r.ID)); !ok || at.Metres != room.Runs[k].Metres || at.MetresBinds != room.Runs[k].MetresBinds {
					t.Fatalf("step %d: headroom of %s is %+v, want %+v", step, r.ID, at, room.Runs[k])
				}
			}
		}
	}
}
