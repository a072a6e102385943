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

// small is a supply point, two lamps in a zone, an area, a run of two legs
// between supply and lamp, and one from the lamp into the air.
func small() *doc.Scheme {
	s := doc.New("uk-18")
	s.Supplies = doc.NewSet(&doc.Supply{ID: "SP1", Tag: "SP1", Nominal: 230})
	s.Lamps = doc.NewSet(
		&doc.Lamp{ID: "L1", Tag: "L1", Place: doc.Place{At: geom.Pt(4, 2)}, Stock: "pillar-10w", Zone: "Z1"},
		&doc.Lamp{ID: "L2", Tag: "L2", Place: doc.Place{At: geom.Pt(6, 2)}, Stock: "pillar-10w", Zone: "Z1"},
	)
	s.Zones = doc.NewSet(&doc.Zone{ID: "Z1", Tag: "Z1", Number: 1})
	s.Runs = doc.NewSet(
		&doc.Run{ID: "R1", Tag: "R1", From: doc.End{On: "SP1"}, To: doc.End{On: "L1"}, Legs: []doc.Leg{
			{To: geom.Pt(0, 2), Support: network.Buried, Depth: 600 * geom.Millimetre},
			{Support: network.Clipped},
		}},
		&doc.Run{ID: "R2", Tag: "R2", From: doc.End{On: "L1"}, To: doc.End{At: geom.Pt(9, 9)}, Legs: []doc.Leg{{}}},
	)
	s.Areas = doc.NewSet(&doc.Area{ID: "A1", Tag: "A1", Kind: "lawn", Ring: []geom.Point{geom.Pt(0, 0), geom.Pt(1, 0), geom.Pt(1, 1)}})
	s.Decisions = []doc.Decision{{Code: "EAR-01", Subject: "L1", Reason: "electrode"}, {Code: "NTF-01", Reason: "done"}}
	return s
}

func do(t *testing.T, s *doc.Scheme, op edit.Operation) *doc.Scheme {
	t.Helper()
	n, err := op.Apply(s)
	if err != nil {
		t.Fatal(err)
	}
	if err := doc.Validate(n); err != nil {
		t.Fatal(err)
	}
	return n
}

func path(s *doc.Scheme, id doc.ID) []geom.Point {
	r, _ := s.Runs.Get(id)
	return doc.RunPath(s, r)
}

func TestRefusals(t *testing.T) {
	locked := small()
	locked.Lamps = locked.Lamps.With(&doc.Lamp{ID: "L2", Tag: "L2", Stock: "pillar-10w", Lock: true})
	for _, c := range []struct {
		name string
		s    *doc.Scheme
		op   edit.Operation
		want string
	}{
		{"id taken", small(), edit.Place{Entity: &doc.Box{ID: "L1", Stock: "box-85"}}, `the id "L1" is taken by lamp L1`},
		{"tag taken", small(), edit.Place{Entity: &doc.Box{ID: "b", Tag: "L1", Stock: "box-85"}}, "the tag L1 is taken by another lamp"},
		{"run is no point", small(), edit.Place{Entity: &doc.Run{ID: "r"}}, "a run does not stand at one point"},
		{"nothing", small(), edit.Place{}, "there is nothing to place"},
		{"nil run", small(), edit.AddRun{}, "there is nothing to add"},
		{"nil lamp", small(), edit.SetLamp{}, "there is nothing to change"},
		{"run without legs", small(), edit.AddRun{Run: &doc.Run{ID: "r", From: doc.End{On: "L1"}, To: doc.End{On: "L2"}}}, "run R3: legs: found none, expected at least one leg"},
		{"ring of two", small(), edit.AddArea{Area: &doc.Area{ID: "a", Kind: "lawn", Ring: make([]geom.Point, 2)}}, "area A2: ring: found 2 points, expected from 3 to 10000 points"},
		{"last corner", small(), edit.DeleteVertex{ID: "A1", Index: 0}, "A1 has only 3 corners and needs them"},
		{"last leg", small(), edit.DeleteVertex{ID: "R2", Index: 1}, "R2 has only one leg; delete the run instead"},
		{"joined end", small(), edit.MoveVertex{ID: "R1", Index: 2}, "this end of R1 is joined to L1"},
		{"no corner", small(), edit.MoveVertex{ID: "R1", Index: 3}, "R1 has no corner 4, it has 3"},
		{"corner of a lamp", small(), edit.MoveVertex{ID: "L1"}, "lamp L1 has no corners"},
		{"unknown id", small(), edit.Delete{IDs: []doc.ID{"L1", "L9"}}, `there is nothing with the id "L9" to delete`},
		{"empty selection", small(), edit.MovePoints{By: geom.Pt(1, 0)}, "nothing is selected to move"},
		{"zone has no place", small(), edit.MovePoints{IDs: []doc.ID{"Z1"}, By: geom.Pt(1, 0)}, "zone Z1 has no place of its own"},
		{"locked lamp", locked, edit.MovePoints{IDs: []doc.ID{"L1", "L2"}, By: geom.Pt(1, 0)}, "L2 is locked in its place"},
		{"off the plan", small(), edit.MovePoints{IDs: []doc.ID{"L1"}, By: geom.Pt(9999, 0)}, "lamp L1: at: found [10003 m, 2 m], expected a point within ±10000 m"},
		{"no such leg", small(), edit.SetLeg{Run: "R1", Index: 2}, "R1 has no leg 3, it has 2"},
		{"lamp is no run", small(), edit.SetCable{Runs: []doc.ID{"L1"}}, "L1 is a lamp, expected a run"},
		{"no such zone", small(), edit.SetZone{Lamps: []doc.ID{"L1"}, Zone: "Z2"}, `lamp L1: zone: found "Z2", expected a zone of the scheme`},
		{"self", small(), edit.SetEnd{Run: "R1", End: doc.End{On: "SP1"}}, "another place than the run starts from"},
		{"reason missing", small(), edit.Overrule{Decision: doc.Decision{Code: "VD-02"}}, "decision 3: reason: found nothing, expected a text"},
		{"nothing decided", small(), edit.Withdraw{Code: "VD-02"}, "nothing was decided about VD-02"},
		{"no rule set", small(), edit.SetRules{}, "rules: found nothing, expected a text"},
		{"batch half refused", small(), edit.Batch{Ops: []edit.Operation{edit.SetTitle{Title: "x"}, edit.Delete{}}}, "nothing is selected to delete"},
	} {
		n, err := c.op.Apply(c.s)
		if err == nil || n != nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: scheme %v, error %v, want %s", c.name, n != nil, err, c.want)
		}
	}
}

func TestPlacedGetsTheNextTag(t *testing.T) {
	s := do(t, small(), edit.Place{Entity: &doc.Lamp{ID: "x", Stock: "pillar-10w"}})
	if got := doc.TagOf(s, "x"); got != "L3" {
		t.Errorf("tag %q, want L3", got)
	}
	z := do(t, s, edit.AddZone{Zone: &doc.Zone{ID: "z"}})
	if e, _ := z.Zones.Get("z"); e.Number != 2 || e.Tag != "Z2" {
		t.Errorf("zone %+v, want number 2 and tag Z2", e)
	}
}

// Joined ends follow what they are joined to; corners only with their run.
func TestMove(t *testing.T) {
	s := do(t, small(), edit.MovePoints{IDs: []doc.ID{"L1"}, By: geom.Pt(1, 1)})
	if got, want := path(s, "R1"), []geom.Point{geom.Pt(0, 0), geom.Pt(0, 2), geom.Pt(5, 3)}; !slices.Equal(got, want) {
		t.Errorf("R1 runs %v, want %v", got, want)
	}
	s = do(t, small(), edit.MovePoints{IDs: []doc.ID{"R1", "R2"}, By: geom.Pt(1, 1)})
	if got, want := path(s, "R1"), []geom.Point{geom.Pt(0, 0), geom.Pt(1, 3), geom.Pt(4, 2)}; !slices.Equal(got, want) {
		t.Errorf("R1 runs %v, want %v", got, want)
	}
	if got, want := path(s, "R2"), []geom.Point{geom.Pt(4, 2), geom.Pt(10, 10)}; !slices.Equal(got, want) {
		t.Errorf("R2 runs %v, want %v", got, want)
	}
	was := small()
	if n := do(t, was, edit.MovePoints{IDs: []doc.ID{"L1"}}); n != was {
		t.Error("a move by nothing made a new scheme")
	}
	now := do(t, was, edit.MovePoints{IDs: []doc.ID{"A1"}, By: geom.Pt(1, 0)})
	if a, _ := now.Areas.Get("A1"); a.Ring[0] != geom.Pt(1, 0) {
		t.Errorf("area starts at %v", a.Ring[0])
	}
}

func TestDelete(t *testing.T) {
	s := do(t, small(), edit.Delete{IDs: []doc.ID{"L1", "Z1"}})
	if got, want := path(s, "R1"), []geom.Point{geom.Pt(0, 0), geom.Pt(0, 2), geom.Pt(4, 2)}; !slices.Equal(got, want) {
		t.Errorf("R1 runs %v, want %v", got, want)
	}
	if r, _ := s.Runs.Get("R2"); r.From.On != "" || r.From.At != geom.Pt(4, 2) {
		t.Errorf("R2 starts %+v, want in the air at L1's place", r.From)
	}
	if l, _ := s.Lamps.Get("L2"); l.Zone != "" {
		t.Errorf("L2 is still in zone %q", l.Zone)
	}
	if len(s.Decisions) != 1 || s.Decisions[0].Code != "NTF-01" {
		t.Errorf("decisions %v, want only NTF-01", s.Decisions)
	}
	if s = do(t, small(), edit.Delete{IDs: []doc.ID{"R1"}}); s.Runs.Len() != 1 || s.Lamps.Len() != 2 {
		t.Error("deleting a run took more or less than the run")
	}
}

func TestCorners(t *testing.T) {
	s := do(t, small(), edit.InsertVertex{ID: "R1", Index: 1, At: geom.Pt(0, 1)})
	r, _ := s.Runs.Get("R1")
	if len(r.Legs) != 3 || r.Legs[0].Support != network.Buried || r.Legs[1].Support != network.Buried || r.Legs[2].Support != network.Clipped {
		t.Errorf("legs %+v: the split leg must stay buried in both halves", r.Legs)
	}
	if got, want := path(s, "R1"), []geom.Point{geom.Pt(0, 0), geom.Pt(0, 1), geom.Pt(0, 2), geom.Pt(4, 2)}; !slices.Equal(got, want) {
		t.Errorf("R1 runs %v, want %v", got, want)
	}
	back := do(t, s, edit.DeleteVertex{ID: "R1", Index: 1})
	if why := diff(small(), back); why != "" {
		t.Errorf("a corner in and out again:\n%s", why)
	}
	// Splitting the last leg makes a corner of what had none.
	s = do(t, small(), edit.InsertVertex{ID: "R1", Index: 2, At: geom.Pt(1, 2)})
	if got, want := path(s, "R1"), []geom.Point{geom.Pt(0, 0), geom.Pt(0, 2), geom.Pt(1, 2), geom.Pt(4, 2)}; !slices.Equal(got, want) {
		t.Errorf("R1 runs %v, want %v", got, want)
	}
	if why := diff(small(), do(t, s, edit.DeleteVertex{ID: "R1", Index: 2})); why != "" {
		t.Errorf("the last corner in and out again:\n%s", why)
	}
	// An end in the air goes back to the corner before it.
	s = do(t, small(), edit.InsertVertex{ID: "R2", Index: 1, At: geom.Pt(8, 8)})
	s = do(t, s, edit.DeleteVertex{ID: "R2", Index: 2})
	if got, want := path(s, "R2"), []geom.Point{geom.Pt(4, 2), geom.Pt(8, 8)}; !slices.Equal(got, want) {
		t.Errorf("R2 runs %v, want %v", got, want)
	}
	s = do(t, small(), edit.MoveVertex{ID: "R2", Index: 1, To: geom.Pt(7, 7)})
	if got := path(s, "R2")[1]; got != geom.Pt(7, 7) {
		t.Errorf("R2 ends at %v", got)
	}
	s = do(t, small(), edit.InsertVertex{ID: "A1", Index: 3, At: geom.Pt(0, 1)})
	s = do(t, s, edit.InsertVertex{ID: "A1", Index: 1, At: geom.Pt(0.5, 0)})
	s = do(t, s, edit.MoveVertex{ID: "A1", Index: 0, To: geom.Pt(-1, 0)})
	want := []geom.Point{geom.Pt(-1, 0), geom.Pt(0.5, 0), geom.Pt(1, 0), geom.Pt(1, 1), geom.Pt(0, 1)}
	if a, _ := s.Areas.Get("A1"); !slices.Equal(a.Ring, want) {
		t.Errorf("ring %v, want %v", a.Ring, want)
	}
}

func TestTitles(t *testing.T) {
	s := small()
	l, _ := s.Lamps.Get("L1")
	higher, other := *l, *l
	higher.Place.Height = geom.Metre
	other.Zone, other.Aim = "", 45
	for _, c := range []struct {
		op   edit.Operation
		want string
	}{
		{edit.SetLamp{Lamp: &higher}, "Change height of L1"},
		{edit.SetLamp{Lamp: &other}, "Change L1"},
		{edit.MovePoints{IDs: []doc.ID{"L1"}}, "Move L1"},
		{edit.MovePoints{IDs: []doc.ID{"L1", "L2"}}, "Move L1 and L2"},
		{edit.Delete{IDs: []doc.ID{"L1", "L2", "R1"}}, "Delete 3 items"},
		{edit.Place{Entity: &doc.Lamp{}}, "Place lamp"},
		{edit.SetCable{Runs: []doc.ID{"R1"}}, "Change cable of R1"},
		{edit.Batch{Label: "Paste"}, "Paste"},
	} {
		if got := edit.Title(c.op, s); got != c.want {
			t.Errorf("title %q, want %q", got, c.want)
		}
	}
}

func TestOverruleReplaces(t *testing.T) {
	s := do(t, small(), edit.Overrule{Decision: doc.Decision{Code: "EAR-01", Subject: "L1", Reason: "better"}})
	if len(s.Decisions) != 2 || s.Decisions[0].Reason != "better" {
		t.Errorf("decisions %v", s.Decisions)
	}
	if same := do(t, s, edit.Overrule{Decision: s.Decisions[0]}); same != s {
		t.Error("the same decision again made a new scheme")
	}
	if s = do(t, s, edit.Withdraw{Code: "EAR-01", Subject: "L1"}); len(s.Decisions) != 1 {
		t.Errorf("decisions %v", s.Decisions)
	}
}

// An operation keeps no hold on what it was given: changing that later does
// not change the scheme.
func TestOperationTakesACopy(t *testing.T) {
	r := &doc.Run{ID: "r", From: doc.End{On: "L1", At: geom.Pt(1, 1)}, To: doc.End{On: "L2"}, Legs: []doc.Leg{{To: geom.Pt(5, 5)}, {To: geom.Pt(6, 6)}}}
	s := do(t, small(), edit.AddRun{Run: r})
	r.Legs[0].To = geom.Pt(0, 0)
	got, _ := s.Runs.Get("r")
	if got.Legs[0].To != geom.Pt(5, 5) {
		t.Error("the scheme shares the legs with the operation")
	}
	if got.Legs[1].To != (geom.Point{}) || got.From.At != (geom.Point{}) {
		t.Errorf("what means nothing was kept: %+v", got)
	}
}

func TestHistoryLimitAndBranch(t *testing.T) {
	store := edit.NewStore(small())
	for i := range 600 {
		if err := store.Do(edit.MovePoints{IDs: []doc.ID{"L1"}, By: geom.Pt(float64(i%2)+1, 0)}); err != nil {
			t.Fatal(err)
		}
	}
	back := 0
	for store.Undo() {
		back++
	}
	if back != 500 {
		t.Errorf("undo went back %d steps, want 500", back)
	}
	store.Redo()
	if store.UndoName() != "Move L1" || store.RedoName() != "Move L1" {
		t.Errorf("names %q and %q", store.UndoName(), store.RedoName())
	}
	if err := store.Do(edit.SetTitle{Title: "other way"}); err != nil {
		t.Fatal(err)
	}
	if store.Redo() || store.RedoName() != "" {
		t.Error("what was undone can still be redone after another step")
	}
}

func TestSavedMarker(t *testing.T) {
	store := edit.NewStore(small())
	_ = store.Do(edit.SetTitle{Title: "a"})
	if !store.Unsaved() {
		t.Error("a change is not unsaved")
	}
	store.MarkSaved()
	_ = store.Do(edit.SetTitle{Title: "b"})
	store.Undo()
	if store.Unsaved() {
		t.Error("undo back to what was saved is unsaved")
	}
	if err := store.Do(edit.SetTitle{Title: "a"}); err != nil || store.RedoName() == "" {
		t.Errorf("a change of nothing cleared redo (%v)", err)
	}
}
