package edit_test

import (
	"testing"

	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// TestLayLeg: a leg in the ground takes a depth, one above it a height, and
// nothing else of the run changes.
func TestLayLeg(t *testing.T) {
	const mm = geom.Millimetre
	s := doc.New("uk-18")
	s.Runs = doc.NewSet(&doc.Run{ID: "r", Tag: "R1", From: doc.End{At: geom.Pt(0, 0)}, To: doc.End{At: geom.Pt(9, 0)}, Legs: []doc.Leg{
		{To: geom.Pt(3, 0), Support: network.Buried, Depth: 450 * mm}, {To: geom.Pt(6, 0), Support: network.InDuct, Depth: 450 * mm}, {Support: network.Clipped, Height: 300 * mm},
	}})
	tests := []struct {
		leg                  int
		level, depth, height geom.Length
		title, refused       string
	}{
		{0, -600 * mm, 600 * mm, 0, "Lay leg 1 of R1 600 mm deep", ""},
		{1, -1200 * mm, 1200 * mm, 0, "Lay leg 2 of R1 1.2 m deep", ""},
		{2, 500 * mm, 0, 500 * mm, "Carry leg 3 of R1 at 500 mm", ""},
		{0, 50 * mm, 0, 0, "Lay leg 1 of R1 -50 mm deep", "depth"},
		{3, 0, 0, 0, "Lay leg", "R1 has no leg 4, it has 3"},
	}
	for _, test := range tests {
		op := edit.LayLeg{Run: "r", Leg: test.leg, Level: test.level}
		if got := edit.Title(op, s); got != test.title {
			t.Errorf("title %q, want %q", got, test.title)
		}
		n, err := op.Apply(s)
		if test.refused != "" {
			if err == nil {
				t.Errorf("leg %d at %v: not refused", test.leg, test.level)
			}
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		r, _ := n.Runs.Get("r")
		if l := r.Legs[test.leg]; l.Depth != test.depth || l.Height != test.height {
			t.Errorf("leg %d: depth %v height %v", test.leg, l.Depth, l.Height)
		}
		back, _ := edit.LayLeg{Run: "r", Leg: test.leg, Level: map[bool]geom.Length{true: -450 * mm, false: 300 * mm}[test.leg < 2]}.Apply(n)
		if why := diff(s, back); why != "" {
			t.Errorf("leg %d: laid back it differs:\n%s", test.leg, why)
		}
	}
}

// TestSetHeight: everything with a place takes a height, a run does not.
func TestSetHeight(t *testing.T) {
	s := doc.New("uk-18")
	s.Boxes = doc.NewSet(&doc.Box{ID: "b", Tag: "B1", Stock: "box-85", Place: doc.Place{At: geom.Pt(1, 1)}, Lock: true})
	s.Lamps = doc.NewSet(&doc.Lamp{ID: "l", Tag: "L1", Stock: "pillar-10w"})
	s.Runs = doc.NewSet(&doc.Run{ID: "r", Tag: "R1", From: doc.End{On: "b"}, To: doc.End{On: "l"}, Legs: []doc.Leg{{}}})
	for _, id := range []doc.ID{"b", "l"} {
		n, err := edit.SetHeight{ID: id, Height: geom.Metre}.Apply(s)
		if err != nil {
			t.Fatal(err)
		}
		was, _ := doc.PointOf(s, id)
		if p, _ := doc.PointOf(n, id); p.Height != geom.Metre || p.At != was.At {
			t.Errorf("%s stands at %+v", id, p)
		}
	}
	if _, err := (edit.SetHeight{ID: "r"}).Apply(s); err == nil {
		t.Error("a run took a height")
	}
	if got := edit.Title(edit.SetHeight{ID: "b", Height: 300 * geom.Millimetre}, s); got != "Set B1 at 300 mm above ground" {
		t.Error(got)
	}
}
