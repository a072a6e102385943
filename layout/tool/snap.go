package tool

import (
	"slices"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// coarse and fine are the steps of direction, in degrees, that Shift holds a
// dragged thing and a new leg to.
const (
	coarse = 45
	fine   = 15
)

// snap says how one gesture snaps.
type snap struct {
	// from is the place that Shift measures directions from; nil for none.
	from *geom.Point
	step float64
	// points lets the pointer be caught by point entities.
	points bool
	// leave are entities that must not catch it, such as the ones dragged.
	leave []doc.ID
}

// snapped is where the pointer was pulled to.
type snapped struct {
	at   geom.Point
	rank geom.Rank
	on   doc.ID // entity that caught it, "" for none
}

// mark returns the place of the snap mark, nil when the pointer is free.
func (s snapped) mark() *geom.Point {
	if s.rank == geom.RankFree {
		return nil
	}
	at := s.at
	return &at
}

// snapTo pulls the pointer of an event: to a point entity, else to a vertex,
// else with Shift to a round direction, else to the grid. Alt lets go of all
// but the direction.
func snapTo(e Event, w *World, how snap) snapped {
	free := !w.Snap || e.Mods.Alt
	m := geom.NewMagnet(e.At, e.Reach)
	var ids []doc.ID
	if !free {
		ids = offer(m, w.Scheme, how)
	}
	at, rank, key := m.Caught()
	if rank != geom.RankFree {
		return snapped{at, rank, ids[key]}
	}
	grid := w.Scheme.Plan.Grid
	if free {
		grid = 0
	}
	if e.Mods.Shift && how.from != nil {
		return snapped{at: geom.ToAngle(*how.from, e.At, how.step, grid), rank: geom.RankAngle}
	}
	if grid > 0 {
		return snapped{at: geom.ToGrid(e.At, grid), rank: geom.RankGrid}
	}
	return snapped{at: e.At, rank: geom.RankFree}
}

// offer gives the magnet every entity and vertex of the scheme and returns
// the ids that its keys stand for.
func offer(m *geom.Magnet, s *doc.Scheme, how snap) []doc.ID {
	var ids []doc.ID
	add := func(id doc.ID, p geom.Point, rank geom.Rank) {
		ids = append(ids, id)
		m.Offer(p, rank, len(ids)-1)
	}
	if how.points {
		eachPoint(s, func(id doc.ID, p geom.Point) {
			if !holds(how.leave, id) {
				add(id, p, geom.RankPoint)
			}
		})
	}
	for _, r := range s.Runs.All() {
		if holds(how.leave, r.ID) {
			continue
		}
		for i := 0; i+1 < len(r.Legs); i++ {
			add(r.ID, r.Legs[i].To, geom.RankVertex)
		}
		if r.From.On == "" {
			add(r.ID, r.From.At, geom.RankVertex)
		}
		if r.To.On == "" {
			add(r.ID, r.To.At, geom.RankVertex)
		}
	}
	for _, l := range s.Lines.All() {
		if !holds(how.leave, l.ID) {
			for _, p := range l.Path {
				add(l.ID, p, geom.RankVertex)
			}
		}
	}
	for _, a := range s.Areas.All() {
		if !holds(how.leave, a.ID) {
			for _, p := range a.Ring {
				add(a.ID, p, geom.RankVertex)
			}
		}
	}
	return ids
}

func holds(ids []doc.ID, id doc.ID) bool { return slices.Contains(ids, id) }
