package panel

import (
	"strings"
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

// TestFiguresOfDrawings: a figure of a drawing says what the panels say of it; words
// that are no figure say nothing, and so does everything during a gesture.
func TestFiguresOfDrawings(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	tips := NewFigureTips(d)
	id := func(tag string) doc.ID { return doc.WithTag(d.Frame().Scheme, tag).Key() }
	for _, c := range []struct {
		what          string
		of            DrawnFigure
		head, working string // "" for no tip
	}{
		{"volts along a run", DrawnFigure{ID: id("R8"), Part: "228.6 V", Whole: "228.6 V", Look: scene.LookVolts}, "VD-01", "drop in this run"},
		{"its name before them", DrawnFigure{ID: id("R8"), Part: "R8", Whole: "R8 · 228.62 → 228.60 V", Look: scene.LookVolts}, "VD-01", "drop in this run"},
		{"the line itself", DrawnFigure{ID: id("R8"), Look: scene.LookVolts}, "VD-01", "drop in this run"},
		{"amperes along a run", DrawnFigure{ID: id("R3"), Part: "0.368 A", Whole: "R3 · 0.368 A", Look: scene.LookAmperes}, "CAP-02", "Ib = 0.368 A"},
		{"a lamp where volts are shown", DrawnFigure{ID: id("L1"), Part: "L1", Whole: "L1", Look: scene.LookVolts}, "VD-01", "voltage there"},
		{"a lamp where amperes are shown", DrawnFigure{ID: id("L12"), Part: "L12", Whole: "L12", Look: scene.LookAmperes}, "Current", "beyond it"},
		{"a lamp of the plain plan", DrawnFigure{ID: id("L1"), Part: "L1", Whole: "L1"}, "", ""},
		{"a length on the plan", DrawnFigure{ID: id("R9"), Part: "8.5 m", Whole: "R9 · 3 × 1.5 mm² · 8.5 m"}, "R9", "needed = (plan + rises"},
		{"a depth", DrawnFigure{ID: id("R9"), Part: "600 mm", Whole: "600 mm", Look: scene.LookDig}, "DIG-01", "depth 600 mm"},
		{"volts of the circuit view", DrawnFigure{ID: id("L1"), Part: "228.73 V", Whole: "L1 · 228.73 V · 0.052 A"}, "VD-01", "228.73 V"},
		{"the output of a source", DrawnFigure{ID: id("S1"), Part: "→ 12 V", Whole: "→ 12 V"}, "VD-02", "= 12 V"},
		{"its input", DrawnFigure{ID: id("S1"), Part: "228.49 V", Whole: "228.49 V"}, "", "228.49 V"},
		{"the current of a run in the circuit", DrawnFigure{ID: id("R3"), Part: "0.368 A", Whole: "5.5 m · 0.368 A"}, "CAP-02", "Ib = 0.368 A"},
		{"a leg on its side", DrawnFigure{ID: id("R9"), Part: "2 buried, 600 mm", Whole: "2 buried, 600 mm", Side: true, Run: id("R9")}, "DIG-01", "depth 600 mm"},
		{"amperes at an end of a side are of the run", DrawnFigure{ID: id("B2"), Part: "0.368 A", Whole: "0.368 A", Side: true, Run: id("R3")}, "CAP-02", "Ib = 0.368 A"},
		{"ground", DrawnFigure{ID: id("A6"), Part: "Lawn, dug 100 mm", Whole: "Lawn, dug 100 mm", Look: scene.LookDig}, "", ""},
	} {
		tip := tips.Of(c.of)
		if c.working == "" {
			if !tip.Empty() {
				t.Errorf("%s: %q, expected nothing", c.what, tip.Head)
			}
			continue
		}
		if !strings.Contains(tip.Head, c.head) || !strings.Contains(tip.Working, c.working) {
			t.Errorf("%s: %q\n%s\nexpected %q with %q", c.what, tip.Head, tip.Working, c.head, c.working)
		}
	}
	if err := d.Preview(edit.MovePoints{IDs: []doc.ID{id("L1")}, By: geom.Pt(0.1, 0)}); err != nil {
		t.Fatal(err)
	}
	if tip := tips.Of(DrawnFigure{ID: id("R8"), Look: scene.LookVolts}); !tip.Empty() {
		t.Errorf("during a gesture: %q", tip.Head)
	}
}
