package tool

import (
	"cmp"
	"slices"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// WallsBy returns the lines and areas that a run may be laid along, those that
// are selected first, then the nearest to its middle leg by leg: the sum of how
// far its corners are off.
func WallsBy(s *doc.Scheme, r *doc.Run, selected []doc.ID) []doc.ID {
	type wall struct {
		id  doc.ID
		off geom.Length
	}
	path := doc.RunPath(s, r)
	var walls []wall
	add := func(id doc.ID, ps []geom.Point, closed bool) {
		var sum geom.Length
		for i := 1; i < len(path); i++ {
			mid := geom.Point{X: (path[i-1].X + path[i].X) / 2, Y: (path[i-1].Y + path[i].Y) / 2}
			sum += geom.ToPath(mid, ps, closed)
		}
		if slices.Contains(selected, id) {
			sum = -1
		}
		walls = append(walls, wall{id, sum})
	}
	for _, l := range s.Lines.All() {
		add(l.ID, l.Path, false)
	}
	for _, a := range s.Areas.All() {
		add(a.ID, a.Ring, true)
	}
	slices.SortStableFunc(walls, func(a, b wall) int { return cmp.Compare(a.off, b.off) })
	out := make([]doc.ID, len(walls))
	for i, w := range walls {
		out[i] = w.id
	}
	return out
}
