package geom

import (
	"errors"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// TestBeside: the exact places follow from the drawing, a house of 10 m by 6 m
// and an L-shaped wall.
func TestBeside(t *testing.T) {
	house := []Point{Pt(0, 0), Pt(10, 0), Pt(10, 6), Pt(0, 6)} // anticlockwise: inside is left
	wall := []Point{Pt(0, 0), Pt(8, 0), Pt(8, 5)}
	for _, tt := range []struct {
		name     string
		path     []Point
		closed   bool
		d        Length
		a, b, by Point
		want     []Point
		err      error
	}{
		{"along one face", house, true, Metres(-0.05), Pt(2, -1), Pt(7, -2), Pt(4, -1),
			[]Point{Pt(2, -0.05), Pt(7, -0.05)}, nil},
		{"round a corner", house, true, Metres(-0.1), Pt(6, -1), Pt(11, 3), Pt(10.5, -0.5),
			[]Point{Pt(6, -0.1), Pt(10.1, -0.1), Pt(10.1, 3)}, nil},
		{"against the way it was drawn", house, true, Metres(-0.1), Pt(11, 3), Pt(6, -1), Pt(10.5, -0.5),
			[]Point{Pt(10.1, 3), Pt(10.1, -0.1), Pt(6, -0.1)}, nil},
		{"the long way round", house, true, Metres(-0.1), Pt(6, -1), Pt(8, -1), Pt(5, 7),
			[]Point{Pt(6, -0.1), Pt(-0.1, -0.1), Pt(-0.1, 6.1), Pt(10.1, 6.1), Pt(10.1, -0.1), Pt(8, -0.1)}, nil},
		{"inside", house, true, Metres(0.5), Pt(1, 3), Pt(5, 1), Pt(1, 1),
			[]Point{Pt(0.5, 3), Pt(0.5, 0.5), Pt(5, 0.5)}, nil},
		{"open, inside of the bend", wall, false, Metres(0.2), Pt(1, 1), Pt(7, 4), Pt(7, 1),
			[]Point{Pt(1, 0.2), Pt(7.8, 0.2), Pt(7.8, 4)}, nil},
		{"open, not past its end", wall, false, Metres(-0.2), Pt(-3, -1), Pt(4, -1), Pt(0, -1),
			[]Point{Pt(0, -0.2), Pt(4, -0.2)}, nil},
		{"square to it", wall, false, Metres(0.2), Pt(3, 1), Pt(3, 3), Pt(3, 2), nil, ErrSquare},
		{"too wide for a notch", []Point{Pt(0, 0), Pt(4, 0), Pt(4, 1), Pt(4.2, 1), Pt(4.2, 0), Pt(8, 0)}, false, Metres(-0.3),
			Pt(1, -1), Pt(7, -1), Pt(4, -1), []Point{Pt(1, -0.3), Pt(7, -0.3)}, ErrNarrow},
		{"a needle", []Point{Pt(0, 0), Pt(4, 0), Pt(0, 0.1)}, false, Metres(0.1), Pt(1, 1), Pt(2, 1), Pt(2, 1), nil, ErrSharp},
		{"no path", []Point{Pt(1, 1), Pt(1, 1)}, false, Metres(0.1), Pt(1, 1), Pt(2, 1), Pt(2, 1), nil, ErrSharp},
	} {
		got, err := Beside(tt.path, tt.closed, tt.d, tt.a, tt.b, tt.by)
		if !errors.Is(err, tt.err) || err == nil && !slices.Equal(got, tt.want) {
			t.Errorf("%s: got %v, %v, want %v, %v", tt.name, got, err, tt.want, tt.err)
		}
	}
}

// TestParallelLaw: every edge of a parallel that still runs its way lies at the
// distance, within the rounding of its corners.
func TestParallelLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		closed := rapid.Bool().Draw(t, "closed")
		path := drawPath(t, 3, 8)
		d := Length(rapid.Int64Range(-2e6, 2e6).Draw(t, "d"))
		kept, moved, ok := Parallel(path, closed, d)
		if !ok {
			return
		}
		p := parallel{kept, moved, len(kept) - 1}
		for i := range p.edges {
			if !p.whole(i) {
				continue
			}
			line := Ruler{A: kept[i], B: kept[i+1], Endless: true}
			for _, q := range []Point{moved[i], moved[i+1]} {
				if off := line.Off(q); math.Abs(off-math.Abs(float64(d))) > 2 {
					t.Fatalf("edge %d at %v µm from %v, want %v", i, off, line, d)
				}
			}
		}
	})
}

func drawPath(t *rapid.T, least, most int) []Point {
	var out []Point
	l := rapid.Int64Range(-2e7, 2e7)
	for range rapid.IntRange(least, most).Draw(t, "corners") {
		out = append(out, Point{Length(l.Draw(t, "x")), Length(l.Draw(t, "y"))})
	}
	return out
}

// TestRulerLaws: a foot lies on its ruler within a micrometre, is its own foot,
// and no other point of the ruler is nearer; crossings lie on both.
func TestRulerLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ps := drawPath(t, 5, 5)
		r := Ruler{ps[0], ps[1], rapid.Bool().Draw(t, "endless")}
		q, d := r.Foot(ps[2])
		if off := r.Off(q); off > 1 {
			t.Fatalf("foot %v lies %v µm off %v", q, off, r)
		}
		if again, e := r.Foot(q); again != q || e != 0 {
			t.Fatalf("the foot of %v is %v", q, again)
		}
		for i := range 11 {
			on := Point{ps[0].X + (ps[1].X-ps[0].X)*Length(i)/10, ps[0].Y + (ps[1].Y-ps[0].Y)*Length(i)/10}
			if Distance(ps[2], on) < d-2 {
				t.Fatalf("%v is nearer than the foot %v", on, q)
			}
		}
		slid := r.Slide(q, 500*Millimetre)
		if r.Off(slid) > 1 || r.Slide(slid, 500*Millimetre) != slid {
			t.Fatalf("%v slid to %v", q, slid)
		}
		o := Ruler{ps[3], ps[4], false}
		if p, ok := Meet(r, o); ok && (r.Off(p) > 1 || o.Off(p) > 1) {
			t.Fatalf("%v and %v do not meet at %v", r, o, p)
		}
	})
}

// TestCells: what is near is found, by looking at all of them.
func TestCells(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ps := drawPath(t, 1, 30)
		var segments [][2]Point
		for i := range ps {
			segments = append(segments, [2]Point{ps[i], ps[i]})
			if i > 0 {
				segments = append(segments, [2]Point{ps[i-1], ps[i]})
			}
		}
		cells := NewCells(segments)
		for range 3 {
			at := drawPath(t, 1, 1)[0]
			reach := Length(rapid.Int64Range(0, 5e6).Draw(t, "reach"))
			found := map[int]int{}
			cells.Near(Around(at).Grow(reach), func(i int) { found[i]++ })
			for i, s := range segments {
				if _, d := Nearest(at, s[0], s[1]); d <= reach && found[i] != 1 {
					t.Fatalf("segment %d, %v off %v, found %d times", i, d, at, found[i])
				}
				if found[i] > 1 {
					t.Fatalf("segment %d found %d times", i, found[i])
				}
			}
		}
	})
	NewCells(nil).Near(Around(Pt(0, 0)).Grow(Metre), func(int) { t.Error("found something in nothing") })
}
