package packs

import (
	"testing"

	q "duskwire/calc/quantity"
	"duskwire/layout/geom"
)

// Directions are of the compass where north is known, else of the sheet.
func TestCompass(t *testing.T) {
	from := geom.Pt(1, 1)
	for _, c := range []struct {
		to    geom.Point
		north q.Maybe[float64]
		want  string
	}{
		{geom.Pt(1, 2), q.Some(0.0), "N"}, {geom.Pt(2, 1), q.Some(0.0), "E"}, {geom.Pt(2, 1), q.Some(90.0), "N"},
		{geom.Pt(1, 2), q.Maybe[float64]{}, "up on the plan"}, {geom.Pt(0, 0), q.Maybe[float64]{}, "down left on the plan"}, {from, q.Maybe[float64]{}, ""},
	} {
		if got := compass(from, c.to, c.north); got != c.want {
			t.Errorf("to %v, north %+v: %q, expected %q", c.to, c.north, got, c.want)
		}
	}
}
