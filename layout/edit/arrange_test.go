package edit_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// row is a supply point, a box and four lamps in a crooked chain of runs, a
// second supply-side run into the box, and a wall.
func row() *doc.Scheme {
	s := doc.New("uk-18")
	s.Supplies = doc.NewSet(&doc.Supply{ID: "SP1", Tag: "SP1", Nominal: 230})
	s.Boxes = doc.NewSet(&doc.Box{ID: "B1", Tag: "B1", Stock: "box-85", Place: doc.Place{At: geom.Pt(2, 0)}})
	var lamps []*doc.Lamp
	for i, p := range []geom.Point{geom.Pt(4, 1), geom.Pt(5, 2), geom.Pt(9, 0), geom.Pt(10, 4)} {
		tag := fmt.Sprintf("L%d", 7-i)
		lamps = append(lamps, &doc.Lamp{ID: doc.ID(tag), Tag: tag, Stock: "brick-3w", Place: doc.Place{At: p}, Aim: 30, Tilt: 10, Spin: 5})
	}
	s.Lamps = doc.NewSet(lamps...)
	leg := []doc.Leg{{Support: network.Buried, Depth: 450 * geom.Millimetre}}
	run := func(id string, from, to doc.ID) *doc.Run {
		return &doc.Run{ID: doc.ID(id), Tag: id, Cable: "swa-3x1.5", From: doc.End{On: from}, To: doc.End{On: to}, Legs: leg}
	}
	s.Runs = doc.NewSet(run("R1", "SP1", "B1"), run("R2", "B1", "L7"), run("R3", "L7", "L6"), run("R4", "L6", "L5"), run("R5", "L4", "L5"))
	s.Lines = doc.NewSet(&doc.Line{ID: "N1", Tag: "N1", Kind: "wall", Path: []geom.Point{geom.Pt(0, 6), geom.Pt(3, 7)}})
	return s
}

var four = []doc.ID{"L7", "L6", "L5", "L4"}

// places writes where the things stand.
func places(s *doc.Scheme, ids ...doc.ID) string {
	var out []string
	for _, id := range ids {
		p, _ := doc.PointOf(s, id)
		out = append(out, fmt.Sprintf("%g,%g", p.At.X.Metres(), p.At.Y.Metres()))
	}
	return strings.Join(out, " ")
}

func TestAlignAndDistribute(t *testing.T) {
	for _, c := range []struct {
		op   edit.Operation
		name string
		want string
	}{
		{edit.Align{IDs: four, How: edit.AlignLeft}, "Align 4 lamps left", "4,1 4,2 4,0 4,4"},
		{edit.Align{IDs: four, How: edit.AlignRight}, "Align 4 lamps right", "10,1 10,2 10,0 10,4"},
		{edit.Align{IDs: four, How: edit.AlignTop}, "Align 4 lamps to the top", "4,4 5,4 9,4 10,4"},
		{edit.Align{IDs: append([]doc.ID{"R3"}, four...), How: edit.AlignBottom}, "Align 4 lamps to the bottom", "4,0 5,0 9,0 10,0"},
		{edit.Align{IDs: four, How: edit.AlignCentreX}, "Align 4 lamps on an upright line", "7,1 7,2 7,0 7,4"},
		{edit.Align{IDs: four, How: edit.AlignCentreY}, "Align 4 lamps on a level line", "4,2 5,2 9,2 10,2"},
		// Feet on the line from 4,1 to 10,4 of slope 1/2: t = (p-a)·(6,3)/45.
		{edit.Align{IDs: four, How: edit.AlignLine}, "Align 4 lamps between first and last", "4,1 5.2,1.6 7.6,2.8 10,4"},
		{edit.Distribute{IDs: four, How: edit.SpreadX}, "Distribute 4 lamps across", "4,1 6,2 8,0 10,4"},
		{edit.Distribute{IDs: four, How: edit.SpreadY}, "Distribute 4 lamps up and down", "4,1.333333 5,2.666667 9,0 10,4"},
		{edit.Distribute{IDs: four, How: edit.SpreadX, Spacing: geom.Metre}, "Distribute 4 lamps across", "4,1 5,2 6,0 7,4"},
		{edit.Distribute{IDs: four, How: edit.SpreadRow}, "Distribute 4 lamps in a straight row", "4,1 6,2 8,3 10,4"},
		// The chain is L7 L6 L5 L4 although R5 was drawn the other way; its first leg is √2 long, the
		// second lamp is (2-√2) on along (4,-2)/√20. Lengths are rounded to the micrometre.
		{edit.Distribute{IDs: []doc.ID{"L7", "L5", "L6", "L4"}, How: edit.SpreadChain, Spacing: geom.Metre}, "Distribute 4 lamps along the chain", "4,1 4.707107,1.707107 5.523943,1.738029 6.41837,1.290815"},
	} {
		n, err := c.op.Apply(row())
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if got := places(n, four...); got != c.want || edit.Title(c.op, row()) != c.name {
			t.Errorf("%s at %s, want %s at %s", edit.Title(c.op, row()), got, c.name, c.want)
		}
	}
}

// Places on an arc, by hand: a half circle of radius 1 m about 0,0.
func TestDistributeOnArc(t *testing.T) {
	s := doc.New("uk-18")
	at := func(id string, x, y float64) *doc.Lamp {
		return &doc.Lamp{ID: doc.ID(id), Tag: id, Stock: "brick-3w", Place: doc.Place{At: geom.Pt(x, y)}}
	}
	s.Lamps = doc.NewSet(at("L1", -1, 0), at("L2", -0.9, 0.2), at("L3", 0, 1), at("L4", 0.9, 0.3), at("L5", 1, 0))
	ids := []doc.ID{"L1", "L2", "L3", "L4", "L5"}
	n := do(t, s, edit.Distribute{IDs: ids, How: edit.SpreadArc})
	if got, want := places(n, ids...), "-1,0 -0.707107,0.707107 0,1 0.707107,0.707107 1,0"; got != want {
		t.Errorf("at %s, want %s", got, want)
	}
	// A metre along a circle of radius 1 m is one radian: cos 1 = 0.540302, sin 1 = 0.841471.
	n = do(t, s, edit.Distribute{IDs: ids, How: edit.SpreadArc, Spacing: geom.Metre})
	if got, want := places(n, "L2"), "-0.540302,0.841471"; got != want {
		t.Errorf("L2 at %s, want %s", got, want)
	}
}

func TestMirrorAndRotate(t *testing.T) {
	s := row()
	m := do(t, s, edit.MirrorUpright(s, four)) // about x = 7
	if got, want := places(m, four...), "10,1 9,2 5,0 4,4"; got != want {
		t.Errorf("mirrored to %s, want %s", got, want)
	}
	l, _ := m.Lamps.Get("L7")
	if l.Aim != 330 || l.Spin != -5 || l.Tilt != 10 || l.Tag != "L7" {
		t.Errorf("mirrored lamp %+v, want aim 330, spin -5", l)
	}
	m = do(t, s, edit.MirrorLevel(s, four)) // about y = 2
	if l, _ = m.Lamps.Get("L5"); places(m, "L5") != "9,4" || l.Aim != 150 {
		t.Errorf("L5 at %s aims %g, want 9,4 and 150", places(m, "L5"), l.Aim)
	}
	// About the rising diagonal x and y change places; 30° from up becomes 30° from right.
	m = do(t, s, edit.Mirror{IDs: four, B: geom.Pt(1, 1)})
	if l, _ = m.Lamps.Get("L5"); places(m, "L5") != "0,9" || l.Aim != 60 {
		t.Errorf("L5 at %s aims %g, want 0,9 and 60", places(m, "L5"), l.Aim)
	}
	r := do(t, s, edit.Rotate{IDs: four, About: geom.Pt(4, 1), Degrees: 90})
	if l, _ = r.Lamps.Get("L5"); places(r, "L5") != "5,6" || l.Aim != 300 {
		t.Errorf("L5 at %s aims %g, want 5,6 and 300", places(r, "L5"), l.Aim)
	}
	r = do(t, s, edit.Rotate{IDs: four, About: geom.Pt(4, 1), Degrees: -30})
	// (5,-1) by -30°: x = 5·cos30 - 1·sin30 = 3.830127, y = -5·sin30 - cos30 = -3.366025.
	if got := places(r, "L5"); got != "7.830127,-2.366025" {
		t.Errorf("L5 at %s", got)
	}
	if got := edit.Title(edit.Rotate{IDs: four, Degrees: -30}, s); got != "Rotate 4 lamps 30° clockwise" {
		t.Error(got)
	}
}

// A movement sensor turns as a lamp does; one that is not aimed stays so.
func TestTurnSensor(t *testing.T) {
	s := row()
	s.Gear = doc.NewSet(
		&doc.Gear{ID: "G1", Tag: "G1", Place: doc.Place{At: geom.Pt(4, 1)}, Stock: "sensor", Aim: 30},
		&doc.Gear{ID: "G2", Tag: "G2", Place: doc.Place{At: geom.Pt(5, 1)}, Stock: "sensor"})
	both := []doc.ID{"G1", "G2"}
	for _, c := range []struct {
		op   edit.Operation
		want float64
	}{
		{edit.Rotate{IDs: both, About: geom.Pt(4, 1), Degrees: 90}, 300},
		{edit.Rotate{IDs: both, About: geom.Pt(4, 1), Degrees: 30}, 360}, // straight up is not unaimed
		{edit.MirrorUpright(s, both), 330},
	} {
		m := do(t, s, c.op)
		a, _ := m.Gear.Get("G1")
		b, _ := m.Gear.Get("G2")
		if a.Aim != c.want || b.Aim != 0 {
			t.Errorf("%s: aims %g and %g, want %g and 0", c.op.Name(), a.Aim, b.Aim, c.want)
		}
	}
}

// A dimension of its own is mirrored and turned with the rest and reads the
// same.
func TestTurnDimension(t *testing.T) {
	s := row()
	s.Dimensions = doc.NewSet(&doc.Dimension{ID: "D1", Tag: "D1", Kind: doc.Horizontal,
		From: doc.Anchor{At: geom.Pt(1, 1)}, To: doc.Anchor{At: geom.Pt(4, 2)}, Offset: geom.Metre})
	n := do(t, s, edit.Rotate{IDs: []doc.ID{"D1"}, Degrees: 90})
	d, _ := n.Dimensions.Get("D1")
	sh := doc.ShapeOf(n, d)
	if d.Kind != doc.Vertical || sh.Measured != 3*geom.Metre || sh.A != geom.Pt(-2, 1) {
		t.Errorf("turned %+v measures %v with its line from %v, want 3 m from -2,1", d, sh.Measured, sh.A)
	}
	n = do(t, s, edit.Mirror{IDs: []doc.ID{"D1"}, B: geom.Pt(1, 0)})
	d, _ = n.Dimensions.Get("D1")
	if sh = doc.ShapeOf(n, d); sh.Measured != 3*geom.Metre || sh.A != geom.Pt(1, -2) {
		t.Errorf("mirrored %+v with its line from %v", d, sh.A)
	}
}

func TestSplit(t *testing.T) {
	s := small()
	r1, _ := s.Runs.Get("R1")
	c := *r1
	c.Slack, c.Cut = 2, q.Some(q.Metre(9))
	s.Runs = s.Runs.With(&c)
	op := edit.SplitRun{Run: "R1", Leg: 0, At: geom.Pt(0, 1), Box: &doc.Box{ID: "b", Stock: "box-85"}, New: "r"}
	if got := edit.Title(op, s); got != "Split R1 at B1" {
		t.Error(got)
	}
	n := do(t, s, op)
	a, _ := n.Runs.Get("R1")
	b, _ := n.Runs.Get("r")
	if got, want := path(n, "R1"), []geom.Point{geom.Pt(0, 0), geom.Pt(0, 1)}; !slices.Equal(got, want) {
		t.Errorf("first half %v", got)
	}
	if got, want := path(n, "r"), []geom.Point{geom.Pt(0, 1), geom.Pt(0, 2), geom.Pt(4, 2)}; !slices.Equal(got, want) {
		t.Errorf("second half %v", got)
	}
	if b.Tag != "R3" || a.Cut.Known || b.Cut.Known || a.Slack != 0 || b.Slack != 2 || a.Legs[0].Depth != b.Legs[0].Depth {
		t.Errorf("halves %+v and %+v", a, b)
	}
}

func TestJoin(t *testing.T) {
	s := row()
	s.Decisions = []doc.Decision{{Code: "EAR-01", Subject: "B1", Reason: "seen"}, {Code: "EAR-01", Subject: "R2", Reason: "seen"}}
	n := do(t, s, edit.JoinRuns{A: "R2", B: "R1"})
	r, _ := n.Runs.Get("R2")
	if r.From.On != "SP1" || r.To.On != "L7" || len(r.Legs) != 2 || r.Legs[0].To != geom.Pt(2, 0) || n.Boxes.Len() != 0 || len(n.Decisions) != 1 {
		t.Errorf("joined %+v, %d boxes, decisions %v", r, n.Boxes.Len(), n.Decisions)
	}
	// With something else on it the box stays.
	third := &doc.Run{ID: "R9", Tag: "R9", Cable: "swa-3x1.5", From: doc.End{On: "B1"}, To: doc.End{At: geom.Pt(2, -3)}, Legs: []doc.Leg{{}}}
	s.Runs = s.Runs.With(third)
	if n = do(t, s, edit.JoinRuns{A: "R1", B: "R2"}); n.Boxes.Len() != 1 {
		t.Error("the box went although R9 is on it")
	}
	// Open ends, the second run drawn towards the meeting point.
	open := &doc.Run{ID: "R8", Tag: "R8", Cable: "swa-3x1.5", From: doc.End{On: "L4"}, To: doc.End{At: geom.Pt(2, -3.04)}, Legs: []doc.Leg{{To: geom.Pt(7, -3)}, {}}}
	s.Runs = s.Runs.With(open)
	n = do(t, s, edit.JoinRuns{A: "R9", B: "R8"})
	if got, want := path(n, "R9"), []geom.Point{geom.Pt(2, 0), geom.Pt(2, -3), geom.Pt(7, -3), geom.Pt(10, 4)}; !slices.Equal(got, want) {
		t.Errorf("joined %v, want %v", got, want)
	}
}

func TestTurnLeg(t *testing.T) {
	s := small()
	n := do(t, s, edit.TurnLeg{Run: "R1", Leg: 1, Support: network.InDuct, Depth: 500 * geom.Millimetre})
	r, _ := n.Runs.Get("R1")
	if l := r.Legs[1]; l.Support != network.InDuct || l.Depth != 500*geom.Millimetre || r.Legs[0].Support != network.Buried {
		t.Errorf("legs %+v", r.Legs)
	}
	n = do(t, n, edit.TurnLeg{Run: "R1", Leg: -1, Support: network.InDuct, Depth: 450 * geom.Millimetre})
	if r, _ = n.Runs.Get("R1"); r.Legs[0].Depth != 600*geom.Millimetre || r.Legs[1].Depth != 500*geom.Millimetre {
		t.Errorf("a depth that was there is lost: %+v", r.Legs)
	}
	if got := edit.Title(edit.TurnLeg{Run: "R1", Leg: 1, Support: network.InTree}, s); got != "Turn leg 2 of R1 in a tree" {
		t.Error(got)
	}
}

func TestLock(t *testing.T) {
	s := row()
	lock := edit.SetLock{IDs: []doc.ID{"L7", "R2", "N1", "B1"}, On: true}
	if got := edit.Title(lock, s); got != "Lock 4 items" {
		t.Error(got)
	}
	s = do(t, s, lock)
	if n := do(t, s, lock); n != s {
		t.Error("locking twice is a step")
	}
	free := *(func() *doc.Lamp { l, _ := s.Lamps.Get("L7"); return l })()
	free.Place.At, free.Lock = geom.Pt(0, 9), false
	for _, c := range []struct {
		op   edit.Operation
		want string
	}{
		{edit.MovePoints{IDs: []doc.ID{"L6", "L7"}, By: geom.Pt(1, 0)}, "L7 is locked in its place; unlock it first (Ctrl+L)"},
		{edit.Delete{IDs: []doc.ID{"L6", "N1"}}, "N1 is locked"},
		{edit.MoveVertex{ID: "N1", Index: 0}, "N1 is locked"},
		{edit.InsertVertex{ID: "R2", Index: 1, At: geom.Pt(3, 3)}, "R2 is locked"},
		{edit.SetEnd{Run: "R2", End: doc.End{On: "L4"}}, "R2 is locked"},
		{edit.SetLamp{Lamp: &free}, "L7 is locked"},
		{edit.Align{IDs: []doc.ID{"L7", "L4"}, How: edit.AlignRight}, "L7 is locked"},
		{edit.MirrorUpright(s, four), "L7 is locked"},
		{edit.SplitRun{Run: "R2", At: geom.Pt(3, 0.5), Box: &doc.Box{ID: "b", Stock: "box-85"}, New: "r"}, "R2 is locked"},
		{edit.JoinRuns{A: "R1", B: "R2"}, "R2 is locked"},
		{edit.Cut{IDs: []doc.ID{"B1"}}, "B1 is locked"},
	} {
		if _, err := c.op.Apply(s); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %s", c.op.Name(), err, c.want)
		}
	}
	// What it is may change, and what stays may be locked: the others line up with it.
	do(t, s, edit.SetCable{Runs: []doc.ID{"R2"}, Cable: "elv-2x2.5"})
	if n := do(t, s, edit.Align{IDs: []doc.ID{"L7", "L4"}, How: edit.AlignLeft}); places(n, "L4") != "4,4" {
		t.Error(places(n, "L4"))
	}
	z := small()
	z = do(t, z, edit.SetLock{IDs: []doc.ID{"Z1"}, On: true})
	if _, err := (edit.SetZone{Lamps: []doc.ID{"L1"}}).Apply(z); err == nil || !strings.Contains(err.Error(), "zone Z1 is locked") {
		t.Error(err)
	}
}

func TestNumberLamps(t *testing.T) {
	s := row()
	s.Lamps = s.Lamps.With(&doc.Lamp{ID: "x", Tag: "Gate", Stock: "brick-3w"}).With(&doc.Lamp{ID: "y", Tag: "L1", Stock: "brick-3w"})
	s.Marks = doc.NewSet(&doc.Mark{ID: "m", Tag: "L2", Kind: "tree"})
	n := do(t, s, edit.NumberLamps{})
	var got []string
	for _, id := range append(slices.Clone(four), "x", "y", "m") {
		got = append(got, doc.TagOf(n, id))
	}
	if want := "L1 L3 L4 L5 Gate L6 L2"; strings.Join(got, " ") != want {
		t.Errorf("numbered %v, want %s", got, want)
	}
	if again := do(t, n, edit.NumberLamps{}); again != n {
		t.Error("numbering again is a step")
	}
}

// A short branch is numbered before the long line goes on.
func TestNumberLampsAtBranches(t *testing.T) {
	s := row()
	s.Lamps = s.Lamps.With(&doc.Lamp{ID: "side", Tag: "L9", Stock: "brick-3w"})
	s.Runs = s.Runs.With(&doc.Run{ID: "R9", Tag: "R9", From: doc.End{On: "L7"}, To: doc.End{On: "side"}, Legs: []doc.Leg{{}}})
	n := do(t, s, edit.NumberLamps{})
	if a, b := doc.TagOf(n, "side"), doc.TagOf(n, "L6"); a != "L2" || b != "L3" {
		t.Errorf("branch %s, line goes on with %s", a, b)
	}
}

func TestPaste(t *testing.T) {
	s := row()
	s.Title = "Garden"
	s.Zones = doc.NewSet(&doc.Zone{ID: "Z1", Tag: "Z1", Name: "Path", Number: 1})
	s = do(t, s, edit.SetZone{Lamps: []doc.ID{"L7"}, Zone: "Z1"})
	s = do(t, s, edit.SetLock{IDs: []doc.ID{"L7"}, On: true})
	f, ok := doc.FragmentOf(s, []doc.ID{"L7", "L6", "R2", "R3"})
	if !ok || len(f.Outside) != 1 || f.Outside[0].Tag != "B1" {
		t.Fatalf("fragment %+v", f)
	}
	k := 0
	p := edit.NewPaste(f, geom.Pt(0, 10), func() doc.ID { k++; return doc.ID(fmt.Sprintf("new%d", k)) })
	if got := edit.Title(p, s); got != "Paste 4 items" {
		t.Error(got)
	}
	n := do(t, s, p)
	l, _ := n.Lamps.Get(p.IDs["L7"])
	r2, _ := n.Runs.Get(p.IDs["R2"])
	r3, _ := n.Runs.Get(p.IDs["R3"])
	if l.Tag != "L8" || l.Lock || l.Zone != "Z1" || l.Place.At != geom.Pt(4, 11) || n.Zones.Len() != 1 {
		t.Errorf("lamp %+v, %d zones", l, n.Zones.Len())
	}
	if r2.From.On != "B1" || r2.To.On != l.ID || r3.From.On != l.ID || r3.To.On != p.IDs["L6"] {
		t.Errorf("in the same scheme: %+v and %+v", r2, r3)
	}
	// Elsewhere the end is open where the box would be, and the zone comes along once.
	other := doc.New("uk-18")
	other.Boxes = s.Boxes // a box that happens to have the same id and tag
	other.Zones = doc.NewSet(&doc.Zone{ID: "Z1", Tag: "Z1", Name: "Pond", Number: 4})
	n = do(t, other, p)
	r2, _ = n.Runs.Get(p.IDs["R2"])
	l, _ = n.Lamps.Get(p.IDs["L7"])
	z, _ := n.Zones.Get(l.Zone)
	if r2.From.On != "" || r2.From.At != geom.Pt(2, 10) || z.Name != "Path" || z.Number != 5 || z.Tag != "Z2" {
		t.Errorf("elsewhere: %+v, zone %+v", r2, z)
	}
	if n = do(t, n, edit.NewPaste(f, geom.Pt(0, 20), func() doc.ID { k++; return doc.ID(fmt.Sprintf("new%d", k)) })); n.Zones.Len() != 2 {
		t.Errorf("%d zones after pasting twice, want 2", n.Zones.Len())
	}
}

func TestArrangeRefusals(t *testing.T) {
	s := row()
	shared := row()
	r3, _ := shared.Runs.Get("R3")
	c := *r3
	c.With = "R4"
	shared.Runs = shared.Runs.With(&c)
	box := &doc.Box{ID: "b", Stock: "box-85"}
	thin := do(t, s, edit.SetCable{Runs: []doc.ID{"R2"}, Cable: "elv-2x2.5"})
	for _, c := range []struct {
		s    *doc.Scheme
		op   edit.Operation
		want string
	}{
		{s, edit.Align{IDs: []doc.ID{"L7", "R3"}}, "to align, select at least 2 things that stand by themselves; found 1"},
		{s, edit.Align{IDs: []doc.ID{"L7", "L6"}, How: edit.AlignLine}, "at least 3"},
		{s, edit.Distribute{IDs: []doc.ID{"L7", "L6"}}, "at least 3"},
		{s, edit.Distribute{IDs: four, How: edit.SpreadArc, Spacing: 30 * geom.Metre}, "more than once round"},
		{s, edit.Mirror{IDs: four}, "the mirror line has no length"},
		{s, edit.Mirror{B: geom.Pt(1, 0)}, "nothing is selected to mirror"},
		{s, edit.Rotate{IDs: four, Degrees: 400}, "found a turn of 400°"},
		{s, edit.SplitRun{Run: "R2", At: geom.Pt(2, 0), Box: box, New: "r"}, "R2 ends there"},
		{s, edit.SplitRun{Run: "R2", Leg: 1, At: geom.Pt(3, 0), Box: box, New: "r"}, "R2 has no leg 2, it has 1"},
		{s, edit.SplitRun{Run: "L7", Box: box}, "L7 is a lamp, expected a run"},
		{s, edit.SplitRun{Run: "R2", At: geom.Pt(3, 0), New: "r"}, "takes a box from the stock book"},
		{shared, edit.SplitRun{Run: "R4", At: geom.Pt(7, 1), Box: box, New: "r"}, "R4 shares its cable with R3"},
		{s, edit.JoinRuns{A: "R3", B: "R4"}, "R3 and R4 meet at lamp L6, which stays between them"},
		{s, edit.JoinRuns{A: "R1", B: "R5"}, "meet neither at a box nor at open ends"},
		{s, edit.JoinRuns{A: "R1", B: "R1"}, "joining takes two runs"},
		{thin, edit.JoinRuns{A: "R1", B: "R2"}, "R1 is swa-3x1.5 and R2 is elv-2x2.5; only runs of one cable"},
		{shared, edit.JoinRuns{A: "R3", B: "R2"}, "R3 shares its cable with R4"},
		{s, edit.TurnLeg{Run: "R1", Leg: 5}, "R1 has no leg 6"},
		{s, edit.SetLock{}, "nothing is selected to lock"},
		{doc.New("uk-18"), edit.NumberLamps{}, "no lamp with a number"},
		{s, edit.Paste{}, "there is nothing to paste"},
		{s, edit.AddMany{Entities: []doc.Entity{box, box}}, `the id "b" is taken`},
	} {
		if n, err := c.op.Apply(c.s); err == nil || n != nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: scheme %v, %v, want %s", c.op.Name(), n != nil, err, c.want)
		}
	}
}
