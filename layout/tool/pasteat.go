package tool

import (
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// PasteAt returns how far from where it was cut a fragment is pasted: its
// middle goes to the pointer, in whole steps of the grid so that what stood on
// the grid stands on it again. Where that would put a thing exactly on one that
// is there, or without a pointer, it goes a step to the right and down until
// nothing coincides.
func PasteAt(s *doc.Scheme, f *doc.Fragment, pointer *geom.Point) geom.Point {
	grid := s.Plan.Grid
	if grid <= 0 {
		grid = 100 * geom.Millimetre
	}
	var by geom.Point
	bare := f.Bare()
	if pointer != nil {
		by = geom.ToGrid(pointer.Sub(middleOf(bare)), grid)
	}
	there := map[geom.Point]bool{}
	spots(s, func(p geom.Point) { there[p] = true })
	free := func() bool {
		ok := true
		spots(bare, func(p geom.Point) { ok = ok && !there[p.Add(by)] })
		return ok
	}
	for range 100 {
		if free() {
			break
		}
		by = by.Add(geom.Point{X: grid, Y: -grid})
	}
	return by
}

// middleOf returns the middle of a fragment: of its things, for the ends of
// runs that were left in the air would pull it aside; without things of what
// is drawn.
func middleOf(bare *doc.Scheme) geom.Point {
	var things geom.Rect
	spots(bare, func(p geom.Point) { things = things.With(p) })
	if things.Empty() {
		things = doc.Bounds(bare)
	}
	return things.Centre()
}

// spots calls f for the place of every point entity, and for the first corner
// of every area and line.
func spots(s *doc.Scheme, f func(geom.Point)) {
	doc.Each(s, func(e doc.Entity, k doc.Kind) {
		if p, ok := doc.PlaceOf(e); ok {
			f(p.At)
		}
	})
	for _, a := range s.Areas.All() {
		f(a.Ring[0])
	}
	for _, l := range s.Lines.All() {
		f(l.Path[0])
	}
}
