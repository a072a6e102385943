package scene

import (
	"math"
	"slices"
)

// capsule is all that lies within r of the segment from a to c: a disc when the
// two are one. It is convex, so that a line cuts it once.
type capsule struct {
	a, c XY
	r    float64
}

// span returns where the level line y cuts the capsule.
func (p *capsule) span(y float64) (lo, hi float64, cuts bool) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, m := range [2]XY{p.a, p.c} {
		if d := p.r*p.r - (y-m.Y)*(y-m.Y); d >= 0 {
			d = math.Sqrt(d)
			lo, hi = min(lo, m.X-d), max(hi, m.X+d)
		}
	}
	if dx, dy := p.c.X-p.a.X, p.c.Y-p.a.Y; dy != 0 {
		n := p.r / math.Hypot(dx, dy)
		for _, s := range [2]float64{n, -n} { // the two straight sides
			if t := (y - p.a.Y - s*dx) / dy; t >= 0 && t <= 1 {
				x := p.a.X + t*dx - s*dy
				lo, hi = min(lo, x), max(hi, x)
			}
		}
	}
	return lo, hi, lo <= hi
}

// box is the rectangle about the capsule.
func (p *capsule) box() (lo, hi XY) {
	return XY{min(p.a.X, p.c.X) - p.r, min(p.a.Y, p.c.Y) - p.r}, XY{max(p.a.X, p.c.X) + p.r, max(p.a.Y, p.c.Y) + p.r}
}

// away returns the square of the distance of a point from the middle line.
func (p *capsule) away(q XY) float64 {
	x, y := q.X-p.a.X, q.Y-p.a.Y
	if dx, dy := p.c.X-p.a.X, p.c.Y-p.a.Y; dx != 0 || dy != 0 {
		t := min(1, max(0, (x*dx+y*dy)/(dx*dx+dy*dy)))
		x, y = x-t*dx, y-t*dy
	}
	return x*x + y*y
}

// turned returns the capsule on paper turned about org so that lines with the
// sine and cosine of their direction lie level.
func (p *capsule) turned(org XY, sin, cos float64) capsule {
	turn := func(q XY) XY {
		x, y := q.X-org.X, q.Y-org.Y
		return XY{x*cos + y*sin, y*cos - x*sin}
	}
	return capsule{turn(p.a), turn(p.c), p.r}
}

// chords is how many strokes draw a circle.
const chords = 28

// sagitta is how far a chord dips into its circle. Where two circles run close
// together, the chords of each lie within the other by as much: what is no
// deeper than this counts as on the edge.
func sagitta(r float64) float64 { return r * (1 - math.Cos(math.Pi/chords)) }

// rim returns the outline of the capsule alone as strokes: a circle in chords, or
// the two straight sides; the ends of those lie in the discs about the lamps.
func (p *capsule) rim() (out []XY) {
	if p.a == p.c {
		at := func(i int) XY {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / chords)
			return XY{p.a.X + p.r*cos, p.a.Y + p.r*sin}
		}
		for i := range chords {
			out = append(out, at(i), at(i+1))
		}
		return out
	}
	dx, dy := p.c.X-p.a.X, p.c.Y-p.a.Y
	n := p.r / math.Hypot(dx, dy)
	for _, s := range [2]float64{n, -n} {
		v := XY{-s * dy, s * dx}
		out = append(out, XY{p.a.X + v.X, p.a.Y + v.Y}, XY{p.c.X + v.X, p.c.Y + v.Y})
	}
	return out
}

// interval is a piece of a line.
type interval struct{ lo, hi float64 }

// merged returns the intervals sorted, those that meet as one. It changes the
// slice.
func merged(in []interval) []interval {
	slices.SortFunc(in, func(a, b interval) int {
		switch {
		case a.lo < b.lo:
			return -1
		case a.lo > b.lo:
			return 1
		}
		return 0
	})
	out := in[:0]
	for _, v := range in {
		if n := len(out); n > 0 && v.lo <= out[n-1].hi {
			out[n-1].hi = max(out[n-1].hi, v.hi)
			continue
		}
		out = append(out, v)
	}
	return out
}

// hatched returns strokes of parallel lines over the union of the capsules, cut at
// the sheet. Overlapping capsules are hatched once.
func (b *builder) hatched(all []capsule, r rule) (out []XY) {
	sin, cos := math.Sincos(-r.angle * math.Pi / 180) // y is down on paper
	org := b.anchor()
	first, last := b.levelsSeen(org, sin, cos, r.step)
	rows := make([][]interval, max(0, last-first+1))
	for i := range all {
		p := all[i].turned(org, sin, cos)
		lo, hi := p.box()
		from, to := max(first, int(math.Ceil(lo.Y/r.step))), min(last, int(math.Floor(hi.Y/r.step)))
		for n := from; n <= to; n++ {
			if x0, x1, cuts := p.span(float64(n) * r.step); cuts {
				rows[n-first] = append(rows[n-first], interval{x0, x1})
			}
		}
	}
	for n, row := range rows {
		y := float64(n+first) * r.step
		back := func(x float64) XY { return XY{org.X + x*cos - y*sin, org.Y + x*sin + y*cos} }
		for _, v := range merged(row) {
			if p, q, shows := clip(back(v.lo), back(v.hi), -1, -1, b.w+1, b.h+1); shows {
				out = append(out, p, q)
			}
		}
	}
	return out
}

// levelsSeen returns the numbers of the first and the last line that meet the
// sheet.
func (b *builder) levelsSeen(org XY, sin, cos, step float64) (first, last int) {
	sheet := capsule{XY{-1, -1}, XY{b.w + 1, b.h + 1}, 0}
	other := capsule{XY{-1, b.h + 1}, XY{b.w + 1, -1}, 0}
	p, q := sheet.turned(org, sin, cos), other.turned(org, sin, cos)
	lo, hi := bounds([]XY{p.a, p.c, q.a, q.c})
	return int(math.Ceil(lo.Y / step)), int(math.Floor(hi.Y / step))
}

// outlined returns the outline of the union of the capsules as strokes: of every
// rim what lies in no other one. Of two lamps at one place the first has the rim.
func (b *builder) outlined(all []capsule) (out []XY) {
	var near []capsule
	var inside []interval
	boxes := make([][2]XY, len(all))
	for i := range all {
		boxes[i][0], boxes[i][1] = all[i].box()
	}
	for i := range all {
		if slices.Contains(all[:i], all[i]) {
			continue
		}
		lo, hi := boxes[i][0], boxes[i][1]
		if hi.X < -1 || hi.Y < -1 || lo.X > b.w+1 || lo.Y > b.h+1 {
			continue
		}
		near = near[:0]
		for j := range all {
			l, h := &boxes[j][0], &boxes[j][1]
			if all[i] != all[j] && l.X <= hi.X && h.X >= lo.X && l.Y <= hi.Y && h.Y >= lo.Y {
				near = append(near, capsule{all[j].a, all[j].c, all[j].r - sagitta(all[i].r)})
			}
		}
		rim := all[i].rim()
		for k := 0; k < len(rim); k += 2 {
			if covered(rim[k], rim[k+1], near) {
				continue
			}
			if p, q, shows := clip(rim[k], rim[k+1], -1, -1, b.w+1, b.h+1); shows {
				out, inside = outside(out, p, q, near, inside[:0])
			}
		}
	}
	return out
}

// covered reports whether one of the capsules holds a stroke whole. That one is
// moved to the front: it is likely to hold the next one too.
func covered(p, q XY, near []capsule) bool {
	for n := range near {
		c := &near[n]
		if r := c.r * c.r; c.away(p) <= r && c.away(q) <= r {
			near[0], near[n] = near[n], near[0]
			return true
		}
	}
	return false
}

// outside appends what of the stroke from p to q lies in none of the capsules.
func outside(out []XY, p, q XY, near []capsule, room []interval) ([]XY, []interval) {
	length := math.Hypot(q.X-p.X, q.Y-p.Y)
	if length == 0 {
		return out, room
	}
	sin, cos := (q.Y-p.Y)/length, (q.X-p.X)/length
	for i := range near {
		c := &near[i]
		if r := c.r + length; c.away(p) > r*r {
			continue
		}
		t := c.turned(p, sin, cos)
		if lo, hi, cuts := t.span(0); cuts && hi > 0 && lo < length {
			room = append(room, interval{lo, hi})
		}
	}
	const least = 0.02 // mm; a rest as short as this comes from rounding
	done := 0.0
	keep := func(to float64) {
		if to-done > least {
			out = append(out, XY{p.X + done*cos, p.Y + done*sin}, XY{p.X + to*cos, p.Y + to*sin})
		}
	}
	for _, v := range merged(room) {
		keep(min(v.lo, length))
		done = max(done, v.hi)
	}
	keep(length)
	return out, room
}
