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

// TestLargeNetEqualsOneByOne: what large nets share out comes out as when one
// thing is done after the other. Comparing a result with its like would not see a
// piece of the list that nobody takes.
func TestLargeNetEqualsOneByOne(t *testing.T) {
	for _, n := range []int{40, 500, 700, 1300} {
		in := input(garden(n))
		got, want := calc.Evaluate(in), calc.Serially(in)
		if len(want.Runs) < n {
			t.Fatalf("%d lamps: %d runs", n, len(want.Runs))
		}
		if diff := cmp.Diff(want.Runs, got.Runs); diff != "" {
			t.Errorf("%d lamps: runs (-one by one +shared out)\n%.2000s", n, diff)
		}
		if diff := cmp.Diff(want.Points, got.Points); diff != "" {
			t.Errorf("%d lamps: points (-one by one +shared out)\n%.2000s", n, diff)
		}
		if diff := cmp.Diff(want.Findings, got.Findings); diff != "" {
			t.Errorf("%d lamps: findings (-one by one +shared out)\n%.2000s", n, diff)
		}
		if diff := cmp.Diff(want.Totals, got.Totals); diff != "" {
			t.Errorf("%d lamps: totals (-one by one +shared out)\n%.2000s", n, diff)
		}
		if diff := cmp.Diff(want.Capacity, got.Capacity); diff != "" {
			t.Errorf("%d lamps: capacity (-one by one +shared out)\n%.2000s", n, diff)
		}
		rooms := calc.Room(in, got)
		if diff := cmp.Diff(calc.RoomOneByOne(in, want), rooms.Runs); diff != "" {
			t.Errorf("%d lamps: headroom of runs (-one by one +shared out)\n%.2000s", n, diff)
		}
		if diff := cmp.Diff(calc.AmperesOneByOne(in, want), rooms.Points); diff != "" {
			t.Errorf("%d lamps: headroom of points (-one by one +shared out)\n%.2000s", n, diff)
		}
	}
}
