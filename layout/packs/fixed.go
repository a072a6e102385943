package packs

import (
	"math"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// fixed are the two points that the garden is set out from.
type fixed struct {
	at    [2]geom.Point
	words [2]string // "corner of House (A1), on the left as seen from the garden"
}

// least distance of two points to measure from: with less the two tapes cross
// too flat (common practice, no source).
const leastBase = 1500 * geom.Millimetre

// fixedOf picks the two points: the ends of that outer wall of a building which
// is longest for how far off it is, else the two fixed marks farthest apart,
// else the ends of the longest wall, fence or boundary; nil where nothing of it
// is drawn.
func fixedOf(s *doc.Scheme) *fixed {
	c := centre(s)
	if f := corners(s, c); f != nil {
		return f
	}
	if f := marks(s); f != nil {
		return f
	}
	return ends(s)
}

// centre is the middle of everything that is set out.
func centre(s *doc.Scheme) geom.Point {
	var r geom.Rect
	doc.Each(s, func(e doc.Entity, k doc.Kind) {
		if k.Joinable() {
			p, _ := doc.PlaceOf(e)
			r = r.With(p.At)
		}
	})
	if r.Empty() {
		return geom.Point{}
	}
	return r.Centre()
}

func corners(s *doc.Scheme, c geom.Point) *fixed {
	var best *fixed
	most := math.Inf(-1)
	for _, a := range s.Areas.All() {
		if a.Kind != "building" || len(a.Ring) < 3 {
			continue
		}
		geom.Edges(a.Ring, true, func(p, q geom.Point) {
			long := geom.Distance(p, q)
			_, off := geom.Nearest(c, p, q)
			score := float64(long) - float64(off)/2
			if long < leastBase || score <= most {
				return
			}
			most = score
			best = &fixed{at: [2]geom.Point{p, q}}
			if cross(c, p, q) > 0 { // the left one as seen from the garden comes first
				best.at = [2]geom.Point{q, p}
			}
			name := areaName(a)
			best.words = [2]string{"corner of " + name + ", on the left as seen from the garden", "corner of " + name + ", on the right"}
		})
	}
	return best
}

// cross is above 0 when q lies to the left of p as seen from c.
func cross(c, p, q geom.Point) float64 {
	return float64(p.X-c.X)*float64(q.Y-c.Y) - float64(p.Y-c.Y)*float64(q.X-c.X)
}

func marks(s *doc.Scheme) *fixed {
	var best *fixed
	most := geom.Length(leastBase)
	stays := func(m *doc.Mark) bool { return m.Kind != "seat" }
	name := func(m *doc.Mark) string {
		if m.Name == "" {
			return m.Kind + " " + m.Tag
		}
		return m.Name + " (" + m.Tag + ")"
	}
	all := s.Marks.All()
	for i, a := range all {
		for _, b := range all[i+1:] {
			if d := geom.Distance(a.Place.At, b.Place.At); stays(a) && stays(b) && d > most {
				most = d
				best = &fixed{[2]geom.Point{a.Place.At, b.Place.At}, [2]string{"middle of " + name(a), "middle of " + name(b)}}
			}
		}
	}
	return best
}

func ends(s *doc.Scheme) *fixed {
	var best *fixed
	most := geom.Length(leastBase)
	for _, l := range s.Lines.All() {
		if l.Kind != "wall" && l.Kind != "fence" && l.Kind != "boundary" || len(l.Path) < 2 {
			continue
		}
		p, q := l.Path[0], l.Path[len(l.Path)-1]
		if d := geom.Distance(p, q); d > most {
			name := l.Kind + " " + l.Tag
			if l.Name != "" {
				name = l.Name + " (" + l.Tag + ")"
			}
			most = d
			best = &fixed{[2]geom.Point{p, q}, [2]string{"start of " + name, "end of " + name}}
		}
	}
	return best
}
