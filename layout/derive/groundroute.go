package derive

import (
	"math"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// surveyor collects the facts about the way of one run.
type surveyor struct {
	d    *deriver
	g    *ground
	legs []doc.Leg
	leg  int
	a, b geom.Point // ends of the leg
	box  geom.Rect  // around them
	over []overArea // what the leg passes over
	out  *network.Route
}

// overArea is a part of a leg, between two parameters, over an area.
type overArea struct {
	area     *doc.Area
	from, to float64
}

// way returns what the ground says about a route, without other runs.
func (d *deriver) way(r *route) *network.Route {
	s := &surveyor{d: d, g: d.ground, legs: r.run.Legs, out: &network.Route{}}
	s.out.Stretches = make([]network.Stretch, 0, len(s.legs))
	for i := range s.legs {
		s.leg, s.a, s.b = i, r.path[i], r.path[i+1]
		s.box = geom.Around(s.a, s.b)
		s.stretches()
		if dug(s.legs[i]) {
			s.roots()
			s.services()
			s.posts()
			continue
		}
		s.walls()
		s.beside()
	}
	return s.out
}

// dug reports whether a leg lies in the ground; see network.Leg.Dug.
func dug(l doc.Leg) bool {
	return l.Support == network.Buried || l.Support == network.InDuct && l.Depth > 0
}

// stretches cuts the leg where the ground changes.
func (s *surveyor) stretches() {
	var rings [][]geom.Point
	var areas []*doc.Area
	for i, a := range s.g.areas {
		if s.g.bounds[i].Overlaps(s.box) {
			rings, areas = append(rings, a.Ring), append(areas, a)
		}
	}
	long := metres(geom.Distance(s.a, s.b))
	s.over = s.over[:0]
	if len(rings) == 0 {
		s.out.Stretches = append(s.out.Stretches, network.Stretch{Leg: s.leg, Length: long})
		return
	}
	for _, p := range geom.Split(s.a, s.b, rings) {
		st := network.Stretch{Leg: s.leg, Length: long * q.Metre(p.To-p.From)}
		if p.Area >= 0 {
			a := areas[p.Area]
			dig, usual := DigDepth(a)
			st.Ground, st.Area, st.Dig, st.Usual = a.Kind, areaSubject(a), metres(dig), usual
			s.over = append(s.over, overArea{a, p.From, p.To})
		}
		s.out.Stretches = append(s.out.Stretches, st)
	}
}

// roots lists the trees near the leg.
func (s *surveyor) roots() {
	for _, m := range s.g.marks {
		if m.Kind != "tree" {
			continue
		}
		zone := rootReach(m, s.d.rules)
		if !s.box.Grow(zone + geom.Millimetre).Contains(m.Place.At) {
			continue
		}
		from, to, ok := geom.Within(s.a, s.b, m.Place.At, m.Place.At, zone)
		if !ok {
			continue
		}
		r := network.Roots{Leg: s.leg, Subject: markSubject(m), Girth: girthOf(m)}
		_, far := geom.Nearest(m.Place.At, s.a, s.b)
		r.Bark = metres(max(far-m.Radius, 0))
		r.Length = q.Metre(to-from) * metres(geom.Distance(s.a, s.b))
		s.out.Roots = append(s.out.Roots, r)
	}
}

// services lists the buried services that the leg crosses or passes closely.
func (s *surveyor) services() {
	clear := reach(s.d.rules.Site.ServiceClear.Value)
	for i, l := range s.g.lines {
		if l.Kind != "buried service" || !s.g.ways[i].Grow(clear).Overlaps(s.box) {
			continue
		}
		least := geom.Length(math.MaxInt64)
		geom.Edges(l.Path, false, func(c, e geom.Point) { least = min(least, geom.Apart(s.a, s.b, c, e)) })
		if least <= clear {
			s.out.Crossings = append(s.out.Crossings, network.Crossing{
				Kind: network.CrossService, Leg: s.leg, Subject: lineSubject(l), Distance: metres(least)})
		}
	}
}

// walls lists the walls that the leg passes: those of buildings, and walls
// drawn as lines unless the leg goes over them.
func (s *surveyor) walls() {
	add := func(c network.Crossing) {
		c.Kind, c.Leg = network.CrossWall, s.leg
		s.out.Crossings = append(s.out.Crossings, c)
	}
	for i, a := range s.g.areas {
		if a.Kind == "building" && s.g.bounds[i].Overlaps(s.box) && s.crosses(a.Ring, true) {
			add(network.Crossing{Subject: areaSubject(a), House: true})
		}
	}
	height := s.legs[s.leg].Height
	for i, l := range s.g.lines {
		over := l.Height > 0 && height >= l.Height
		if l.Kind == "wall" && !over && s.g.ways[i].Overlaps(s.box) && s.crosses(l.Path, false) {
			add(network.Crossing{Subject: lineSubject(l)})
		}
	}
}

func (s *surveyor) crosses(path []geom.Point, closed bool) bool {
	found := false
	geom.Edges(path, closed, func(c, e geom.Point) {
		_, ok := geom.Cross(s.a, s.b, c, e)
		found = found || ok
	})
	return found
}

// posts lists the fences whose post holes may reach a leg in the ground.
func (s *surveyor) posts() {
	for i, l := range s.g.lines {
		if l.Kind == "fence" {
			s.along(network.Beside{Kind: network.BesidePosts, Subject: lineSubject(l), Owner: l.Owner}, l.Path, nil,
				s.g.ways[i], reach(s.d.rules.Site.PostReach.Value))
		}
	}
}

// beside lists the fences and walls that the leg may be fixed to, and the
// lawns whose mower may reach it.
func (s *surveyor) beside() {
	leg := s.legs[s.leg]
	if leg.Support != network.Clipped && leg.Support != network.OnStructure {
		return
	}
	site := &s.d.rules.Site
	for i, l := range s.g.lines {
		kind := network.BesideFence
		if l.Kind == "wall" {
			kind = network.BesideWall
		} else if l.Kind != "fence" {
			continue
		}
		s.along(network.Beside{Kind: kind, Subject: lineSubject(l), Owner: l.Owner}, l.Path, nil, s.g.ways[i], reach(site.FenceReach.Value))
	}
	if leg.Support != network.Clipped {
		return
	}
	for i, a := range s.g.areas {
		if a.Kind == "lawn" {
			s.along(network.Beside{Kind: network.BesideMown, Subject: areaSubject(a)}, a.Ring, a, s.g.bounds[i], reach(site.MownReach.Value))
		}
	}
}

// along adds a path when the leg runs within reach of it; an area counts for
// what lies over it too, where nothing else is drawn on it.
func (s *surveyor) along(b network.Beside, path []geom.Point, inside *doc.Area, box geom.Rect, reach geom.Length) {
	if reach <= 0 || !box.Grow(reach).Overlaps(s.box) {
		return
	}
	least := geom.Length(math.MaxInt64)
	var parts [][2]float64
	geom.Edges(path, inside != nil, func(c, e geom.Point) {
		if from, to, ok := geom.Within(s.a, s.b, c, e, reach); ok {
			parts = append(parts, [2]float64{from, to})
			least = min(least, geom.Apart(s.a, s.b, c, e))
		}
	})
	for _, o := range s.over {
		if o.area == inside && o.to > o.from {
			parts, least = append(parts, [2]float64{o.from, o.to}), 0
		}
	}
	b.Length = q.Metre(geom.Covered(parts)) * metres(geom.Distance(s.a, s.b))
	if b.Length > 0 {
		b.Leg, b.Distance = s.leg, metres(least)
		s.out.Beside = append(s.out.Beside, b)
	}
}
