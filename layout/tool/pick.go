package tool

import (
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// NoVertex is the Vertex of a hit on something that is not a vertex.
const NoVertex = -1

// Hit is what lies under the pointer.
type Hit struct {
	ID doc.ID // "" for nothing
	// Vertex is the vertex of a run, line or area under the pointer, counted
	// along its path; NoVertex when it was hit elsewhere.
	Vertex int
	// Leg is the leg of a run under the pointer, NoVertex for other things.
	Leg int
	// Middle is the edge, counted from 1, whose middle handle is under the
	// pointer; 0 for none. Only a selected area or line has such handles.
	Middle int
	// Aim says that the handle that aims a selected lamp is under the pointer.
	Aim bool
	// Turn says that the handle that turns the picture is under the pointer.
	Turn bool
	// Point says that the entity stands at one place.
	Point bool
}

// Pick returns what lies within reach of a place: point entities first, then
// run vertices, runs, marks, dimensions, lines and areas; of each the nearest, and of
// equally near ones the first in the scheme. Points have symbols that are
// larger than a vertex and are taken from half as far again. Of areas that hold the place the smallest
// wins, so that a pond in a lawn can be picked.
func Pick(s *doc.Scheme, at geom.Point, reach geom.Length) Hit {
	for _, pick := range []func(*doc.Scheme, geom.Point, geom.Length) Hit{
		pickPoint, pickRun, pickMark, pickDimension, pickLine, pickEdge, pickArea,
	} {
		if h := pick(s, at, reach); h.ID != "" {
			return h
		}
	}
	return Hit{Vertex: NoVertex, Leg: NoVertex}
}

func nothing() Hit { return Hit{Vertex: NoVertex, Leg: NoVertex} }

func pickPoint(s *doc.Scheme, at geom.Point, reach geom.Length) Hit {
	hit, near := nothing(), reach+reach/2+1
	eachPoint(s, func(id doc.ID, p geom.Point) {
		if d := geom.Distance(at, p); d < near {
			hit.ID, hit.Point, near = id, true, d
		}
	})
	return hit
}

func pickRun(s *doc.Scheme, at geom.Point, reach geom.Length) Hit {
	vertex, nearVertex := nothing(), reach+1
	body, nearBody := nothing(), reach+1
	for _, r := range s.Runs.All() {
		path := doc.RunPath(s, r)
		for i, p := range path {
			if !OwnVertex(r, i) {
				continue
			}
			if d := geom.Distance(at, p); d < nearVertex {
				vertex, nearVertex = Hit{ID: r.ID, Vertex: i, Leg: NoVertex}, d
			}
		}
		for i := 1; i < len(path); i++ {
			if _, d := geom.Nearest(at, path[i-1], path[i]); d < nearBody {
				body, nearBody = Hit{ID: r.ID, Vertex: NoVertex, Leg: i - 1}, d
			}
		}
	}
	if vertex.ID != "" {
		return vertex
	}
	return body
}

// OwnVertex reports whether vertex i of a run's path belongs to the run
// itself: the bends, and an end that hangs in the air.
func OwnVertex(r *doc.Run, i int) bool {
	switch i {
	case 0:
		return r.From.On == ""
	case len(r.Legs):
		return r.To.On == ""
	}
	return true
}

func pickMark(s *doc.Scheme, at geom.Point, reach geom.Length) Hit {
	hit, near := nothing(), reach+reach/2+1
	for _, m := range s.Marks.All() {
		if d := geom.Distance(at, m.Place.At); d < near {
			hit.ID, hit.Point, near = m.ID, true, d
		}
	}
	return hit
}

func pickLine(s *doc.Scheme, at geom.Point, reach geom.Length) Hit {
	hit, near := nothing(), reach+1
	for _, l := range s.Lines.All() {
		if d := toPath(at, l.Path, false); d < near {
			hit, near = Hit{ID: l.ID, Vertex: vertexAt(at, l.Path, reach), Leg: NoVertex}, d
		}
	}
	return hit
}

func pickEdge(s *doc.Scheme, at geom.Point, reach geom.Length) Hit {
	hit, near := nothing(), reach+1
	for _, a := range s.Areas.All() {
		if d := toPath(at, a.Ring, true); d < near {
			hit, near = Hit{ID: a.ID, Vertex: vertexAt(at, a.Ring, reach), Leg: NoVertex}, d
		}
	}
	return hit
}

func pickArea(s *doc.Scheme, at geom.Point, _ geom.Length) Hit {
	hit, least := nothing(), 0.0
	for _, a := range s.Areas.All() {
		if !geom.Inside(at, a.Ring) {
			continue
		}
		if size := ringSize(a.Ring); hit.ID == "" || size < least {
			hit.ID, least = a.ID, size
		}
	}
	return hit
}

// vertexAt returns the nearest vertex within reach, NoVertex for none.
func vertexAt(p geom.Point, path []geom.Point, reach geom.Length) int {
	vertex, near := NoVertex, reach+1
	for i, v := range path {
		if d := geom.Distance(p, v); d < near {
			vertex, near = i, d
		}
	}
	return vertex
}

// toPath returns the distance from p to a polyline, closed or not.
func toPath(p geom.Point, path []geom.Point, closed bool) geom.Length {
	near := geom.Length(1<<63 - 1)
	for i := range path {
		j := i - 1
		if i == 0 {
			if j = len(path) - 1; !closed {
				continue
			}
		}
		if _, d := geom.Nearest(p, path[j], path[i]); d < near {
			near = d
		}
	}
	return near
}

// ringSize returns twice the area of a ring in square micrometres.
func ringSize(ring []geom.Point) float64 {
	var sum float64
	for i, j := 0, len(ring)-1; i < len(ring); j, i = i, i+1 {
		sum += float64(ring[j].X)*float64(ring[i].Y) - float64(ring[i].X)*float64(ring[j].Y)
	}
	if sum < 0 {
		return -sum
	}
	return sum
}
