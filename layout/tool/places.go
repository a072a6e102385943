package tool

import (
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// places are the things, corners and edges of one scheme that can catch the
// pointer, with an index over where they are.
type places struct {
	scheme *doc.Scheme
	list   []catcher
	cells  *geom.Cells
}

// catcher is one of them.
type catcher struct {
	a, b geom.Point // of an edge, otherwise equal
	on   doc.ID
	n    int // number of the corner, or of the edge along the path
	what placeKind
	wall bool // a line beside it may catch
}

type placeKind uint8

const (
	aThing  placeKind = iota // a run may end on it
	aCorner                  // also a tree or another mark
	anEdge
)

// placesOf returns the places of the world's scheme. They are worked out once
// a scheme: schemes do not change.
func placesOf(w *World) *places {
	if w.near == nil || w.near.scheme != w.Scheme {
		w.near = newPlaces(w.Scheme)
	}
	return w.near
}

func newPlaces(s *doc.Scheme) *places {
	p := &places{scheme: s}
	eachPoint(s, func(id doc.ID, at geom.Point) { p.spot(at, id, 0, aThing) })
	for _, r := range s.Runs.All() {
		path := doc.RunPath(s, r)
		for i, at := range path {
			if OwnVertex(r, i) {
				p.spot(at, r.ID, i, aCorner)
			}
		}
		p.edges(path, r.ID, false, false)
	}
	for _, l := range s.Lines.All() {
		for i, at := range l.Path {
			p.spot(at, l.ID, i, aCorner)
		}
		p.edges(l.Path, l.ID, false, l.Kind == "wall" || l.Kind == "fence")
	}
	for _, a := range s.Areas.All() {
		for i, at := range a.Ring {
			p.spot(at, a.ID, i, aCorner)
		}
		p.edges(a.Ring, a.ID, true, a.Kind == "building")
	}
	for _, m := range s.Marks.All() {
		p.spot(m.Place.At, m.ID, 0, aCorner)
	}
	segments := make([][2]geom.Point, len(p.list))
	for i, q := range p.list {
		segments[i] = [2]geom.Point{q.a, q.b}
	}
	p.cells = geom.NewCells(segments)
	return p
}

func (p *places) spot(at geom.Point, on doc.ID, n int, what placeKind) {
	p.list = append(p.list, catcher{a: at, b: at, on: on, n: n, what: what})
}

func (p *places) edges(path []geom.Point, on doc.ID, closed, wall bool) {
	n := 0
	geom.Edges(path, closed, func(a, b geom.Point) {
		if a != b {
			p.list = append(p.list, catcher{a, b, on, n, anEdge, wall})
		}
		n++
	})
}
