package geom

import "math"

// Rank is the kind of place that a point may snap to.
type Rank int

const (
	RankPoint     Rank = iota // an entity's own place
	RankVertex                // a vertex of a run, line or area
	RankFoot                  // where a line square to an edge meets it
	RankCross                 // where two edges or guides cross
	RankEdge                  // an edge of a run, line or area
	RankAlong                 // a line beside a wall, at a distance
	RankExtension             // in line with an edge, beyond its end
	RankTrack                 // level with a place, or straight above or below it
	RankAngle                 // a ray at a round angle from the last vertex
	RankGrid                  // the snap grid
	RankFree                  // nothing: the pointer itself
)

// weights say how much each rank is held back: the candidate with the least
// distance times weight wins. At its own place every candidate wins, so that
// to snap twice is to snap once.
var weights = [...]float64{RankPoint: 0.5, RankVertex: 1, RankFoot: 1.5, RankCross: 1.5,
	RankEdge: 1, RankAlong: 1, RankExtension: 2, RankTrack: 2, RankAngle: 1, RankGrid: 1, RankFree: 1}

// Magnet finds the place that a point snaps to. Offer it every candidate in a
// fixed order; of equal rank and equal distance the first one offered wins, so
// the same drawing always snaps the same way.
type Magnet struct {
	at    Point
	reach Length
	best  Point
	rank  Rank
	score float64
	key   int
}

// NewMagnet returns a magnet for the pointer at a place, which is pulled from
// up to reach away, and by entities, whose symbols are larger than a vertex,
// from half as far again.
func NewMagnet(at Point, reach Length) *Magnet {
	return &Magnet{at: at, reach: reach, best: at, rank: RankFree, key: -1}
}

// Offer adds a candidate place. The key is given back by Caught when it wins.
func (m *Magnet) Offer(p Point, rank Rank, key int) {
	reach := m.reach
	if rank == RankPoint {
		reach += reach / 2
	}
	if abs(p.X-m.at.X) > reach || abs(p.Y-m.at.Y) > reach {
		return
	}
	d := Distance(m.at, p)
	score := float64(d) * weights[rank]
	if d > reach || m.key >= 0 && (score > m.score || score == m.score && rank >= m.rank) {
		return
	}
	m.best, m.rank, m.score, m.key = p, rank, score, key
}

// Caught returns the winning place, its rank and its key; without a candidate
// in reach it is the pointer itself, RankFree and key -1.
func (m *Magnet) Caught() (Point, Rank, int) { return m.best, m.rank, m.key }

// ToGrid returns the grid point nearest to p; halves go away from zero. A
// spacing of 0 or less leaves p as it is.
func ToGrid(p Point, spacing Length) Point {
	return Point{roundTo(p.X, spacing), roundTo(p.Y, spacing)}
}

// ToAngle returns the point nearest to p on a ray from the origin whose
// direction is a multiple of step degrees (0 is right, anticlockwise). With a
// spacing above 0 the distance from the origin is rounded to a multiple of it,
// so that a leg drawn at an angle still has a round length.
func ToAngle(origin, p Point, step float64, spacing Length) Point {
	if origin == p || step <= 0 {
		return p
	}
	v := p.Sub(origin)
	turn := math.Round(Direction(origin, p)/step) * step
	sin, cos := math.Sincos(turn * math.Pi / 180)
	along := float64(v.X)*cos + float64(v.Y)*sin
	q := Along(origin, turn, roundTo(Length(math.Round(along)), spacing))
	if abs(q.X-p.X) <= 1 && abs(q.Y-p.Y) <= 1 {
		return p // there already, but for the last digit
	}
	return q
}

// Direction returns the direction from a to b in degrees, 0 for right and
// anticlockwise up to 360; 0 for two equal points.
func Direction(a, b Point) float64 {
	d := math.Atan2(float64(b.Y-a.Y), float64(b.X-a.X)) * 180 / math.Pi
	if d < 0 {
		d += 360
	}
	return d
}

// Along returns the point at a distance from p in the direction of degrees.
func Along(p Point, degrees float64, distance Length) Point {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return Point{
		p.X + Length(math.Round(float64(distance)*cos)),
		p.Y + Length(math.Round(float64(distance)*sin)),
	}
}

func roundTo(l, spacing Length) Length {
	if spacing <= 0 {
		return l
	}
	half := spacing / 2
	if l < 0 {
		half = -half
	}
	return (l + half) / spacing * spacing
}

func abs(l Length) Length {
	if l < 0 {
		return -l
	}
	return l
}
