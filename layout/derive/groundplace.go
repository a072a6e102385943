package derive

import (
	"cmp"
	"math"
	"reflect"
	"slices"

	"duskwire/calc/light"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// stood is what is known about the place of one entity, kept while the entity
// is the same value and the ground around it has not changed.
type stood struct {
	entity doc.Entity
	facts  *network.Place
}

// standAll collects the facts about where everything stands.
func (d *deriver) standAll() {
	for number := range d.all {
		d.stood[number] = d.stands(number)
	}
}

// stands returns the facts about where an entity stands. Facts that come out
// as before are the same pointer, so that the circuit can be taken over.
func (d *deriver) stands(number int) stood {
	e := d.all[number]
	old := d.stoodBefore(number)
	had := old.facts != nil
	at, _ := doc.PlaceOf(e)
	if had && old.entity == e && !d.changed.place(at.At) {
		return old
	}
	p := d.ground.place(at)
	switch e := e.(type) {
	case *doc.Lamp:
		item, _ := d.lampItem(e.Stock)
		p.Eyes = d.ground.eyes(e, item.LampStock)
	case *doc.Gear:
		if item, ok := d.stock.GearItem(e.Stock); ok && item.Kind == network.Sensor {
			p.Seen = d.ground.seen(e, item.Control.Sector)
		}
	}
	if had && reflect.DeepEqual(old.facts, p) {
		p = old.facts
	}
	return stood{e, p}
}

// stoodBefore is what was known about a point of the scheme before.
func (d *deriver) stoodBefore(number int) stood {
	if d.before == nil {
		return stood{}
	}
	if !d.kept {
		if number = d.before.points.number(d.all[number].Key()); number < 0 {
			return stood{}
		}
	}
	return d.before.stood[number]
}

// place returns the facts about a place.
func (g *ground) place(at doc.Place) *network.Place {
	p := &network.Place{}
	if a := g.at(at.At); a != nil {
		p.Ground, p.Area, p.Low = a.Kind, areaSubject(a), a.Low
		p.InWater = a.Kind == "water" && at.Height <= 0
	}
	for i, a := range g.areas {
		if a.Low && !p.Low && g.bounds[i].Contains(at.At) {
			p.Low = geom.Inside(at.At, a.Ring)
		}
		if a.Kind == "lawn" && g.bounds[i].Grow(mownReach).Contains(at.At) {
			nearer(&p.Mown, network.Near{Subject: areaSubject(a), Distance: shore(at.At, a)}, mownReach)
		}
		if a.Kind == "water" && g.bounds[i].Grow(farReach).Contains(at.At) {
			nearer(&p.Water, network.Near{Subject: areaSubject(a), Distance: shore(at.At, a)}, farReach)
		}
	}
	for i, l := range g.lines {
		if l.Kind == "boundary" && g.ways[i].Grow(farReach).Contains(at.At) {
			nearer(&p.Boundary, network.Near{Subject: lineSubject(l), Distance: metres(geom.ToPath(at.At, l.Path, false)), Owner: l.Owner}, farReach)
		}
	}
	for _, m := range g.marks {
		n := network.Near{Subject: markSubject(m), Distance: metres(max(geom.Distance(at.At, m.Place.At)-m.Radius, 0))}
		switch {
		case m.Kind == "window":
			nearer(&p.Window, n, farReach)
		case m.Kind == "metalwork":
			if n.Distance <= metres(metalReach) {
				p.Metals = append(p.Metals, n)
			}
		}
	}
	slices.SortStableFunc(p.Metals, func(a, b network.Near) int { return cmp.Compare(a.Distance, b.Distance) })
	return p
}

// shore is the distance to the edge of an area, 0 over it.
func shore(p geom.Point, a *doc.Area) q.Metre {
	if geom.Inside(p, a.Ring) {
		return 0
	}
	return metres(geom.ToPath(p, a.Ring, true))
}

// nearer keeps the nearer of two; of equal ones the first.
func nearer(kept **network.Near, n network.Near, within geom.Length) {
	if n.Distance <= metres(within) && (*kept == nil || n.Distance < (*kept).Distance) {
		*kept = &n
	}
}

// Heights of eyes above ground (common practice, no source): of a person who
// sits, and of a window whose height was not drawn.
const (
	seatEye   = 1.2
	windowEye = 1.5
)

// eyes returns the seats and windows near a lamp with the angle between the
// axis of its beam and the line to them, and that at which the beam ends on that
// side. A lamp that is not aimed, or whose
// beam is not known, has none.
//
//	axis = (cos t · sin a, cos t · cos a, sin t), a clockwise from up the sheet
//	cos off = axis · line
//
// Walls and leaves in between are not looked at.
func (g *ground) eyes(l *doc.Lamp, item *doc.LampStock) []network.Eye {
	if !l.Aimed() {
		return nil
	}
	edge := item.Edge()
	if !edge.Known() {
		return nil
	}
	lies := l.Lies(item)
	sa, ca := math.Sincos(l.Aim * math.Pi / 180)
	st, ct := math.Sincos(l.Tilt * math.Pi / 180)
	var out []network.Eye
	for _, m := range g.marks {
		if m.Kind != "seat" && m.Kind != "window" {
			continue
		}
		e := network.Eye{Window: m.Kind == "window", Height: metres(m.Place.Height) + seatEye}
		if e.Window {
			if e.Height = metres(m.Place.Height); e.Height == 0 {
				e.Height, e.Assumed = windowEye, true
			}
		}
		v := m.Place.At.Sub(l.Place.At)
		x, y, z := v.X.Metres(), v.Y.Metres(), float64(e.Height)-l.Place.Height.Metres()
		e.Near = network.Near{Subject: markSubject(m), Distance: q.Metre(math.Hypot(x, y))}
		far := math.Sqrt(x*x + y*y + z*z)
		if e.Distance > metres(farReach) || far == 0 {
			continue
		}
		cos := (ct*sa*x + ct*ca*y + st*z) / far
		e.Off = math.Acos(min(max(cos, -1), 1)) * 180 / math.Pi
		e.Half = edge.At(0)
		if !edge.Round() {
			in := lies.Into(light.Vec{X: x, Y: y, Z: z})
			e.Half = edge.At(math.Atan2(in.Y, in.X) * 180 / math.Pi)
		}
		out = append(out, e)
	}
	return out
}
