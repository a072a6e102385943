package tool

import (
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// eachPoint calls f for every entity that a run may end on, in the order
// supply points, sources, boxes, gear, lamps.
func eachPoint(s *doc.Scheme, f func(doc.ID, geom.Point)) {
	for _, e := range s.Supplies.All() {
		f(e.ID, e.Place.At)
	}
	for _, e := range s.Sources.All() {
		f(e.ID, e.Place.At)
	}
	for _, e := range s.Boxes.All() {
		f(e.ID, e.Place.At)
	}
	for _, e := range s.Gear.All() {
		f(e.ID, e.Place.At)
	}
	for _, e := range s.Lamps.All() {
		f(e.ID, e.Place.At)
	}
}

// Extent returns the rectangle around an entity, of a zone that around its
// lamps; empty when there is none.
func Extent(s *doc.Scheme, id doc.ID) geom.Rect {
	e, k := doc.Find(s, id)
	if k == doc.NoKind {
		return geom.Rect{}
	}
	if k != doc.ZoneKind {
		return doc.BoundsOf(s, e)
	}
	var r geom.Rect
	for _, l := range s.Lamps.All() {
		if l.Zone == id {
			r = r.Union(doc.BoundsOf(s, l))
		}
	}
	return r
}

// everything returns the ids of all that can be selected.
func everything(s *doc.Scheme) []doc.ID {
	var ids []doc.ID
	doc.Each(s, func(e doc.Entity, k doc.Kind) {
		if k != doc.ZoneKind {
			ids = append(ids, e.Key())
		}
	})
	return ids
}
