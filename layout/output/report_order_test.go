package output

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"duskwire/calc"
	"duskwire/calc/finding"
)

// TestPointsAreInTheOrderOfLabels: the outside is a stable sort by
// finding.LessLabel.
func TestPointsAreInTheOrderOfLabels(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		labels := rapid.SliceOf(rapid.StringMatching(`[LR]?[a ]?0{0,2}[0-9]{0,3}([a9]|[0-9]{20})?`)).Draw(t, "labels")
		points := make([]calc.Point, len(labels))
		list, want := make([]labelled, len(labels)), make([]*calc.Point, len(labels))
		for i, l := range labels {
			points[i].Label = l
			list[i], want[i] = labelledOf(&points[i], 0, i), &points[i]
		}
		slices.SortStableFunc(want, func(a, b *calc.Point) int {
			switch {
			case finding.LessLabel(a.Label, b.Label):
				return -1
			case finding.LessLabel(b.Label, a.Label):
				return 1
			}
			return 0
		})
		slices.SortFunc(list, labelled.compare)
		for i := range list {
			if list[i].point != want[i] {
				t.Fatalf("place %d of %q: %q, want %q", i, labels, list[i].point.Label, want[i].Label)
			}
		}
	})
}
