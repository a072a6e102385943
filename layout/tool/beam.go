package tool

import (
	"math"

	"duskwire/calc/light"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// AimMark is what shows where a selected lamp points.
type AimMark struct {
	Lamp   geom.Point
	Handle geom.Point // drag it to aim the lamp
	// Landing says that the beam meets the ground at the handle; otherwise the
	// handle stands the further out the further the beam leans.
	Landing bool
	// Assumed says that nobody has aimed the lamp yet.
	Assumed bool
	// Outline is where intensity falls to half of the peak, by the photometric file of
	// the fitting or the beam of the stock book: on the ground, or of a beam that goes
	// up the rim of its cone seen from above.
	Outline [][]geom.Point
}

// AimMarkOf returns the mark of a lamp; ok is false for what is no lamp, has no
// beam or is locked. Reach is the pick radius on the plan.
func AimMarkOf(s *doc.Scheme, stock *doc.Stock, id doc.ID, reach geom.Length) (AimMark, bool) {
	l, item, ok := beamOf(s, stock, id)
	if !ok || l.Lock {
		return AimMark{}, false
	}
	m := newAimMap(l, item, reach)
	aim, tilt := l.Points(item)
	return AimMark{Lamp: l.Place.At, Handle: m.place(aim, tilt), Landing: m.ground, Assumed: !l.Aimed(),
		Outline: beamOutline(l, item, tilt)}, true
}

// Aimable reports whether the id is a lamp that has a beam, which the keys aim.
func Aimable(s *doc.Scheme, stock *doc.Stock, id doc.ID) bool {
	_, _, ok := beamOf(s, stock, id)
	return ok
}

// beamOf returns a lamp that has a beam.
func beamOf(s *doc.Scheme, stock *doc.Stock, id doc.ID) (*doc.Lamp, *doc.LampStock, bool) {
	l, ok := s.Lamps.Get(id)
	if !ok || stock == nil {
		return nil, nil, false
	}
	item, ok := stock.Lamp(l.Stock)
	return l, &item, ok && item.HasBeam()
}

// Angles and places of the handle.
const (
	// nearReaches is how far from the lamp the handle stands at least, and
	// dialReaches how much further where the beam lies level, in pick radii.
	nearReaches, dialReaches = 3, 9
	// farReaches is the distance beyond which the place where a beam lands is of
	// no use as a handle.
	farReaches = 45
	// flattest is the tilt above which a beam is not aimed by where it lands.
	flattest = -5.0
)

// aimMap maps aim and tilt to a place on the plan and back. On the ground the
// place is where the middle of the beam lands, drawn out near the lamp so that
// the handle clears its symbol. Otherwise it is a dial: the distance goes with
// the angle from straight up, or down for a lamp that pointed down.
type aimMap struct {
	lamp   geom.Point
	height float64 // metres
	ground bool
	up     bool // the dial counts from straight up
	near   float64
	reach  float64
}

func newAimMap(l *doc.Lamp, item *doc.LampStock, reach geom.Length) aimMap {
	m := aimMap{lamp: l.Place.At, height: l.Place.Height.Metres(), reach: reach.Metres(), near: nearReaches * reach.Metres()}
	_, tilt := l.Points(item)
	m.up = tilt >= 0
	m.ground = tilt <= flattest && m.height > 0 && m.lands(tilt) <= farReaches*m.reach
	return m
}

// lands returns how far away a beam of a tilt below the horizon meets the ground.
func (m aimMap) lands(tilt float64) float64 { return m.height * math.Tan((90+tilt)*math.Pi/180) }

// perDegree is the length of a degree on the dial.
func (m aimMap) perDegree() float64 { return dialReaches * m.reach / 90 }

// place returns where the handle stands.
func (m aimMap) place(aim, tilt float64) geom.Point {
	r := 0.0
	switch {
	case m.ground:
		if r = m.lands(tilt); r < 2*m.near {
			r = m.near + r/2
		}
	case m.up:
		r = m.near + (90-tilt)*m.perDegree()
	default:
		r = m.near + (90+tilt)*m.perDegree()
	}
	s, c := math.Sincos(aim * math.Pi / 180)
	return m.lamp.Add(geom.Pt(r*s, r*c))
}

// read returns aim and tilt of a place, turned is false at the pole, where every
// aim is the same.
func (m aimMap) read(at geom.Point) (aim, tilt float64, turned bool) {
	d := at.Sub(m.lamp)
	x, y := d.X.Metres(), d.Y.Metres()
	r := math.Hypot(x, y)
	aim = math.Mod(math.Atan2(x, y)*180/math.Pi+360, 360)
	if m.ground {
		if r < 2*m.near {
			r = math.Max(2*(r-m.near), 0)
		}
		tilt = math.Min(math.Atan2(r, m.height)*180/math.Pi-90, flattest)
		return aim, tilt, r > 0
	}
	lean := math.Min(math.Max((r-m.near)/m.perDegree(), 0), 180)
	if m.up {
		return aim, 90 - lean, lean > 0 && lean < 180
	}
	return aim, lean - 90, lean > 0 && lean < 180
}

const (
	outlineCorners = 48
	// mostThrow bounds the outline of a beam that nearly misses the ground, and
	// rim is how long the cone of one that goes up is drawn, metres.
	mostThrow, rim = 25.0, 2.0
)

// beamOutline returns where a beam ends: the section with level ground of the cone
// round its axis, as far out as the beam reaches on every side, its far end cut off;
// or, for a beam that goes up or starts at the ground, the cone's rim with its two
// sides.
func beamOutline(l *doc.Lamp, item *doc.LampStock, tilt float64) [][]geom.Point {
	lies, edge := l.Lies(item), item.Edge()
	h := lies.At.Z
	down := tilt < 0 && h > 0
	ring := make([]geom.Point, 0, outlineCorners+1)
	for i := range outlineCorners {
		// From a side of the beam, so that the two sides of a rim are level ones.
		c := 90 + 360*float64(i)/outlineCorners
		sc, cc := math.Sincos(c * math.Pi / 180)
		sg, cg := math.Sincos(edge.At(c) * math.Pi / 180)
		v := lies.Out(light.Vec{X: sg * cc, Y: sg * sc, Z: -cg})
		k := rim
		if level := math.Hypot(v.X, v.Y); down {
			k = mostThrow / math.Max(level, 1e-9)
			if v.Z < 0 {
				k = math.Min(k, h/-v.Z)
			}
		}
		ring = append(ring, l.Place.At.Add(geom.Pt(k*v.X, k*v.Y)))
	}
	ring = append(ring, ring[0])
	out := [][]geom.Point{ring}
	if !down {
		out = append(out, []geom.Point{ring[0], l.Place.At, ring[outlineCorners/2]})
	}
	return out
}
