package geom

import "math"

// mostCells bounds the columns and the rows of Cells.
const mostCells = 256

// Cells finds the segments near a place without looking at all of them: the
// plan is cut into equal squares, and each square lists the segments that pass
// through it. A point is a segment without length. It serves one caller at a
// time.
type Cells struct {
	min        Point
	size       Length
	cols, rows int
	start      []int32 // of each cell in list, and the end of the last
	list       []int32 // numbers of segments
	seen       []uint32
	round      uint32
}

// NewCells returns the cells of the segments, about one a cell.
func NewCells(segments [][2]Point) *Cells {
	c := &Cells{seen: make([]uint32, len(segments)), cols: 1, rows: 1, size: Metre}
	var box Rect
	for _, s := range segments {
		box = box.With(s[0]).With(s[1])
	}
	c.min = box.Min
	w, h := box.Width(), box.Height()
	side := math.Sqrt(float64(w) * float64(h) / float64(len(segments)+1))
	least := float64(max(w, h)) / mostCells
	c.size = Length(math.Ceil(max(side, least, float64(Centimetre))))
	c.cols, c.rows = int(w/c.size)+1, int(h/c.size)+1
	c.start = make([]int32, c.cols*c.rows+1)
	for _, s := range segments {
		c.through(s[0], s[1], func(cell int) { c.start[cell+1]++ })
	}
	for i := 1; i < len(c.start); i++ {
		c.start[i] += c.start[i-1]
	}
	c.list = make([]int32, c.start[len(c.start)-1])
	next := append([]int32(nil), c.start[:len(c.start)-1]...)
	for i, s := range segments {
		c.through(s[0], s[1], func(cell int) {
			c.list[next[cell]] = int32(i)
			next[cell]++
		})
	}
	return c
}

func (c *Cells) col(x Length) int { return min(max(int((x-c.min.X)/c.size), 0), c.cols-1) }
func (c *Cells) row(y Length) int { return min(max(int((y-c.min.Y)/c.size), 0), c.rows-1) }

// through calls f for the cells that the segment ab passes, row by row, and
// for a neighbour more where it passes a corner of cells.
func (c *Cells) through(a, b Point, f func(cell int)) {
	if a.Y > b.Y {
		a, b = b, a
	}
	for r, last := c.row(a.Y), c.row(b.Y); r <= last; r++ {
		x0, x1 := float64(a.X), float64(b.X)
		if a.Y != b.Y {
			at := func(y Length) float64 {
				t := float64(min(max(y, a.Y), b.Y)-a.Y) / float64(b.Y-a.Y)
				return float64(a.X) + t*float64(b.X-a.X)
			}
			low := c.min.Y + Length(r)*c.size
			x0, x1 = at(low), at(low+c.size)
		}
		lo, hi := Length(math.Floor(min(x0, x1)))-1, Length(math.Ceil(max(x0, x1)))+1
		for k := c.col(lo); k <= c.col(hi); k++ {
			f(r*c.cols + k)
		}
	}
}

// Near calls f once for each segment that may pass through the rectangle, and
// for no segment that is more than a cell away from it. The order is the same
// for the same rectangle.
func (c *Cells) Near(r Rect, f func(i int)) {
	if r.Empty() || len(c.list) == 0 {
		return
	}
	if c.round++; c.round == 0 { // once in four thousand million calls
		clear(c.seen)
		c.round = 1
	}
	for row := c.row(r.Min.Y); row <= c.row(r.Max.Y); row++ {
		for col := c.col(r.Min.X); col <= c.col(r.Max.X); col++ {
			cell := row*c.cols + col
			for _, i := range c.list[c.start[cell]:c.start[cell+1]] {
				if c.seen[i] != c.round {
					c.seen[i] = c.round
					f(int(i))
				}
			}
		}
	}
}
