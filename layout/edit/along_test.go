package edit_test

import (
	"slices"
	"strings"
	"testing"

	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// site is a house of 10 m by 6 m, a wall in two pieces beside it, and runs.
func site() *doc.Scheme {
	s := doc.New("uk-18")
	pts := func(v ...float64) (ps []geom.Point) {
		for i := 0; i+1 < len(v); i += 2 {
			ps = append(ps, geom.Pt(v[i], v[i+1]))
		}
		return ps
	}
	s.Areas = doc.NewSet(&doc.Area{ID: "A1", Tag: "A1", Kind: "building", Ring: pts(0, 0, 0, 6, 10, 6, 10, 0)})
	s.Lines = doc.NewSet(&doc.Line{ID: "N1", Tag: "N1", Kind: "wall", Path: pts(14, 0, 20, 0, 20, 5)})
	s.Boxes = doc.NewSet(&doc.Box{ID: "B1", Tag: "B1", Stock: "box-85", Place: doc.Place{At: geom.Pt(2, -1)}},
		&doc.Box{ID: "B2", Tag: "B2", Stock: "box-85", Place: doc.Place{At: geom.Pt(11, 4)}})
	leg := func(x, y float64, support network.Support) doc.Leg {
		return doc.Leg{To: geom.Pt(x, y), Support: support}
	}
	s.Runs = doc.NewSet(
		&doc.Run{ID: "R1", Tag: "R1", From: doc.End{On: "B1"}, To: doc.End{On: "B2"}, Legs: []doc.Leg{leg(9, -2, network.Buried), leg(0, 0, network.Clipped)}},
		&doc.Run{ID: "R2", Tag: "R2", From: doc.End{At: geom.Pt(15, 2)}, To: doc.End{At: geom.Pt(18, 4)},
			Legs: []doc.Leg{leg(16, 1, network.Buried), leg(18, 1.5, network.InDuct), leg(0, 0, network.Clipped)}},
	)
	return s
}

// TestAlongWall: the places follow from the drawing.
func TestAlongWall(t *testing.T) {
	s := site()
	for _, tt := range []struct {
		name string
		op   edit.AlongWall
		want string
		fail string
	}{
		{"round the corner of a house, led to its boxes", edit.AlongWall{Run: "R1", Wall: "A1", Distance: 50 * geom.Millimetre},
			"2,-1 buried 2,-0.05 buried 10.05,-0.05 clipped 10.05,4 clipped 11,4", ""},
		{"inside of it", edit.AlongWall{Run: "R1", Wall: "A1", Distance: -500 * geom.Millimetre},
			"2,-1 buried 2,0.5 buried 9.5,0.5 clipped 9.5,4 clipped 11,4", ""},
		{"ends in the air move", edit.AlongWall{Run: "R2", Wall: "N1", Distance: 100 * geom.Millimetre},
			"15,0.1 duct 19.9,0.1 clipped 19.9,4", ""},
		{"one leg moves with its bends", edit.AlongWall{Run: "R2", Wall: "N1", Distance: 200 * geom.Millimetre, Legs: []int{1}},
			"15,2 buried 16,0.2 duct 18,0.2 clipped 18,4", ""},
		{"legs that do not follow", edit.AlongWall{Run: "R2", Wall: "N1", Distance: 1, Legs: []int{0, 2}}, "", "must follow each other"},
		{"no such leg", edit.AlongWall{Run: "R2", Wall: "N1", Distance: 1, Legs: []int{3}}, "", "legs 1 to 3, found 4 to 4"},
		{"a box is no wall", edit.AlongWall{Run: "R2", Wall: "B1", Distance: 1}, "", "B1 is a box"},
		{"nothing there", edit.AlongWall{Run: "R2", Wall: "X", Distance: 1}, "", `id "X"`},
		{"no run", edit.AlongWall{Run: "N1", Wall: "N1", Distance: 1}, "", "expected a run"},
		{"too deep inside", edit.AlongWall{Run: "R1", Wall: "A1", Distance: -4 * geom.Metre}, "", "bends back"},
	} {
		n, err := tt.op.Apply(s)
		if tt.fail != "" {
			if err == nil || !strings.Contains(err.Error(), tt.fail) {
				t.Errorf("%s: got error %v, want one with %q", tt.name, err, tt.fail)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		r, _ := n.Runs.Get(tt.op.Run)
		words := map[network.Support]string{network.Buried: "buried", network.InDuct: "duct", network.Clipped: "clipped"}
		var got []string
		for i, p := range doc.RunPath(n, r) {
			if i > 0 {
				got = append(got, words[r.Legs[i-1].Support])
			}
			got = append(got, doc.Fixed(p.X, geom.Metre)+","+doc.Fixed(p.Y, geom.Metre))
		}
		if g := strings.Join(got, " "); g != tt.want {
			t.Errorf("%s:\n got %s\nwant %s", tt.name, g, tt.want)
		}
		if again, err := tt.op.Apply(n); err != nil || !slices.Equal(pathOf(again, tt.op.Run), pathOf(n, tt.op.Run)) && tt.op.Distance > 0 {
			t.Errorf("%s: done again it moves to %v, %v", tt.name, pathOf(again, tt.op.Run), err)
		}
	}
}

func pathOf(s *doc.Scheme, id doc.ID) []geom.Point {
	if s == nil {
		return nil
	}
	r, _ := s.Runs.Get(id)
	return doc.RunPath(s, r)
}

// TestDimensionFollows: an anchor goes with its corner, whatever number that
// gets, and stays where its thing or corner was.
func TestDimensionFollows(t *testing.T) {
	s := site()
	s.Dimensions = doc.NewSet(&doc.Dimension{ID: "D1", Tag: "D1", Kind: doc.Aligned, From: doc.Anchor{On: "R2", Corner: 2}, To: doc.Anchor{On: "B1"}, Offset: geom.Metre})
	at := func(s *doc.Scheme) (geom.Point, geom.Point) {
		d, _ := s.Dimensions.Get("D1")
		sh := doc.ShapeOf(s, d)
		return sh.From, sh.To
	}
	bend, box := at(s)
	for _, tt := range []struct {
		name     string
		op       edit.Operation
		from, to geom.Point
		corner   int // of From; -1 in the air
	}{
		{"a corner before it", edit.InsertVertex{ID: "R2", Index: 1, At: geom.Pt(15.5, 1)}, bend, box, 3},
		{"a corner behind it", edit.InsertVertex{ID: "R2", Index: 3, At: geom.Pt(18, 3)}, bend, box, 2},
		{"the one before goes", edit.DeleteVertex{ID: "R2", Index: 1}, bend, box, 1},
		{"its own goes", edit.DeleteVertex{ID: "R2", Index: 2}, bend, box, -1},
		{"its own moves", edit.MoveVertex{ID: "R2", Index: 2, To: geom.Pt(17, 2)}, geom.Pt(17, 2), box, 2},
		{"the box moves", edit.MovePoints{IDs: []doc.ID{"B1"}, By: geom.Pt(1, 1)}, bend, box.Add(geom.Pt(1, 1)), 2},
		{"the box goes", edit.Delete{IDs: []doc.ID{"B1"}}, bend, box, 2},
		{"the run goes", edit.Delete{IDs: []doc.ID{"R2"}}, bend, box, -1},
		{"the run is split there", edit.SplitRun{Run: "R2", Leg: 0, At: geom.Pt(15.5, 1.5), New: "R9",
			Box: &doc.Box{ID: "B9", Stock: "box-85"}}, bend, box, -1},
		{"the dimension is moved", edit.MovePoints{IDs: []doc.ID{"D1"}, By: geom.Pt(1, 1)}, bend, box, 2},
	} {
		n, err := tt.op.Apply(s)
		if err != nil {
			t.Errorf("%s: %v", tt.name, err)
			continue
		}
		if err := doc.Validate(n); err != nil {
			t.Errorf("%s: %v", tt.name, err)
		}
		d, _ := n.Dimensions.Get("D1")
		from, to := at(n)
		if from != tt.from || to != tt.to || (d.From.On == "") != (tt.corner < 0) || tt.corner >= 0 && d.From.Corner != tt.corner {
			t.Errorf("%s: measures from %v (%+v) to %v, want %v to %v", tt.name, from, d.From, to, tt.from, tt.to)
		}
	}
	moved, err := edit.MovePoints{IDs: []doc.ID{"D1"}, By: geom.Pt(0, 1)}.Apply(s)
	if err != nil {
		t.Fatal(err)
	}
	d, _ := moved.Dimensions.Get("D1")
	if d.Offset == geom.Metre {
		t.Error("moving a dimension on two things did not move its line")
	}
}
