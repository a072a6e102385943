package layout_test

import (
	"strings"
	"testing"

	q "duskwire/calc/quantity"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// built lists the differences, "L1 moved 0.5 m".
func built(t *testing.T, d *layout.Desk) string {
	t.Helper()
	rows, ok := layout.AsBuilt(d.Frame(), d.Rules()[0])
	if !ok {
		t.Fatal("nothing was issued")
	}
	var out []string
	for _, r := range rows {
		out = append(out, r.Tag+" "+r.Change)
	}
	return strings.Join(out, "\n")
}

// TestAsBuilt: what counts as built otherwise, just under and over 0.1 m.
func TestAsBuilt(t *testing.T) {
	d := scenario(t, "1-terrace-wall.yaml")
	if _, ok := layout.AsBuilt(d.Frame(), d.Rules()[0]); ok {
		t.Fatal("issued before it was")
	}
	commit(t, d, edit.MarkIssued{On: "2026-11-01"})
	if got := built(t, d); got != "" {
		t.Fatalf("differences right after the issue:\n%s", got)
	}
	move := func(tag string, x geom.Length) {
		commit(t, d, edit.MovePoints{IDs: []doc.ID{doc.WithTag(d.Frame().Scheme, tag).Key()}, By: geom.Point{X: x}})
	}
	move("L4", 100*geom.Millimetre)
	if got := built(t, d); strings.Contains(got, "moved") {
		t.Errorf("0.1 m counts as moved:\n%s", got)
	}
	move("L4", geom.Millimetre)
	if got := built(t, d); !strings.Contains(got, "L4 moved 0.1 m") || !strings.Contains(got, "R4 length") {
		t.Errorf("0.101 m does not count:\n%s", got)
	}
	run := doc.WithTag(d.Frame().Scheme, "R1").(*doc.Run)
	c := *run
	c.Cut = q.Some(q.Metre(9.5))
	c.Legs = append([]doc.Leg(nil), run.Legs...)
	c.Legs[0].Depth = 300 * geom.Millimetre
	commit(t, d, edit.SetRun{Run: &c})
	commit(t, d, edit.SetCable{Runs: []doc.ID{run.ID}, Cable: "swa-3x2.5"})
	commit(t, d, edit.Delete{IDs: []doc.ID{doc.WithTag(d.Frame().Scheme, "L3").Key()}})
	got := built(t, d)
	for _, want := range []string{"R1 as cut", "R1 laid", "R1 kind", "L3 not built", "R3 from, to", "R4 from, to"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
	for d.Undo() {
	}
	if d.Frame().Scheme.Issue != nil {
		t.Error("undo keeps the mark")
	}
}
