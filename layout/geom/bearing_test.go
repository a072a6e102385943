package geom

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// The points of the compass on a sheet with north up.
func TestBearing(t *testing.T) {
	for _, tt := range []struct {
		to   Point
		want float64
	}{
		{Pt(0, 1), 0}, {Pt(1, 1), 45}, {Pt(1, 0), 90}, {Pt(0, -1), 180}, {Pt(-1, 0), 270}, {Pt(-1, 1), 315}, {Pt(0, 0), 0},
	} {
		if got := Bearing(Point{}, tt.to); math.Abs(got-tt.want) > 1e-9 {
			t.Errorf("towards %v: got %g, expected %g", tt.to, got, tt.want)
		}
	}
}

// A point set off on a bearing is seen on that bearing, at that distance.
func TestTowardIsBearing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		turn := rapid.Float64Range(0, 359.99).Draw(t, "turn")
		far := Length(rapid.Int64Range(int64(Metre), int64(100*Metre)).Draw(t, "far"))
		from := Point{Length(rapid.Int64Range(-1e8, 1e8).Draw(t, "x")), Length(rapid.Int64Range(-1e8, 1e8).Draw(t, "y"))}
		to := Toward(from, turn, far)
		// Whole micrometres move the point by at most 1 µm in 1 m: 6e-5 degrees.
		off := math.Abs(Bearing(from, to) - turn)
		if min(off, 360-off) > 1e-4 {
			t.Fatalf("seen on %g, expected %g", Bearing(from, to), turn)
		}
		if d := Distance(from, to) - far; d < -2 || d > 2 {
			t.Fatalf("off by %d µm", d)
		}
	})
}
