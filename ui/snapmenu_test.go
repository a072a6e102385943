package ui

import (
	"slices"
	"strings"
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
	"duskwire/layout/tool"
)

func TestSnapMenuHoldsForTheSession(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	for name, off := range map[string]func(tool.Snaps) bool{
		"Edges of walls":    func(c tool.Snaps) bool { return c.NoEdge },
		"Corners":           func(c tool.Snaps) bool { return c.NoCorner },
		"Square to an edge": func(c tool.Snaps) bool { return c.NoFoot },
		"In line beyond":    func(c tool.Snaps) bool { return c.NoExtension },
		"Level with":        func(c tool.Snaps) bool { return c.NoTrack },
		"Beside a wall":     func(c tool.Snaps) bool { return c.NoAlong },
	} {
		e := r.entryOf(name)
		if !e.Checked || off(r.w.plan.Snaps()) {
			t.Errorf("%s is not on at the start", name)
		}
		e.Action()
		if e.Checked || !off(r.w.plan.Snaps()) {
			t.Errorf("%s was not turned off", name)
		}
	}
	r.w.openExample()
	if !r.w.plan.Snaps().NoEdge {
		t.Error("another scheme brought edges back")
	}
}

func TestAlongWallFromTheMenu(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.w.plan.Select()
	r.entryOf("Along wall").Action()
	if len(r.w.sheets) != 0 {
		t.Fatal("a sheet opened with no run selected")
	}
	s := r.desk.Frame().Scheme
	var run *doc.Run
	var want *doc.Scheme
	for _, try := range s.Runs.All() { // the first that does not run square to its wall
		op := edit.AlongWall{Run: try.ID, Wall: tool.WallsBy(s, try, nil)[0], Distance: 50 * geom.Millimetre}
		if n, err := op.Apply(s); err == nil && n != s {
			run, want = try, n
			break
		}
	}
	if run == nil {
		t.Fatal("no run of the example can lie along a wall")
	}
	r.w.plan.Select(run.ID)
	r.entryOf("Along wall").Action()
	if len(r.w.sheets) != 1 {
		t.Fatal("no sheet opened")
	}
	r.w.sheets[0].choose(1)
	if len(r.w.sheets) != 0 || !strings.HasPrefix(r.desk.Frame().Undo, "Lay "+run.Tag) {
		t.Fatalf("the step is %q", r.desk.Frame().Undo)
	}
	now := r.desk.Frame().Scheme
	a, _ := want.Runs.Get(run.ID)
	b, _ := now.Runs.Get(run.ID)
	if !slices.Equal(doc.RunPath(want, a), doc.RunPath(now, b)) {
		t.Error("the sheet did not lay the run along the nearest wall")
	}
}
