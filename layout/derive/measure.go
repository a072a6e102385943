package derive

import (
	"math"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// cutStep is the length that cut lengths are rounded up to
// (common practice, no source).
const cutStep q.Metre = 0.5

// Tail lengths left at an end when the run does not say (common practice, no
// source): half a metre where a hand has to work in a board or isolator, 0.3 m
// in a box, at a lamp or at a source.
const (
	boardTail q.Metre = 0.5
	boxTail   q.Metre = 0.3
)

// route is where one run goes. It is kept from scheme to scheme while the run
// and what stands at its ends are the same values.
type route struct {
	run      *doc.Run
	from, to doc.Entity // nil in the air
	path     []geom.Point
	dug      geom.Rect // around the legs in the ground; empty for none
	around   geom.Rect
}

// measured is one run as the tape would measure it.
type measured struct {
	Length Length
	Legs   []network.Leg // those of the run, then one for the rises if there are any
	route  *route
}

// current reports whether the measurement still holds for a route: nothing of
// it has changed, and as many runs lie beside it as before.
func (m *measured) current(r *route, shared *census) bool {
	if m.route != r {
		return false
	}
	for i, leg := range r.run.Legs {
		if m.Legs[i].Group != groupOf(leg, shared.at(segmentOf(r.path[i], r.path[i+1], leg.Support))) {
			return false
		}
	}
	return true
}

// groupOf is the number of circuits touching along a leg, itself included.
func groupOf(leg doc.Leg, shared int) int { return max(leg.Group, shared, 1) }

// segment is one stretch of route, the same in both directions, used to find
// runs that share a trench or a row of clips.
type segment struct {
	a, b    geom.Point
	support network.Support
}

func segmentOf(a, b geom.Point, s network.Support) segment {
	if b.X < a.X || (b.X == a.X && b.Y < a.Y) {
		a, b = b, a
	}
	return segment{a, b, s}
}

// elevation is the height of the cable along a leg: below ground when it is
// buried or in duct, at the leg's height otherwise.
func elevation(l doc.Leg) geom.Length {
	if l.Support == network.Buried || l.Support == network.InDuct {
		return -l.Depth
	}
	return l.Height
}

// measure takes the length of one run:
//
//	needed = (plan + rises + tails + slack) · (1 + waste)
//
// rises are all vertical steps: from the height of what stands at the start
// to the first leg, between legs of different height, and up to the end
// (trade practice; vertical cable is what the plan never shows). The drop to
// and from a loose end is not counted, for nothing stands there.
func (d *deriver) measure(way *route, shared *census) *measured {
	r, path := way.run, way.path
	m := &measured{route: way, Length: Length{Run: r.ID, Tag: r.Tag, Cable: r.Cable, Slack: r.Slack}}
	m.Legs = make([]network.Leg, 0, len(r.Legs)+1)
	l := &m.Length
	l.Plan = q.Metre(geom.PathLength(path).Metres())
	for i, leg := range r.Legs {
		m.Legs = append(m.Legs, network.Leg{
			Support: leg.Support, Method: leg.Method, Depth: q.Metre(leg.Depth.Metres()),
			Length: q.Metre(geom.Distance(path[i], path[i+1]).Metres()),
			Group:  groupOf(leg, shared.at(segmentOf(path[i], path[i+1], leg.Support))),
			Height: q.Metre(leg.Height.Metres()), NoTape: leg.NoTape, Sleeve: leg.Sleeve, Hole: leg.Hole,
		})
	}
	rise, loose := d.rises(way)
	l.Rises = q.Metre(rise.Metres())
	if rise > 0 {
		m.Legs = append(m.Legs, network.Leg{Support: network.Clipped, Method: "C", Length: l.Rises, Group: 1, Rise: true, Loose: q.Metre(loose.Metres())})
	}
	l.From, l.To = endName(way.from), endName(way.to)
	l.Tails = tail(r.From, way.from) + tail(r.To, way.to)
	l.Slack += d.coil(way)
	cable, known := d.cable(r.Cable)
	if known {
		l.Name, l.Waste = cable.Name, cable.Waste
	}
	if d.scheme.Survey.Waste.Known {
		l.Waste = float64(d.scheme.Survey.Waste.Value)
	}
	if r.Waste.Known {
		l.Waste = float64(r.Waste.Value)
	}
	l.Needed = (l.Plan + l.Rises + l.Tails + l.Slack) * q.Metre(1+l.Waste)
	l.Cut = roundUp(l.Needed)
	if r.With != "" {
		l.Cut = 0 // its cores are in the cable of the other run
	}
	if r.Cut.Known {
		l.Cut = r.Cut.Value
	}
	return m
}

// rises returns the vertical steps of a way, and how much of them nobody clips: what
// is below ground, and what goes up inside or beside a lamp that stands in the
// ground or in water (common practice, no source).
func (d *deriver) rises(way *route) (all, loose geom.Length) {
	step := func(a, b geom.Length, on doc.Entity) {
		all += abs(b - a)
		if d.inGround(on) {
			loose += abs(b - a)
		} else {
			loose += abs(min(b, 0) - min(a, 0))
		}
	}
	at, fixed := heightOf(way.from)
	on := way.from
	for _, leg := range way.run.Legs {
		e := elevation(leg)
		if fixed {
			step(at, e, on)
		}
		at, fixed, on = e, true, nil
	}
	if end, ok := heightOf(way.to); ok {
		step(at, end, way.to)
	}
	return all, loose
}

// inGround reports whether something is a lamp that stands in the ground or in
// water and not against what a cable is clipped to.
func (d *deriver) inGround(on doc.Entity) bool {
	lamp, ok := on.(*doc.Lamp)
	if !ok {
		return false
	}
	item, _ := d.lampItem(lamp.Stock)
	switch item.Kind {
	case "spike", "bollard", "recessed", "pond":
		return true
	}
	return false
}

// roundUp rounds up to the cut step; a micrometre of float error above a step
// does not buy half a metre of cable.
func roundUp(m q.Metre) q.Metre {
	return max(q.Metre(math.Ceil(float64(m/cutStep)-1e-6))*cutStep, 0)
}

func abs(l geom.Length) geom.Length {
	if l < 0 {
		return -l
	}
	return l
}

// tail returns the length left for terminating at an end, on is what stands
// there.
func tail(e doc.End, on doc.Entity) q.Metre {
	if e.Tail.Known {
		return e.Tail.Value
	}
	switch on.(type) {
	case *doc.Supply, *doc.Gear:
		return boardTail
	case *doc.Box, *doc.Lamp, *doc.Source:
		return boxTail
	}
	return 0
}

// coil returns the slack that a fitting at an end asks for, so that a movable
// lamp can follow the planting: that of the lamp the run ends at, or of the
// one it starts from when it does not end at a lamp. A run between two lamps
// gives its coil to the second, so that a chain leaves one coil a lamp.
func (d *deriver) coil(way *route) q.Metre {
	for _, on := range [...]doc.Entity{way.to, way.from} {
		if lamp, ok := on.(*doc.Lamp); ok {
			item, _ := d.lampItem(lamp.Stock)
			return item.Slack
		}
	}
	return 0
}

// routeOf returns the way of run i, the old one if it still holds.
func (d *deriver) routeOf(i int, r *doc.Run, old *measured) *route {
	from, to := d.point(d.ends[i][0]), d.point(d.ends[i][1])
	if old != nil && old.route.run == r && old.route.from == from && old.route.to == to {
		return old.route
	}
	p := make([]geom.Point, 0, len(r.Legs)+1)
	p = append(p, spot(r.From, from))
	for _, l := range r.Legs[:len(r.Legs)-1] {
		p = append(p, l.To)
	}
	p = append(p, spot(r.To, to))
	out := &route{run: r, from: from, to: to, path: p, around: geom.Around(p...)}
	for i, l := range r.Legs {
		if dug(l) {
			out.dug = out.dug.With(p[i]).With(p[i+1])
		}
	}
	return out
}

// spot returns the plan point of an end, on is what stands there.
func spot(e doc.End, on doc.Entity) geom.Point {
	if p, ok := doc.PlaceOf(on); ok {
		return p.At
	}
	return e.At
}

// heightOf returns the height of what stands at an end; ok is false in the air.
func heightOf(on doc.Entity) (geom.Length, bool) {
	p, ok := doc.PlaceOf(on)
	return p.Height, ok
}

func endName(on doc.Entity) string {
	if on != nil {
		return on.Label()
	}
	return "in the air"
}
