package geom

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestToGrid(t *testing.T) {
	for _, tt := range []struct{ in, want Point }{
		{Pt(0.24, 0.26), Pt(0, 0.5)},
		{Pt(0.25, -0.25), Pt(0.5, -0.5)},
		{Pt(-0.24, -0.26), Pt(0, -0.5)},
	} {
		if got := ToGrid(tt.in, Metres(0.5)); got != tt.want {
			t.Errorf("%v: got %v, want %v", tt.in, got, tt.want)
		}
	}
	if p := Pt(0.123, 4); ToGrid(p, 0) != p {
		t.Error("no grid moved a point")
	}
}

// TestToAngle: the exact values follow from the sine and cosine of the angle.
func TestToAngle(t *testing.T) {
	o := Pt(1, 1)
	for _, tt := range []struct {
		in      Point
		step    float64
		spacing Length
		want    Point
	}{
		{Pt(4.02, 1.3), 45, 0, Pt(4.02, 1)},
		{Pt(4.02, 1.3), 45, Metres(0.1), Pt(4, 1)},
		{Pt(1.2, -2), 45, 0, Pt(1, -2)},
		{Pt(3, 2.9), 45, 0, Pt(2.95, 2.95)},
		{Pt(-1, 1.01), 15, Metres(0.5), Pt(-1, 1)},
		{o, 15, 0, o},
	} {
		if got := ToAngle(o, tt.in, tt.step, tt.spacing); got != tt.want {
			t.Errorf("%v: got %v, want %v", tt.in, got, tt.want)
		}
	}
}

// TestToAngleLaw: the result is on a ray of the step, and no other ray of the
// step has a nearer point than within a micrometre.
func TestToAngleLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := rapid.Int64Range(-1e8, 1e8)
		o := Point{Length(l.Draw(t, "ox")), Length(l.Draw(t, "oy"))}
		p := Point{Length(l.Draw(t, "px")), Length(l.Draw(t, "py"))}
		got := ToAngle(o, p, 15, 0)
		if Distance(o, got) > 1000 {
			turn := Direction(o, got) / 15
			if off := math.Abs(turn - math.Round(turn)); off*15 > 0.1 {
				t.Fatalf("direction %v is no multiple of 15°", turn*15)
			}
		}
		for d := 0.0; d < 360; d += 15 {
			far := Along(o, d, Metres(1000))
			if _, near := Nearest(p, o, far); near < Distance(p, got)-2 {
				t.Fatalf("the ray at %v° is nearer: %v < %v", d, near, Distance(p, got))
			}
		}
	})
}

func TestMagnetOrder(t *testing.T) {
	m := NewMagnet(Pt(0, 0), Metres(1))
	if at, rank, key := m.Caught(); at != Pt(0, 0) || rank != RankFree || key != -1 {
		t.Error("an idle magnet caught", at, rank, key)
	}
	m.Offer(Pt(0, 1.501), RankPoint, 1) // out of reach
	m.Offer(Pt(1.2, 1.2), RankPoint, 2) // out of reach, but in the square
	m.Offer(Pt(1.01, 0), RankVertex, 8) // a vertex reaches less far
	m.Offer(Pt(0.1, 0), RankVertex, 3)  // near
	m.Offer(Pt(0.19, 0), RankPoint, 4)  // further, but pulls twice as hard
	m.Offer(Pt(0.15, 0), RankPoint, 5)  // nearer
	m.Offer(Pt(0, 0.15), RankPoint, 6)  // as near, but later
	m.Offer(Pt(0.08, 0), RankVertex, 7) // nearest, but not by half
	if at, rank, key := m.Caught(); at != Pt(0.15, 0) || rank != RankPoint || key != 5 {
		t.Error("caught", at, rank, key)
	}
}
