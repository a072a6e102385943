package geom

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

var square = []Point{Pt(0, 0), Pt(4, 0), Pt(4, 4), Pt(0, 4)}

// TestCross: by hand, from the equations of the two lines.
func TestCross(t *testing.T) {
	for _, c := range []struct {
		name       string
		a, b, c, d Point
		want       float64
		ok         bool
	}{
		{"cross in the middle", Pt(0, 0), Pt(4, 4), Pt(0, 4), Pt(4, 0), 0.5, true},
		{"a quarter along", Pt(0, 1), Pt(8, 1), Pt(2, 0), Pt(2, 5), 0.25, true},
		{"short of it", Pt(0, 1), Pt(1, 1), Pt(2, 0), Pt(2, 5), 0, false},
		{"touching at an end is none", Pt(0, 0), Pt(2, 0), Pt(2, 0), Pt(2, 5), 0, false},
		{"ending on it is none", Pt(0, 1), Pt(2, 1), Pt(2, 0), Pt(2, 5), 0, false},
		{"on one line", Pt(0, 0), Pt(4, 0), Pt(2, 0), Pt(6, 0), 0, false},
		{"parallel", Pt(0, 0), Pt(4, 0), Pt(0, 1), Pt(4, 1), 0, false},
	} {
		got, ok := Cross(c.a, c.b, c.c, c.d)
		if ok != c.ok || math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%s: got %v %v, want %v %v", c.name, got, ok, c.want, c.ok)
		}
	}
}

// TestSplit: lawn 0..4 with a pond 1..3 drawn over it.
func TestSplit(t *testing.T) {
	pond := []Point{Pt(1, 1), Pt(3, 1), Pt(3, 3), Pt(1, 3)}
	hook := []Point{Pt(0, 0), Pt(6, 0), Pt(6, 4), Pt(4, 4), Pt(4, 1), Pt(2, 1), Pt(2, 4), Pt(0, 4)}
	for _, c := range []struct {
		name  string
		a, b  Point
		rings [][]Point
		want  []Piece
	}{
		{"through both", Pt(-4, 2), Pt(6, 2), [][]Point{square, pond}, []Piece{{0, 0.4, -1}, {0.4, 0.5, 0}, {0.5, 0.7, 1}, {0.7, 0.8, 0}, {0.8, 1, -1}}},
		{"the lawn drawn over the pond", Pt(0, 2), Pt(4, 2), [][]Point{pond, square}, []Piece{{0, 1, 1}}},
		{"a ring that bends back", Pt(-1, 2), Pt(7, 2), [][]Point{hook}, []Piece{{0, 0.125, -1}, {0.125, 0.375, 0}, {0.375, 0.625, -1}, {0.625, 0.875, 0}, {0.875, 1, -1}}},
		{"through a corner", Pt(-2, 2), Pt(2, -2), [][]Point{square}, []Piece{{0, 1, -1}}},
		{"no area", Pt(0, 0), Pt(1, 1), nil, []Piece{{0, 1, -1}}},
		{"no length", Pt(2, 2), Pt(2, 2), [][]Point{square}, []Piece{{0, 1, 0}}},
		{"wholly inside", Pt(1, 1), Pt(3, 2), [][]Point{square}, []Piece{{0, 1, 0}}},
	} {
		got := Split(c.a, c.b, c.rings)
		if len(got) != len(c.want) {
			t.Errorf("%s: got %v, want %v", c.name, got, c.want)
			continue
		}
		for i, p := range got {
			w := c.want[i]
			if p.Area != w.Area || math.Abs(p.From-w.From) > 1e-9 || math.Abs(p.To-w.To) > 1e-9 {
				t.Errorf("%s: piece %d is %v, want %v", c.name, i, p, w)
			}
		}
	}
}

// TestSplitAlongEdge: a segment that runs along an edge and beyond it is cut at
// the ends of the edge and nowhere else.
func TestSplitAlongEdge(t *testing.T) {
	for _, ring := range [][]Point{square, {Pt(0, -4), Pt(4, -4), Pt(4, 0), Pt(0, 0)}} {
		got := Split(Pt(-2, 0), Pt(8, 0), [][]Point{ring})
		if n := len(got); n != 1 && n != 3 || got[0].Area != -1 || got[n-1].Area != -1 {
			t.Fatalf("pieces %v", got)
		}
		for i, p := range got {
			want := []float64{0, 0.2, 0.6, 1}
			if len(got) == 3 && (math.Abs(p.From-want[i]) > 1e-9 || math.Abs(p.To-want[i+1]) > 1e-9) {
				t.Errorf("piece %d is %v", i, p)
			}
		}
	}
	if got := Cuts(Pt(-2, 0), Pt(8, 0), square, nil); len(got) != 4 || got[0] != 0.2 || got[3] != 0.6 {
		t.Errorf("cuts %v, want the ends of the edge, each met twice", got)
	}
}

func drawPoint(t *rapid.T, name string) Point {
	l := rapid.Int64Range(-20e6, 20e6)
	return Point{Length(l.Draw(t, name+"x")), Length(l.Draw(t, name+"y"))}
}

// TestSplitLaw: the pieces follow each other from 0 to 1, neighbours differ,
// and the middle of every piece, and any point of it that is no edge, lies in
// the last ring that holds it.
func TestSplitLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var rings [][]Point
		for n := rapid.IntRange(0, 4).Draw(t, "rings"); len(rings) < n; {
			var ring []Point
			for k := rapid.IntRange(3, 7).Draw(t, "corners"); len(ring) < k; {
				ring = append(ring, drawPoint(t, "p"))
			}
			rings = append(rings, ring)
		}
		a, b := drawPoint(t, "a"), drawPoint(t, "b")
		pieces := Split(a, b, rings)
		last := 0.0
		for i, p := range pieces {
			if p.From != last || p.To < p.From {
				t.Fatalf("piece %d of %v does not follow on", i, pieces)
			}
			if i > 0 && pieces[i-1].Area == p.Area {
				t.Fatalf("two pieces of one area: %v", pieces)
			}
			last = p.To
			share := rapid.Float64Range(0.01, 0.99).Draw(t, "share")
			m := p.From + share*(p.To-p.From)
			if onEdge(at(a, b, m), rings) {
				continue
			}
			if got := owner(a, b, m, rings); got != p.Area {
				t.Fatalf("%v of piece %v lies in %d", m, p, got)
			}
		}
		if last != 1 {
			t.Fatalf("%v end at %v", pieces, last)
		}
	})
}

// at returns the point at parameter t of ab to the nearest micrometre.
func at(a, b Point, t float64) Point {
	return Point{a.X + Length(math.Round(t*float64(b.X-a.X))), a.Y + Length(math.Round(t*float64(b.Y-a.Y)))}
}

func onEdge(p Point, rings [][]Point) bool {
	for _, r := range rings {
		if ToPath(p, r, true) < 10 {
			return true
		}
	}
	return false
}

// TestSplitRectangle: against Liang and Barsky's clipping of a line to an
// axis-parallel rectangle (1984), which knows no edges.
func TestSplitRectangle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawPoint(t, "a"), drawPoint(t, "b")
		r := Around(drawPoint(t, "c"), drawPoint(t, "d"))
		if r.Width() == 0 || r.Height() == 0 || a.X == b.X && (a.X == r.Min.X || a.X == r.Max.X) || a.Y == b.Y && (a.Y == r.Min.Y || a.Y == r.Max.Y) {
			t.Skip("along an edge it may fall either way")
		}
		ring := []Point{r.Min, {r.Max.X, r.Min.Y}, r.Max, {r.Min.X, r.Max.Y}}
		var got float64
		for _, p := range Split(a, b, [][]Point{ring}) {
			if p.Area == 0 {
				got += p.To - p.From
			}
		}
		if want := liangBarsky(a, b, r); math.Abs(got-want)*PathLength([]Point{a, b}).Metres() > 1e-6 {
			t.Fatalf("inside %v, want %v", got, want)
		}
	})
}

func liangBarsky(a, b Point, r Rect) float64 {
	t0, t1 := 0.0, 1.0
	dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
	for _, c := range [4][2]float64{{-dx, float64(a.X - r.Min.X)}, {dx, float64(r.Max.X - a.X)},
		{-dy, float64(a.Y - r.Min.Y)}, {dy, float64(r.Max.Y - a.Y)}} {
		switch p, q := c[0], c[1]; {
		case p == 0 && q < 0:
			return 0
		case p < 0:
			t0 = max(t0, q/p)
		case p > 0:
			t1 = min(t1, q/p)
		}
	}
	return max(0, t1-t0)
}

// TestWithinLaw: the part within reach is what sampling finds, and nothing of
// it is missed; distances are those of Nearest.
func TestWithinLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c, d := drawPoint(t, "a"), drawPoint(t, "b"), drawPoint(t, "c"), drawPoint(t, "d")
		reach := Length(rapid.Int64Range(1, 8e6).Draw(t, "reach"))
		from, to, ok := Within(a, b, c, d, reach)
		for i := 0; i <= 200; i++ {
			s := float64(i) / 200
			_, far := Nearest(at(a, b, s), c, d)
			in := ok && s >= from && s <= to
			if in && far > reach+5 || !in && far < reach-5 {
				t.Fatalf("at %v the distance is %v, reach %v, part %v to %v (%v)", s, far, reach, from, to, ok)
			}
		}
		if near := Apart(a, b, c, d) < reach-5; near && !ok {
			t.Fatalf("within reach but no part: %v < %v", Apart(a, b, c, d), reach)
		}
	})
}

// TestApart: by hand.
func TestApart(t *testing.T) {
	for _, c := range []struct {
		a, b, c, d Point
		want       float64
	}{
		{Pt(0, 0), Pt(4, 0), Pt(0, 3), Pt(4, 3), 3},
		{Pt(0, 0), Pt(4, 4), Pt(0, 4), Pt(4, 0), 0},
		{Pt(0, 0), Pt(1, 0), Pt(4, 4), Pt(9, 9), 5},
		{Pt(0, 0), Pt(4, 0), Pt(2, 1), Pt(2, 5), 1},
	} {
		if got := Apart(c.a, c.b, c.c, c.d).Metres(); math.Abs(got-c.want) > 1e-6 {
			t.Errorf("%v %v to %v %v: got %v, want %v", c.a, c.b, c.c, c.d, got, c.want)
		}
	}
	if got := ToPath(Pt(2, 7), square, true).Metres(); got != 3 {
		t.Errorf("to the square: %v, want 3", got)
	}
	if got := ToPath(Pt(-1, 2), square, false).Metres(); math.Abs(got-math.Sqrt(5)) > 1e-6 {
		t.Errorf("to the open square: %v, want √5", got)
	}
}

func TestCovered(t *testing.T) {
	for _, c := range []struct {
		parts [][2]float64
		want  float64
	}{
		{nil, 0}, {[][2]float64{{0.5, 0.7}, {0.1, 0.3}}, 0.4}, {[][2]float64{{0, 0.5}, {0.25, 0.75}, {0.3, 0.4}}, 0.75}, {[][2]float64{{0.2, 0.2}}, 0},
	} {
		if got := Covered(c.parts); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%v: got %v, want %v", c.parts, got, c.want)
		}
	}
}
