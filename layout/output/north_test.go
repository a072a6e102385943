package output

import (
	"strings"
	"testing"

	q "duskwire/calc/quantity"
)

// Where nobody said where north is the sheet says so and draws no arrow.
func TestNorthNotGiven(t *testing.T) {
	for _, north := range []q.Maybe[float64]{{}, q.Some(0.0), q.Some(20.0)} {
		s := gardenSheet()
		scheme := *s.Plan.Scheme
		scheme.Plan.North = north
		s.Plan.Scheme = &scheme
		text := string(picture(t, "svg", s))
		if said := strings.Contains(text, "North not"); said == north.Known {
			t.Errorf("north %+v: said to be missing is %v", north, said)
		}
		if arrow := strings.Contains(text, ">N<"); arrow != north.Known {
			t.Errorf("north %+v: an arrow is drawn is %v", north, arrow)
		}
	}
}
