package geom

import (
	"slices"
)

// side is positive when p lies left of the line from a to b, 0 on it.
func side(a, b, p Point) float64 {
	return float64(b.X-a.X)*float64(p.Y-a.Y) - float64(b.Y-a.Y)*float64(p.X-a.X)
}

// Cross returns where segment ab crosses segment cd, as parameter along ab.
// Only a crossing from one side to the other counts, for both: segments that
// touch at an end or lie on one line do not cross.
func Cross(a, b, c, d Point) (t float64, ok bool) {
	s1, s2 := side(c, d, a), side(c, d, b)
	s3, s4 := side(a, b, c), side(a, b, d)
	if !(s1 < 0 && s2 > 0 || s1 > 0 && s2 < 0) || !(s3 < 0 && s4 > 0 || s3 > 0 && s4 < 0) {
		return 0, false
	}
	return s1 / (s1 - s2), true
}

// Cuts returns the parameters along ab, in order, at which ab meets the edges
// of a polygon ring, ends of edges included. Between two of them, and before
// the first and after the last, ab lies wholly inside, wholly outside or along
// an edge. Formula: cut of two lines, t = s1/(s1 - s2) with s the side of the
// ends of ab as seen from the edge.
func Cuts(a, b Point, ring []Point, to []float64) []float64 {
	from := len(to)
	for i, j := 0, len(ring)-1; i < len(ring); j, i = i, i+1 {
		c, d := ring[j], ring[i]
		s1, s2 := side(c, d, a), side(c, d, b)
		s3, s4 := side(a, b, c), side(a, b, d)
		switch {
		case s1 == 0 && s2 == 0: // on one line
			to = append(to, along(a, b, c), along(a, b, d))
		case s1*s2 <= 0 && s3*s4 <= 0:
			to = append(to, s1/(s1-s2))
		}
	}
	slices.Sort(to[from:])
	return to
}

// along returns the parameter of the foot of p on the line ab, kept from 0 to
// 1; 0 when ab has no length.
func along(a, b, p Point) float64 {
	dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
	if dx == 0 && dy == 0 {
		return 0
	}
	return min(max((float64(p.X-a.X)*dx+float64(p.Y-a.Y)*dy)/(dx*dx+dy*dy), 0), 1)
}

// Piece is a part of a segment, from parameter From to To, that lies in the
// area with the index; -1 for none of them.
type Piece struct {
	From, To float64
	Area     int
}

// Split cuts segment ab along the rings and returns its pieces in order. Where
// rings overlap the last of them owns the ground, as on a drawing. Neighbouring
// pieces of one area are one. A segment without length is one piece.
func Split(a, b Point, rings [][]Point) []Piece {
	cuts := []float64{0, 1}
	for _, ring := range rings {
		cuts = Cuts(a, b, ring, cuts)
	}
	slices.Sort(cuts)
	var out []Piece
	start := 0.0
	for _, to := range cuts {
		if to-start <= 1e-12 {
			continue // two cuts at one place
		}
		own := owner(a, b, (start+to)/2, rings)
		if n := len(out); n > 0 && out[n-1].Area == own {
			out[n-1].To = to
		} else {
			out = append(out, Piece{start, to, own})
		}
		start = to
	}
	out[len(out)-1].To = 1
	return out
}

// owner returns the index of the last ring that holds the point at parameter t
// of ab, -1 for none. The point is not rounded: a short piece may lie within a
// micrometre of an edge.
func owner(a, b Point, t float64, rings [][]Point) int {
	x, y := float64(a.X)+t*float64(b.X-a.X), float64(a.Y)+t*float64(b.Y-a.Y)
	for i := len(rings) - 1; i >= 0; i-- {
		if inside(x, y, rings[i]) {
			return i
		}
	}
	return -1
}
