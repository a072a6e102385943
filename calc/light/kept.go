package light

import "math"

// keepMost is how many cells of all lamps together a sheet has that remembers at
// most: 134 MB if every lamp lights every cell. Squares in the dark take nothing.
const keepMost = 1 << 25

// patch is what one lamp gives in one square.
type patch struct {
	x0, y0, w int
	units     []int32
	large     []int64 // in its place where a cell has more than fits
}

// Keep has the sheet remember what each lamp gives alone, so that an Exchange need
// not work out what it takes off. It is called before the sheet is filled, for sheets
// on which lamps will be moved; too large a sheet for so many lamps remembers nothing.
func (s *Sheet) Keep() {
	n := len(s.scene.lamps)
	if n*s.grid.W*s.grid.H > keepMost {
		return
	}
	s.kept = make([][][]patch, n)
	for i := range s.kept {
		s.kept[i] = make([][]patch, s.Bands())
	}
}

// keep puts the light of lamp i, which may be another than it was, into a band of out and
// remembers it.
func (s *Sheet) keep(i int, p *placed, b int, out []int64) {
	list := s.kept[i][b][:0]
	s.add(p, b, out, &list)
	s.kept[i][b] = list
}

// takeOff takes what lamp i gives off out.
func (s *Sheet) takeOff(i int, out []int64) {
	for _, band := range s.kept[i] {
		for k := range band {
			band[k].takeOff(out, s.grid.W)
		}
	}
}

func (t *patch) takeOff(out []int64, stride int) {
	at, n := t.y0*stride+t.x0, max(len(t.units), len(t.large))
	for from := 0; from < n; from, at = from+t.w, at+stride {
		row := out[at : at+t.w]
		if t.large != nil {
			for k, u := range t.large[from : from+t.w] {
				row[k] -= u
			}
			continue
		}
		for k, u := range t.units[from : from+t.w] {
			row[k] -= int64(u)
		}
	}
}

// before is what out had in a square.
type before [Block * Block]int64

func (f *before) take(t *square, out []int64, stride int) {
	n := 0
	for y := t.y0; y < t.y1; y++ {
		n += copy(f[n:], out[y*stride+t.x0:y*stride+t.x1])
	}
}

// since returns what has been added to the square of out since.
func (f *before) since(t *square, out []int64, stride int) (p patch, any bool) {
	w, n, most := t.x1-t.x0, 0, int64(0)
	for y := t.y0; y < t.y1; y++ {
		for _, u := range out[y*stride+t.x0 : y*stride+t.x1] {
			f[n] = u - f[n]
			most = max(most, f[n])
			n++
		}
	}
	p = patch{x0: t.x0, y0: t.y0, w: w}
	switch {
	case most == 0:
		return p, false
	case most > math.MaxInt32:
		p.large = append(p.large, f[:n]...)
		return p, true
	}
	p.units = make([]int32, n)
	for k, u := range f[:n] {
		p.units[k] = int32(u)
	}
	return p, true
}
