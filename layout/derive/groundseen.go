package derive

import (
	"math"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// seen returns the nearest place of a boundary in the field of a movement
// sensor: a sector of the plan about its aim. One that is not aimed, or whose
// sector is not known, is taken to look all round. Walls and fences in between
// are not looked at, nor how far it sees.
func (g *ground) seen(e *doc.Gear, sector float64) *network.Near {
	half := 180.0
	if e.Aim != 0 && sector > 0 {
		half = sector / 2
	}
	var out *network.Near
	for _, l := range g.lines {
		if l.Kind != "boundary" {
			continue
		}
		for k := 0; k+1 < len(l.Path); k++ {
			a, b := l.Path[k].Sub(e.Place.At), l.Path[k+1].Sub(e.Place.At)
			d, ok := inSector(a.X.Metres(), a.Y.Metres(), b.X.Metres(), b.Y.Metres(), e.Aim, half)
			if ok {
				nearer(&out, network.Near{Subject: lineSubject(l), Distance: q.Metre(d), Owner: l.Owner}, farReach)
			}
		}
	}
	return out
}

// inSector returns the least distance from the origin to the part of the
// segment a to b that lies within half degrees of a direction (clockwise from
// up). What of the segment is in the sector ends at its own ends or at the two
// rays; the least distance is there or at the foot of the perpendicular.
func inSector(ax, ay, bx, by, aim, half float64) (least float64, ok bool) {
	least = math.Inf(1)
	take := func(t float64) {
		x, y := ax+t*(bx-ax), ay+t*(by-ay)
		d := math.Hypot(x, y)
		if off := turned(math.Atan2(x, y)*180/math.Pi - aim); d == 0 || math.Abs(off) <= half+1e-9 {
			least, ok = math.Min(least, d), true
		}
	}
	take(0)
	take(1)
	dx, dy := bx-ax, by-ay
	if long := dx*dx + dy*dy; long > 0 {
		take(math.Min(math.Max(-(ax*dx+ay*dy)/long, 0), 1))
	}
	for _, side := range [2]float64{-half, half} {
		s, c := math.Sincos((aim + side) * math.Pi / 180) // the ray runs along (s, c)
		if across := dx*c - dy*s; across != 0 {
			if t := (ay*s - ax*c) / across; t > 0 && t < 1 {
				take(t)
			}
		}
	}
	return least, ok
}

// turned brings an angle into -180 to 180 degrees.
func turned(a float64) float64 { return a - 360*math.Round(a/360) }
