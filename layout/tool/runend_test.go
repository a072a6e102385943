package tool

import (
	"testing"

	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// TestMovedEndIsAsNewlyDrawn: a run whose end is dragged from one thing to another has
// the ends of a run that was drawn there at once, with the sides of sources, and
// nothing is kept of how the old end was terminated. Its other end keeps all.
func TestMovedEndIsAsNewlyDrawn(t *testing.T) {
	const garden = `
supply P1 0,0
source S1 4,0 source
source S2 4,3 source
box B1 8,0 box
box B9 12,6 box
lamp L1 8,3 low
lamp L2 12,0 high
gear G1 12,3 gear`
	things := []doc.ID{"p1", "s1", "s2", "b1", "l1", "l2", "g1"}
	start, err := readScheme(garden)
	if err != nil {
		t.Fatal(err)
	}
	at := func(id doc.ID) geom.Point { e, _ := doc.Find(start, id); p, _ := doc.PlaceOf(e); return p.At }
	draw := func(from, to doc.ID) (*Session, *fakeDesk, *doc.Run) {
		s, desk, set := newSession(start)
		s.Take(NewRun(set))
		for _, id := range []doc.ID{from, to} {
			s.Send(Event{Kind: Down, At: at(id), Button: LeftButton, Clicks: 1, Reach: reach})
			s.Send(Event{Kind: Up, At: at(id), Button: LeftButton, Clicks: 1, Reach: reach})
		}
		s.Take(NewSelect(set))
		return s, desk, desk.current().Runs.All()[0]
	}
	drag := func(s *Session, r *doc.Run, first bool, to doc.ID) {
		s.Select(r.ID)
		vertex := len(r.Legs)
		if first {
			vertex = 0
		}
		EndHandles(s.Scheme(), r.ID, reach, func(v int, p geom.Point) {
			if v != vertex {
				return
			}
			for _, e := range []Event{{Kind: Down, At: p}, {Kind: Move, At: at(to)}, {Kind: Up, At: at(to)}} {
				e.Button, e.Clicks, e.Reach = LeftButton, 1, reach
				s.Send(e)
			}
		})
	}
	for _, far := range things {
		for _, to := range things {
			if far == to {
				continue
			}
			_, _, want := draw(far, to)
			s, desk, r := draw(far, "b9")
			side := r.From.Side // of a source, chosen for the box, and kept
			drag(s, r, false, to)
			got, _ := desk.current().Runs.Get(r.ID)
			want.From.Side = side
			if len(desk.history) != 3 || got.From != want.From || far != "s1" && far != "s2" && got.To != want.To {
				t.Errorf("from %s moved on to %s: %+v %+v, drawn %+v %+v", far, to, got.From, got.To, want.From, want.To)
			}
			_, _, want = draw(to, far)
			s, desk, r = draw("b9", far)
			drag(s, r, true, to)
			got, _ = desk.current().Runs.Get(r.ID)
			if got.From.On != to || far != "s1" && far != "s2" && got.From != want.From {
				t.Errorf("to %s, its start moved to %s: %+v, drawn %+v", far, to, got.From, want.From)
			}
		}
	}

	s, desk, r := draw("p1", "b1")
	c := *r
	c.From.Tail, c.To.Tail = q.Some(q.Metre(2)), q.Some(q.Metre(3))
	c.To.Gland, c.To.Untagged = doc.Glands[0], true
	if err := desk.Commit(edit.SetEnd{Run: r.ID, End: c.To}); err != nil {
		t.Fatal(err)
	}
	if err := desk.Commit(edit.SetEnd{Run: r.ID, From: true, End: c.From}); err != nil {
		t.Fatal(err)
	}
	drag(s, &c, false, "b9")
	got, _ := desk.current().Runs.Get(r.ID)
	if got.To != (doc.End{On: "b9"}) || got.From != c.From {
		t.Errorf("tail, gland and tag of the old end: %+v %+v", got.From, got.To)
	}
	desk.undo()
	if got, _ := desk.current().Runs.Get(r.ID); got.To != c.To {
		t.Errorf("undo leaves %+v", got.To)
	}
}

// TestEndHandles: a joined end has a handle clear of the symbol, one in the air has
// none of these, and neither has an end whose leg is drawn too short.
func TestEndHandles(t *testing.T) {
	s, err := readScheme("box B1 0,0 box\nbox B2 4,0 box\nrun R1 B1 2,0 B2\nrun R2 B1 0,3\nrun R3 B1 B2")
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		id    doc.ID
		reach geom.Length
		want  string
	}{
		{"r1", 80 * geom.Millimetre, " 0.2,0 3.8,0"},
		{"r2", 80 * geom.Millimetre, " 0,0.2"},
		{"r1", 450 * geom.Millimetre, " 0.8,0 3.2,0"}, // no further than 0.4 of the leg
		{"r1", 600 * geom.Millimetre, ""},
		{"b1", 80 * geom.Millimetre, ""},
	} {
		got := ""
		EndHandles(s, tt.id, tt.reach, func(_ int, p geom.Point) { got += " " + point(p) })
		if got != tt.want {
			t.Errorf("%s at reach %v:%s, expected%s", tt.id, tt.reach, got, tt.want)
		}
	}
}
