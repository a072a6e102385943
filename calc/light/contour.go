package light

import "math"

// Levels are the lux worth drawing (common practice, no source).
var Levels = [...]float64{0.5, 1, 2, 5, 10, 20, 50, 100}

// Contour is one line of equal illuminance over the middles of the cells; the
// brighter side is on its left. Closed ones do not repeat the first spot; open
// ones end at the edge of the grid.
type Contour struct {
	Level  float64
	Closed bool
	Line   []Spot
}

// Contours returns the lines of one level through the middles of the cells, by
// marching squares: linear along the edges, the mean of the four deciding where
// a line might go two ways. values has W·H entries, row after row. Levels equal
// to a value count that value as brighter.
func Contours(g Grid, values []float64, level float64) []Contour {
	m := &marcher{g: g, v: values, level: level, next: make([]edge, 2*g.W*g.H), back: make([]bool, 2*g.W*g.H)}
	for y := 0; y+1 < g.H; y++ {
		low, high := values[y*g.W:(y+1)*g.W], values[(y+1)*g.W:(y+2)*g.W]
		a, d := low[0] >= level, high[0] >= level
		for x := 1; x < g.W; x++ {
			b, c := low[x] >= level, high[x] >= level
			if a != b || a != c || a != d {
				m.cell(x-1, y)
			}
			a, d = b, c
		}
	}
	return m.trace()
}

// edge is a side between two neighbouring middles: twice the number of a cell
// for that to the right, one more for that upwards. 0 stands for no edge where
// one more than its number is kept.
type edge int32

type marcher struct {
	g     Grid
	v     []float64
	level float64
	order []edge // starts of pieces in the order found
	next  []edge // by start: one more than the end, brighter side on the left
	back  []bool // edges that end a piece
}

// right and up are the sides from a middle.
func (m *marcher) right(x, y int) edge { return edge(2 * (y*m.g.W + x)) }
func (m *marcher) up(x, y int) edge    { return m.right(x, y) + 1 }

func (m *marcher) at(x, y int) float64 { return m.v[y*m.g.W+x] }

// cell adds the pieces within four middles. Going round the four anticlockwise,
// a piece starts where it gets dark and ends where it gets bright.
func (m *marcher) cell(x, y int) {
	v := [4]float64{m.at(x, y), m.at(x+1, y), m.at(x+1, y+1), m.at(x, y+1)}
	sides := [4]edge{m.right(x, y), m.up(x+1, y), m.right(x, y+1), m.up(x, y)}
	var starts, ends [2]int
	n, k := 0, 0
	for i := range v {
		a, b := v[i] >= m.level, v[(i+1)%4] >= m.level
		if a && !b {
			starts[n], n = i, n+1
		}
		if !a && b {
			ends[k], k = i, k+1
		}
	}
	switch n {
	case 1:
		m.piece(sides[starts[0]], sides[ends[0]])
	case 2:
		// Two bright corners across: joined in the middle or not. Joined, a piece
		// cuts off a dark corner, which lies between its start and the end after
		// it; apart, it cuts off a bright one, with the end before its start.
		joined := v[0]+v[1]+v[2]+v[3] >= 4*m.level
		for _, s := range starts {
			e := (s + 3) % 4
			if joined {
				e = (s + 1) % 4
			}
			m.piece(sides[s], sides[e])
		}
	}
}

func (m *marcher) piece(from, to edge) {
	m.order = append(m.order, from)
	m.next[from] = to + 1
	m.back[to] = true
}

// spot returns where the line crosses an edge.
func (m *marcher) spot(e edge) Spot {
	x, y := int(e/2)%m.g.W, int(e/2)/m.g.W
	a := m.g.Middle(x, y)
	x2, y2 := x+1, y
	if e%2 != 0 {
		x2, y2 = x, y+1
	}
	b := m.g.Middle(x2, y2)
	va, vb := m.at(x, y), m.at(x2, y2)
	t := math.Max(0, math.Min(1, (m.level-va)/(vb-va)))
	return Spot{a.X + t*(b.X-a.X), a.Y + t*(b.Y-a.Y)}
}

// trace joins the pieces: first the lines that come in at the edge of the grid,
// then the closed ones, each in the order found.
func (m *marcher) trace() []Contour {
	var out []Contour
	for _, open := range []bool{true, false} {
		for _, start := range m.order {
			if m.next[start] == 0 || open && m.back[start] {
				continue
			}
			c := Contour{Level: m.level, Closed: !open, Line: []Spot{m.spot(start)}}
			for at := start; ; {
				to := m.next[at] - 1
				if to < 0 {
					break
				}
				m.next[at] = 0
				if to == start {
					break
				}
				c.Line = append(c.Line, m.spot(to))
				at = to
			}
			out = append(out, c)
		}
	}
	return out
}

// Area returns the area to the left of a closed line in m²: negative round a
// dark island. 0 for open lines.
func (c Contour) Area() float64 {
	if !c.Closed {
		return 0
	}
	sum := 0.0
	for i, p := range c.Line {
		r := c.Line[(i+1)%len(c.Line)]
		sum += p.X*r.Y - r.X*p.Y
	}
	return sum / 2
}
