package packs

import (
	"math"
	"slices"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// Cables that lie side by side are dug for once. How near they have to be and how
// nearly alike their directions: a spade's width and 10 degrees (common practice,
// no source).
const (
	sideBySide = slitWide // m
	alikeTurn  = 10.0     // degrees
	shortest   = 1e-6     // m; what is shorter is nothing
	sliver     = 0.050    // m; what is shorter is dug with what it joins
)

// strand is one leg in the ground.
type strand struct {
	run   *doc.Run
	leg   int
	a, b  geom.Point
	u     [2]float64 // its direction
	long  float64    // m
	taken []span     // dug for with a strand before it
	parts []piece    // what is dug for it
}

// span is from one place of a strand to another, metres from its start.
type span [2]float64

// piece is a piece of a strand with the strands that lie in one trench with it,
// itself first.
type piece struct {
	span
	with   []*strand
	spread float64 // m across, from the outermost to the outermost
}

// strandsOf lists the legs in the ground and parts them into trenches: the first
// that is drawn leads, and what lies within a spade's width of it and runs alike is
// dug with it over the length that both have.
func strandsOf(s *doc.Scheme) []*strand {
	var all []*strand
	each(s, func(r *doc.Run, leg int, a, b geom.Point) {
		long := geom.Distance(a, b).Metres()
		if long < shortest {
			return
		}
		all = append(all, &strand{run: r, leg: leg, a: a, b: b, long: long,
			u: [2]float64{(b.X - a.X).Metres() / long, (b.Y - a.Y).Metres() / long}})
	})
	reach := geom.Metres(sideBySide)
	for i, s := range all {
		box := geom.Around(s.a, s.b).Grow(reach)
		var near []neighbour
		for _, o := range all[i+1:] {
			if !box.Overlaps(geom.Around(o.a, o.b)) {
				continue
			}
			if at, ok := s.beside(o); ok {
				near = append(near, neighbour{o, at})
			}
		}
		s.lead(near)
	}
	return all
}

// neighbour is a strand beside another, from and to on that one.
type neighbour struct {
	*strand
	at span
}

// place returns how far along the strand a point lies, and how far to the left.
func (s *strand) place(p geom.Point) (along, across float64) {
	x, y := (p.X - s.a.X).Metres(), (p.Y - s.a.Y).Metres()
	return x*s.u[0] + y*s.u[1], y*s.u[0] - x*s.u[1]
}

// along returns how far along o lies what is at a distance along s, measured
// square to s.
func (s *strand) along(o *strand, at float64) float64 {
	s0, _ := s.place(o.a)
	s1, _ := s.place(o.b)
	return (at - s0) / (s1 - s0) * o.long
}

// point returns the place at a distance along the strand.
func (s *strand) point(along float64) geom.Point {
	return geom.Point{X: s.a.X + geom.Metres(along*s.u[0]), Y: s.a.Y + geom.Metres(along*s.u[1])}
}

// beside returns the stretch of s along which o lies within a spade's width and
// runs alike, in either direction.
func (s *strand) beside(o *strand) (at span, ok bool) {
	if math.Abs(s.u[0]*o.u[0]+s.u[1]*o.u[1]) < math.Cos(alikeTurn*math.Pi/180) {
		return at, false
	}
	s0, t0 := s.place(o.a)
	s1, t1 := s.place(o.b)
	if s0 > s1 {
		s0, t0, s1, t1 = s1, t1, s0, t0
	}
	from, to := max(0, s0), min(s.long, s1)
	if slope := (t1 - t0) / (s1 - s0); math.Abs(slope) > 1e-12 { // where it comes near and leaves
		x0, x1 := s0+(-sideBySide-t0)/slope, s0+(sideBySide-t0)/slope
		from, to = max(from, min(x0, x1)), min(to, max(x0, x1))
	} else if math.Abs(t0) > sideBySide+1e-9 {
		return at, false
	}
	return span{from, to}, to-from > shortest
}

// inside reports whether a place lies in one of the spans.
func inside(spans []span, x float64) bool {
	for _, s := range spans {
		if x > s[0] && x < s[1] {
			return true
		}
	}
	return false
}

// lead parts what is not dug already into pieces with the same company, and marks
// that company as dug.
func (s *strand) lead(near []neighbour) {
	cuts := []float64{0, s.long}
	for _, t := range s.taken {
		cuts = append(cuts, t[0], t[1])
	}
	for _, n := range near {
		cuts = append(cuts, n.at[0], n.at[1])
		for _, t := range n.taken {
			for _, x := range t {
				along, _ := s.place(n.point(x))
				cuts = append(cuts, along)
			}
		}
	}
	slices.Sort(cuts)
	for i := 0; i+1 < len(cuts); i++ {
		from, to := max(0, cuts[i]), min(s.long, cuts[i+1])
		middle := (from + to) / 2
		if to-from < shortest || inside(s.taken, middle) {
			continue
		}
		p := piece{span: span{from, to}, with: []*strand{s}}
		low, high := 0.0, 0.0
		for _, n := range near {
			if middle < n.at[0] || middle > n.at[1] {
				continue
			}
			x := s.along(n.strand, middle)
			if inside(n.taken, x) {
				continue
			}
			p.with = append(p.with, n.strand)
			_, across := s.place(n.point(x))
			low, high = min(low, across), max(high, across)
		}
		p.spread = high - low
		s.join(p)
	}
	s.tidy()
	for _, p := range s.parts {
		for _, o := range p.with[1:] {
			x0, x1 := s.along(o, p.span[0]), s.along(o, p.span[1])
			o.taken = append(o.taken, span{min(x0, x1), max(x0, x1)})
		}
	}
}

// join adds a piece, to the one before it where the company is the same.
func (s *strand) join(p piece) {
	if n := len(s.parts) - 1; n >= 0 && s.parts[n].span[1] == p.span[0] && slices.Equal(s.parts[n].with, p.with) {
		s.parts[n].span[1], s.parts[n].spread = p.span[1], max(s.parts[n].spread, p.spread)
		return
	}
	s.parts = append(s.parts, p)
}

// tidy gives pieces too short to be told apart to the longer one of those that they
// join; between trenches that are dug already they go with these.
func (s *strand) tidy() {
	for i := 0; i < len(s.parts); {
		p := &s.parts[i]
		if p.span[1]-p.span[0] >= sliver || s.long < 2*sliver {
			i++
			continue
		}
		before, after := i > 0 && s.parts[i-1].span[1] == p.span[0], i+1 < len(s.parts) && s.parts[i+1].span[0] == p.span[1]
		long := func(k int) float64 { return s.parts[k].span[1] - s.parts[k].span[0] }
		switch {
		case before && (!after || long(i-1) >= long(i+1)):
			s.parts[i-1].span[1] = p.span[1]
		case after:
			s.parts[i+1].span[0] = p.span[0]
		case len(s.taken) == 0:
			i++
			continue
		}
		s.parts = slices.Delete(s.parts, i, i+1)
	}
}
