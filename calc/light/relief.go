package light

import (
	"fmt"
	"math"
	"slices"
)

// Relief says how high the ground is under the cells of a grid: an index into Z a
// cell, row after row as in the sheet. The zero Relief is level ground at the height
// of the grid.
type Relief struct {
	Kind []uint8
	Z    []float64
}

// level reports whether all ground is at the height of the grid.
func (r Relief) level() bool { return len(r.Kind) == 0 }

func (r Relief) check(g Grid) error {
	if r.level() {
		return nil
	}
	if len(r.Kind) != g.W*g.H {
		return fmt.Errorf("relief: found %d cells, expected %d", len(r.Kind), g.W*g.H)
	}
	if most := int(slices.Max(r.Kind)); most >= len(r.Z) {
		return fmt.Errorf("relief: found height number %d, expected one of %d", most, len(r.Z))
	}
	for _, z := range r.Z {
		if math.IsNaN(z) || math.IsInf(z, 0) {
			return fmt.Errorf("relief: found a height of %g m, expected a number", z)
		}
	}
	return nil
}

// steps returns, for every square of cells, the heights that it has, in the order
// of their first cells.
func (r Relief) steps(g Grid) [][]uint8 {
	if r.level() {
		return nil
	}
	wide := (g.W + Block - 1) / Block
	out := make([][]uint8, wide*((g.H+Block-1)/Block))
	for y := range g.H {
		for x := range g.W {
			k, at := r.Kind[y*g.W+x], y/Block*wide+x/Block
			if !slices.Contains(out[at], k) {
				out[at] = append(out[at], k)
			}
		}
	}
	return out
}

// Ground returns the middle of a cell on the ground.
func (s *Sheet) Ground(x, y int) Vec {
	v := s.grid.Middle(x, y)
	if !s.relief.level() {
		v.Z = s.relief.Z[s.relief.Kind[y*s.grid.W+x]]
	}
	return v
}
