package layout

import (
	"math"
	"slices"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// way is a route in one direction: leg i lies between pts[i] and pts[i+1].
type way struct {
	pts  []geom.Point
	legs []doc.Leg
}

// wayOf returns the route of a run, from its start or backwards.
func wayOf(s *doc.Scheme, r *doc.Run, fromStart bool) way {
	w := way{doc.RunPath(s, r), slices.Clone(r.Legs)}
	if !fromStart {
		w = w.reversed()
	}
	return w
}

func (w way) reversed() way {
	out := way{slices.Clone(w.pts), slices.Clone(w.legs)}
	slices.Reverse(out.pts)
	slices.Reverse(out.legs)
	return out
}

// then joins another way to the end of this one.
func (w way) then(o way) way {
	if len(w.pts) == 0 {
		return o
	}
	if len(o.pts) == 0 {
		return w
	}
	return way{append(slices.Clone(w.pts), o.pts[1:]...), append(slices.Clone(w.legs), o.legs...)}
}

func (w way) length() geom.Length { return geom.PathLength(w.pts) }

// cut splits a way at a distance from its start, which lies within it.
func (w way) cut(at geom.Length) (a, b way) {
	left := float64(at)
	for i := range w.legs {
		p, q := w.pts[i], w.pts[i+1]
		d := math.Hypot(float64(q.X-p.X), float64(q.Y-p.Y))
		if left > d && i+1 < len(w.legs) {
			left -= d
			continue
		}
		t := 0.0
		if d > 0 {
			t = math.Min(left/d, 1)
		}
		m := geom.Point{X: p.X + geom.Length(math.Round(t*float64(q.X-p.X))), Y: p.Y + geom.Length(math.Round(t*float64(q.Y-p.Y)))}
		a = way{append(slices.Clone(w.pts[:i+1]), m), slices.Clone(w.legs[:i+1])}
		b = way{append([]geom.Point{m}, w.pts[i+1:]...), slices.Clone(w.legs[i:])}
		return a, b
	}
	return w, way{}
}

func (w way) end() geom.Point { return w.pts[len(w.pts)-1] }

// lay gives a copy of a run another way and other ends; the length it was cut
// to no longer holds.
func lay(r *doc.Run, w way, from, to doc.End) *doc.Run {
	c := *r
	c.From, c.To = from, to
	c.Cut.Known, c.Cut.Value = false, 0
	c.Legs = slices.Clone(w.legs)
	for i := range c.Legs {
		c.Legs[i].To = geom.Point{}
		if i+1 < len(c.Legs) {
			c.Legs[i].To = w.pts[i+1]
		}
	}
	return &c
}

// straight is the direct way from a to b, carried as a leg is.
func straight(a, b geom.Point, leg doc.Leg) way {
	return way{[]geom.Point{a, b}, []doc.Leg{leg}}
}

// barred reports whether a straight way crosses a building or water, or ends
// in one.
func barred(s *doc.Scheme, a, b geom.Point) bool {
	const steps = 200
	for _, area := range s.Areas.All() {
		if area.Kind != "building" && area.Kind != "water" {
			continue
		}
		for k := range steps + 1 {
			p := geom.Point{X: a.X + (b.X-a.X)*geom.Length(k)/steps, Y: a.Y + (b.Y-a.Y)*geom.Length(k)/steps}
			if geom.Inside(p, area.Ring) {
				return true
			}
		}
	}
	return false
}
