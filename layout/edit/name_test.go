package edit_test

import (
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// TestRunTitle: each run of the history says which it is.
func TestRunTitle(t *testing.T) {
	s := small()
	s.Runs = doc.NewSet[*doc.Run]()
	for i, want := range []string{"Draw run R1", "Draw run R2"} {
		op := edit.AddRun{Run: &doc.Run{ID: doc.NewID(), From: doc.End{On: "SP1"}, To: doc.End{On: "L1"}, Legs: []doc.Leg{{}}}}
		if got := edit.Title(op, s); got != want {
			t.Errorf("run %d is %q, want %q", i, got, want)
		}
		after, err := op.Apply(s)
		if err != nil {
			t.Fatal(err)
		}
		s = after
	}
	if got := edit.Title(edit.AddRun{Run: &doc.Run{Tag: "X9"}}, s); got != "Draw run X9" {
		t.Errorf("a named run is %q", got)
	}
	if got := edit.Title(edit.AddRun{}, s); got != "Draw run" {
		t.Errorf("no run is %q", got)
	}
}
