package calc_test

import (
	"testing"

	"duskwire/calc"

	"github.com/google/go-cmp/cmp"
)

// TestLargeNetComesOutTheSame: in a large net rules, readings and sizes are
// worked out side by side, which must not show.
func TestLargeNetComesOutTheSame(t *testing.T) {
	in := input(garden(700))
	first := calc.Evaluate(in)
	rooms := calc.Room(in, first)
	for range 4 {
		again := calc.Evaluate(in)
		if diff := cmp.Diff(first.Findings, again.Findings); diff != "" {
			t.Fatalf("findings (-first +again)\n%s", diff)
		}
		if diff := cmp.Diff(first.Points, again.Points); diff != "" {
			t.Fatalf("points (-first +again)\n%s", diff)
		}
		if diff := cmp.Diff(first.Runs, again.Runs); diff != "" {
			t.Fatalf("runs (-first +again)\n%s", diff)
		}
		if diff := cmp.Diff(rooms, calc.Room(in, again)); diff != "" {
			t.Fatalf("headroom (-first +again)\n%s", diff)
		}
		if diff := cmp.Diff(rooms, calc.Work(in).Room()); diff != "" {
			t.Fatalf("headroom of what was evaluated differs from that worked out anew:\n%s", diff)
		}
	}
}
