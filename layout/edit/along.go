package edit

import (
	"errors"
	"slices"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// AlongWall lays a run, or a stretch of its legs, parallel to a line or to the
// edge of an area, with mitred corners. The stretch starts and ends beside where
// it starts and ends now. Ends that are joined to something stay joined, by a
// leg that leads there; bends and ends in the air move. Each new leg is carried
// as the old leg nearest to it.
type AlongWall struct {
	Run  doc.ID
	Wall doc.ID // a line or an area
	// Distance is measured to the side on which the run lies now; a negative one
	// leads to the other side. A run that lies on the wall itself counts as
	// outside of an area, and as left of the way a line was drawn.
	Distance geom.Length
	// Legs are the legs from the first to the last one moved, counted from 0;
	// nil is all of them.
	Legs []int
}

// Name implements Operation.
func (o AlongWall) Name() string { return "Lay run along wall" }

func (o AlongWall) title(s *doc.Scheme) string {
	return "Lay " + doc.TagOf(s, o.Run) + " along " + doc.TagOf(s, o.Wall)
}

// Apply implements Operation.
func (o AlongWall) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	r, ok := s.Runs.Get(o.Run)
	if !ok {
		return nil, unknown(s, o.Run, "run")
	}
	wall, closed, tag, err := o.wall(s)
	if err != nil {
		return nil, err
	}
	first, last, err := o.stretch(r)
	if err != nil {
		return nil, err
	}
	path := doc.RunPath(s, r)
	part := path[first : last+2]
	by := halfway(part)
	d := o.Distance
	if !leftOf(by, wall, closed) {
		d = -d
	}
	way, err := geom.Beside(wall, closed, d, part[0], part[len(part)-1], by)
	switch {
	case errors.Is(err, geom.ErrSquare):
		return nil, refuse("%s runs square to %s, so that nothing of it would lie along it", r.Tag, tag)
	case err != nil:
		return nil, refuse("%s cannot lie %s beside %s: %v", r.Tag, doc.Written(o.Distance), tag, err)
	}
	return replace(s, o.laid(r, path, first, last, way))
}

// wall returns the path to lie along.
func (o AlongWall) wall(s *doc.Scheme) (path []geom.Point, closed bool, tag string, err error) {
	e, kind := doc.Find(s, o.Wall)
	switch e := e.(type) {
	case *doc.Line:
		return e.Path, false, e.Tag, nil
	case *doc.Area:
		return e.Ring, true, e.Tag, nil
	}
	if kind == doc.NoKind {
		return nil, false, "", refuse("there is nothing with the id %q to lie along", o.Wall)
	}
	return nil, false, "", refuse("%s is a %s; a run can be laid along a line or the edge of an area", e.Label(), kind)
}

func (o AlongWall) stretch(r *doc.Run) (first, last int, err error) {
	if len(r.Legs) == 0 || o.Legs == nil {
		return 0, len(r.Legs) - 1, nil
	}
	legs := slices.Compact(slices.Sorted(slices.Values(o.Legs)))
	if len(legs) == 0 {
		return 0, 0, refuse("no leg of %s is chosen", r.Tag)
	}
	first, last = legs[0], legs[len(legs)-1]
	if first < 0 || last >= len(r.Legs) {
		return 0, 0, refuse("%s has legs 1 to %d, found %d to %d", r.Tag, len(r.Legs), first+1, last+1)
	}
	if last-first+1 != len(legs) {
		return 0, 0, refuse("the legs of %s that go along must follow each other", r.Tag)
	}
	return first, last, nil
}

// laid returns the run with the stretch replaced by the way.
func (o AlongWall) laid(r *doc.Run, path []geom.Point, first, last int, way []geom.Point) *doc.Run {
	c := *r
	old := path[first : last+2]
	corners := slices.Clone(way)
	start, end := path[first], path[last+1]
	if first == 0 && r.From.On != "" && start != way[0] {
		corners = slices.Insert(corners, 0, start)
	} else if first == 0 && r.From.On == "" {
		c.From.At = way[0]
	}
	if final := last == len(r.Legs)-1; final && r.To.On != "" && end != way[len(way)-1] {
		corners = append(corners, end)
	} else if final && r.To.On == "" {
		c.To.At = way[len(way)-1]
	}
	c.Legs = slices.Clone(r.Legs[:first])
	if first > 0 {
		c.Legs[first-1].To = corners[0]
	}
	for i := 1; i < len(corners); i++ {
		l := r.Legs[first+nearestLeg(old, corners[i-1], corners[i])]
		l.To = corners[i]
		c.Legs = append(c.Legs, l)
	}
	c.Legs = append(c.Legs, r.Legs[last+1:]...)
	return &c
}

// nearestLeg returns the leg of a path that is nearest to the middle of ab.
func nearestLeg(path []geom.Point, a, b geom.Point) int {
	mid := geom.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}
	best, least := 0, geom.Length(-1)
	for i := 1; i < len(path); i++ {
		if _, d := geom.Nearest(mid, path[i-1], path[i]); least < 0 || d < least {
			best, least = i-1, d
		}
	}
	return best
}

// halfway returns the point in the middle of a path, by its length.
func halfway(path []geom.Point) geom.Point {
	left := geom.PathLength(path) / 2
	for i := 1; i < len(path); i++ {
		d := geom.Distance(path[i-1], path[i])
		if d >= left && d > 0 {
			t := float64(left) / float64(d)
			return geom.Point{X: path[i-1].X + geom.Length(t*float64(path[i].X-path[i-1].X)),
				Y: path[i-1].Y + geom.Length(t*float64(path[i].Y-path[i-1].Y))}
		}
		left -= d
	}
	return path[0]
}

// leftOf reports whether p lies left of a path as it runs. On the path itself
// it is outside of a ring, and left of a line.
func leftOf(p geom.Point, path []geom.Point, closed bool) bool {
	if closed {
		inside := geom.Inside(p, path) && geom.ToPath(p, path, true) > geom.Micrometre
		return inside == (turning(path) > 0)
	}
	// Beside a corner the edge that p is further off decides: the other one is
	// passed beyond its end.
	least, off := geom.Length(-1), 0.0
	for i := 1; i < len(path); i++ {
		a, b := path[i-1], path[i]
		_, d := geom.Nearest(p, a, b)
		if a == b || least >= 0 && d > least {
			continue
		}
		v, w := b.Sub(a), p.Sub(a)
		o := (float64(v.X)*float64(w.Y) - float64(v.Y)*float64(w.X)) / float64(geom.Distance(a, b))
		if d == least && o*o <= off*off {
			continue
		}
		least, off = d, o
	}
	return off >= 0
}

// turning returns twice the area of a ring, positive when it runs
// anticlockwise.
func turning(ring []geom.Point) float64 {
	var sum float64
	for i, j := 0, len(ring)-1; i < len(ring); j, i = i, i+1 {
		sum += float64(ring[j].X)*float64(ring[i].Y) - float64(ring[i].X)*float64(ring[j].Y)
	}
	return sum
}
