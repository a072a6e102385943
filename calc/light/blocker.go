package light

import (
	"fmt"
	"math"
)

// Spot is a point on the plan, metres.
type Spot struct{ X, Y float64 }

// Blocker stands in the way of light from Base to Top: a prism over a closed
// outline (building, hedge, crown of a tree) or an upright screen along an open
// one (wall, fence). Pass is the part of light that comes through, 0 for what is
// solid. A crown takes its part once, however long the way through it. Slim is for
// trunks and posts: a lamp that is drawn within one is fixed to it, and what begins
// or ends within it is not held up by it.
type Blocker struct {
	Outline   []Spot
	Closed    bool
	Slim      bool
	Base, Top float64 // z, metres
	Pass      float64
}

// margin is how much of a ray at either end meets nothing, metres: lamps and
// points on a wall are not inside it.
const margin = 0.005

// blocker is a Blocker with its bounds on the plan.
type blocker struct {
	Blocker
	low, high Spot
	mid       Spot    // of the bounds
	wide      float64 // from there to the farthest corner, squared
}

func (b *Blocker) ready() (blocker, error) {
	least := 2
	if b.Closed {
		least = 3
	}
	if len(b.Outline) < least {
		return blocker{}, fmt.Errorf("outline: found %d corners, expected %d or more", len(b.Outline), least)
	}
	if !(b.Pass >= 0 && b.Pass <= 1) {
		return blocker{}, fmt.Errorf("part of light that passes: found %g, expected 0 to 1", b.Pass)
	}
	if !(b.Top >= b.Base) || math.IsInf(b.Top-b.Base, 0) {
		return blocker{}, fmt.Errorf("height: found %g to %g m, expected the top above the base", b.Base, b.Top)
	}
	out := blocker{Blocker: *b, low: b.Outline[0], high: b.Outline[0]}
	for _, c := range b.Outline {
		if math.IsNaN(c.X+c.Y) || math.IsInf(c.X, 0) || math.IsInf(c.Y, 0) {
			return blocker{}, fmt.Errorf("outline: found no number, expected one")
		}
		out.low = Spot{math.Min(out.low.X, c.X), math.Min(out.low.Y, c.Y)}
		out.high = Spot{math.Max(out.high.X, c.X), math.Max(out.high.Y, c.Y)}
	}
	out.mid = Spot{(out.low.X + out.high.X) / 2, (out.low.Y + out.high.Y) / 2}
	for _, c := range b.Outline {
		out.wide = math.Max(out.wide, sq(c.X-out.mid.X)+sq(c.Y-out.mid.Y))
	}
	out.wide *= 1 + 1e-9
	return out, nil
}

// misses reports whether nothing between two spots of the plan can meet b.
func (b *blocker) misses(low, high Spot) bool {
	return b.high.X < low.X || b.low.X > high.X || b.high.Y < low.Y || b.low.Y > high.Y
}

// passing returns the part of light that comes through between two points.
func (b *blocker) passing(from, to Vec) float64 {
	low := Spot{math.Min(from.X, to.X), math.Min(from.Y, to.Y)}
	high := Spot{math.Max(from.X, to.X), math.Max(from.Y, to.Y)}
	if b.misses(low, high) {
		return 1
	}
	v := to.Sub(from)
	if across := (b.mid.X-from.X)*v.Y - (b.mid.Y-from.Y)*v.X; sq(across) > b.wide*(sq(v.X)+sq(v.Y)) {
		return 1 // passes it by
	}
	d := v.Len()
	if d <= 2*margin {
		return 1
	}
	t0, t1 := margin/d, 1-margin/d
	if v.Z == 0 {
		if from.Z < b.Base || from.Z > b.Top {
			return 1
		}
	} else {
		a, c := (b.Base-from.Z)/v.Z, (b.Top-from.Z)/v.Z
		t0, t1 = math.Max(t0, math.Min(a, c)), math.Min(t1, math.Max(a, c))
	}
	if t0 >= t1 {
		return 1
	}
	if b.Slim && (b.inside(Spot{from.X, from.Y}) || b.inside(Spot{to.X, to.Y})) {
		return 1
	}
	if b.crossed(from, v, t0, t1) || b.Closed && b.inside(Spot{from.X + t0*v.X, from.Y + t0*v.Y}) {
		return b.Pass
	}
	return 1
}

// crossed reports whether the part t0 to t1 of a ray crosses the outline.
func (b *blocker) crossed(from, v Vec, t0, t1 float64) bool {
	n := len(b.Outline)
	for i := range b.Outline {
		if i == n-1 && !b.Closed {
			break
		}
		p, r := b.Outline[i], b.Outline[(i+1)%n]
		ex, ey := r.X-p.X, r.Y-p.Y
		det := v.X*ey - v.Y*ex
		if det == 0 {
			continue
		}
		px, py := p.X-from.X, p.Y-from.Y
		t, s := (px*ey-py*ex)/det, (px*v.Y-py*v.X)/det
		if s >= 0 && s <= 1 && t > t0 && t < t1 {
			return true
		}
	}
	return false
}

// inside reports whether a spot lies in the outline (even-odd rule).
func (b *blocker) inside(s Spot) bool {
	in := false
	n := len(b.Outline)
	for i, p := range b.Outline {
		r := b.Outline[(i+1)%n]
		if (p.Y > s.Y) != (r.Y > s.Y) && s.X < p.X+(s.Y-p.Y)/(r.Y-p.Y)*(r.X-p.X) {
			in = !in
		}
	}
	return in
}
