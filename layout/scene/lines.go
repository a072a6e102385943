package scene

import (
	"math"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// drawLine draws a wall, fence, boundary, buried service, step or pergola.
func (b *builder) drawLine(l *doc.Line) {
	if len(l.Path) < 2 || b.in.skips(l.ID) {
		return
	}
	path := b.pts(len(l.Path))
	for i, p := range l.Path {
		path[i] = b.at(p)
	}
	if !b.seesBox(path, 2) {
		return
	}
	id := string(l.ID)
	stroke := func(st Style) { b.add(Item{Kind: Polyline, Layer: LayerLines, Entity: id, Points: path, Style: st}) }
	ticks := func(ps []XY, st Style) {
		if len(ps) > 0 {
			b.add(Item{Kind: Segments, Layer: LayerLines, Entity: id, Points: ps, Style: st})
		}
	}
	p := b.pal
	switch l.Kind {
	case "wall":
		stroke(Style{Stroke: p.Wall, Width: 1.0})
	case "fence":
		st := Style{Stroke: p.Wall, Width: medium}
		stroke(st)
		ticks(b.across(path, 3, 6, -0.9, 0.9), st)
	case "boundary":
		stroke(Style{Stroke: p.Wall, Width: 0.6, Dash: []float64{5, 1.5, 0.3, 1.4, 0.3, 1.5}})
	case "buried service":
		st := Style{Stroke: p.Service, Width: medium, Dash: []float64{3.2, 1.4}}
		stroke(st)
		ticks(b.crosses(path, 5.35, 13.8, 0.8), Style{Stroke: p.Service, Width: thin})
	case "step":
		stroke(Style{Stroke: p.Soft, Width: medium})
		ticks(b.across(path, 0.75, 1.5, 0, 1.1), Style{Stroke: p.Soft, Width: fine})
	case "pergola":
		stroke(Style{Stroke: p.Wall, Width: medium, Dash: []float64{2.4, 1.2}})
		for _, q := range path {
			b.add(Item{Kind: Polygon, Layer: LayerLines, Entity: id, Points: b.square(q, 0.7),
				Style: Style{Stroke: p.Wall, Width: thin, Fill: p.Wall}})
		}
	default:
		stroke(Style{Stroke: p.Soft, Width: thin})
	}
	hurt := uint8(hurtLine)
	if l.Kind == "wall" {
		hurt = hurtWall
	}
	for i := 1; i < len(path); i++ {
		b.free.stroke(path[i-1], path[i], hurt)
	}
	if l.Name != "" {
		b.names = append(b.names, nameLabel{entity: id, text: l.Name, path: path})
	}
	b.standAt(id, halfway(path), 1)
}

// along calls f at places first, first+step ... along the path with the unit
// direction there, only where it shows.
func (b *builder) along(path []XY, first, step float64, f func(p, u XY)) {
	next := first
	done := 0.0
	for i := 1; i < len(path); i++ {
		a, c := path[i-1], path[i]
		d := math.Hypot(c.X-a.X, c.Y-a.Y)
		if d == 0 {
			continue
		}
		if next > done+d || !b.seesBox(path[i-1:i+1], 1) {
			done += d
			for next < done {
				next += step * max(1, math.Floor((done-next)/step))
			}
			continue
		}
		u := XY{(c.X - a.X) / d, (c.Y - a.Y) / d}
		for ; next <= done+d; next += step {
			p := XY{a.X + u.X*(next-done), a.Y + u.Y*(next-done)}
			if p.X > -2 && p.Y > -2 && p.X < b.w+2 && p.Y < b.h+2 {
				f(p, u)
			}
		}
		done += d
	}
}

// across returns strokes square to the path from offset v0 to v1, positive to
// the left of the way it was drawn.
func (b *builder) across(path []XY, first, step, v0, v1 float64) (out []XY) {
	b.along(path, first, step, func(p, u XY) {
		out = append(out, XY{p.X + u.Y*v0, p.Y - u.X*v0}, XY{p.X + u.Y*v1, p.Y - u.X*v1})
	})
	return out
}

// crosses returns small crosses on the path with arms of length r.
func (b *builder) crosses(path []XY, first, step, r float64) (out []XY) {
	b.along(path, first, step, func(p, u XY) {
		for _, s := range [2]float64{1, -1} {
			d := XY{(u.X + s*u.Y) * r * 0.707, (u.Y - s*u.X) * r * 0.707}
			out = append(out, XY{p.X - d.X, p.Y - d.Y}, XY{p.X + d.X, p.Y + d.Y})
		}
	})
	return out
}

// square returns the corners of an upright square of half side r.
func (b *builder) square(p XY, r float64) []XY { return b.rect(p, r, r) }

// rect returns the corners of an upright rectangle of half sides rx, ry.
func (b *builder) rect(p XY, rx, ry float64) []XY {
	q := b.pts(4)
	q[0], q[1] = XY{p.X - rx, p.Y - ry}, XY{p.X + rx, p.Y - ry}
	q[2], q[3] = XY{p.X + rx, p.Y + ry}, XY{p.X - rx, p.Y + ry}
	return q
}

// halfway returns the middle of a path.
func halfway(path []XY) XY {
	var sum float64
	for i := 1; i < len(path); i++ {
		sum += math.Hypot(path[i].X-path[i-1].X, path[i].Y-path[i-1].Y)
	}
	left := sum / 2
	for i := 1; i < len(path); i++ {
		a, c := path[i-1], path[i]
		d := math.Hypot(c.X-a.X, c.Y-a.Y)
		if d >= left && d > 0 {
			return XY{a.X + (c.X-a.X)*left/d, a.Y + (c.Y-a.Y)*left/d}
		}
		left -= d
	}
	return path[0]
}

// Widths taken for what the scheme gives no width for; common practice, no
// source.
const (
	doorWidth   = 900 * geom.Millimetre
	windowWidth = 1200 * geom.Millimetre
)

// mark draws a tree, seat, window, door or metalwork.
func (b *builder) mark(m *doc.Mark) {
	if b.in.skips(m.ID) {
		return
	}
	at := b.at(m.Place.At)
	crown := float64(m.Crown) * b.k
	if !b.seesBox([]XY{at}, 8+crown) {
		return
	}
	id := string(m.ID)
	name := m.Name
	r := 1.4
	switch m.Kind {
	case "tree":
		r = b.tree(id, at, float64(m.Radius)*b.k, crown)
	case "window":
		b.window(id, m.Place.At)
	case "door":
		b.door(id, m.Place.At)
	case "seat":
		b.seat(id, at)
		r = 3.2
	default:
		b.metalwork(id, at)
	}
	b.free.box(at.X-r, at.Y-r, at.X+r, at.Y+r, hurtRun)
	if name != "" {
		b.names = append(b.names, nameLabel{entity: id, text: name, at: at, r: r + 0.4})
	}
	b.standAt(id, at, r)
}

// tree draws the trunk as a dot and the crown as a ring of leaf arcs.
func (b *builder) tree(id string, at XY, trunk, crown float64) float64 {
	trunk = max(trunk, 0.5)
	if crown > trunk+1 {
		const steps = 4
		bumps := min(48, max(9, int(2*math.Pi*crown/3.2)))
		ring := b.pts(bumps * steps)
		for i := range ring {
			a := 2 * math.Pi * float64(i) / float64(len(ring))
			in := math.Sin(math.Pi * float64(i%steps) / steps) // 0 at the notches
			rr := crown - min(0.7, crown/6)*(1-in)
			ring[i] = XY{at.X + rr*math.Cos(a), at.Y + rr*math.Sin(a)}
		}
		b.add(Item{Kind: Polygon, Layer: LayerLines, Entity: id, Points: ring, Style: Style{Stroke: b.pal.Planting, Width: thin}})
		b.crowns = append(b.crowns, round{at, crown})
	}
	b.disc(LayerLines, id, at, trunk, Style{Stroke: b.pal.Planting, Width: thin, Fill: b.pal.Planting})
	return trunk
}

// round is a circle on paper.
type round struct {
	at XY
	r  float64
}

func (b *builder) disc(l Layer, id string, at XY, r float64, st Style) {
	p := b.pts(1)
	p[0] = at
	b.add(Item{Kind: Circle, Layer: l, Entity: id, Points: p, Size: r, Style: st})
}

// wallAt returns the nearest place on a building edge or wall within reach
// of p and the direction of the edge on paper; p itself and level without one.
func (b *builder) wallAt(p geom.Point) (at, u XY) {
	const reach = geom.Metre
	best := geom.Length(reach)
	at, u = b.at(p), XY{1, 0}
	try := func(a, c geom.Point) {
		q, d := geom.Nearest(p, a, c)
		if d >= best || a == c {
			return
		}
		pa, pc := b.at(a), b.at(c)
		n := math.Hypot(pc.X-pa.X, pc.Y-pa.Y)
		best, at, u = d, b.at(q), XY{(pc.X - pa.X) / n, (pc.Y - pa.Y) / n}
	}
	for _, a := range b.in.Scheme.Areas.All() {
		for i := range a.Ring {
			if a.Kind == "building" {
				try(a.Ring[i], a.Ring[(i+1)%len(a.Ring)])
			}
		}
	}
	for _, l := range b.in.Scheme.Lines.All() {
		for i := 1; i < len(l.Path) && l.Kind == "wall"; i++ {
			try(l.Path[i-1], l.Path[i])
		}
	}
	return at, u
}

// oblong returns a turned rectangle: half length a along u, half width c.
func (b *builder) oblong(p, u XY, a, c float64) []XY {
	q := b.pts(4)
	for i, s := range [4][2]float64{{-a, -c}, {a, -c}, {a, c}, {-a, c}} {
		q[i] = XY{p.X + u.X*s[0] - u.Y*s[1], p.Y + u.Y*s[0] + u.X*s[1]}
	}
	return q
}

// window draws a pane in its wall.
func (b *builder) window(id string, p geom.Point) {
	at, u := b.wallAt(p)
	half := max(1.5, float64(windowWidth)*b.k/2)
	b.add(Item{Kind: Polygon, Layer: LayerLines, Entity: id, Points: b.oblong(at, u, half, 0.6),
		Style: Style{Stroke: b.pal.Wall, Width: thin, Fill: b.pal.Paper}})
	s := b.pts(2)
	s[0], s[1] = XY{at.X - u.X*half, at.Y - u.Y*half}, XY{at.X + u.X*half, at.Y + u.Y*half}
	b.add(Item{Kind: Segments, Layer: LayerLines, Entity: id, Points: s, Style: Style{Stroke: b.pal.Wall, Width: fine}})
}

// door draws the opening with its leaf and swing, opening towards p's side.
func (b *builder) door(id string, p geom.Point) {
	at, u := b.wallAt(p)
	w := max(2.4, float64(doorWidth)*b.k)
	b.add(Item{Kind: Polygon, Layer: LayerLines, Entity: id, Points: b.oblong(at, u, w/2, 0.5),
		Style: Style{Stroke: b.pal.Paper, Width: fine, Fill: b.pal.Paper}})
	v := XY{-u.Y, u.X}
	if q := b.at(p); (q.X-at.X)*v.X+(q.Y-at.Y)*v.Y < 0 {
		v = XY{u.Y, -u.X}
	}
	hinge := XY{at.X - u.X*w/2, at.Y - u.Y*w/2}
	const n = 10
	arc := b.pts(n + 2)
	arc[0] = hinge
	for i := 0; i <= n; i++ {
		sin, cos := math.Sincos(math.Pi / 2 * float64(n-i) / n)
		arc[i+1] = XY{hinge.X + w*(u.X*cos+v.X*sin), hinge.Y + w*(u.Y*cos+v.Y*sin)}
	}
	b.add(Item{Kind: Polyline, Layer: LayerLines, Entity: id, Points: arc, Style: Style{Stroke: b.pal.Wall, Width: thin}})
}

// seat draws a bench seen from above.
func (b *builder) seat(id string, at XY) {
	st := Style{Stroke: b.pal.Wall, Width: thin, Fill: b.pal.Paper}
	b.add(Item{Kind: Polygon, Layer: LayerLines, Entity: id, Points: b.rect(at, 3, 1.1), Style: st})
	s := b.pts(4)
	s[0], s[1] = XY{at.X - 3, at.Y - 0.45}, XY{at.X + 3, at.Y - 0.45}
	s[2], s[3] = XY{at.X - 3, at.Y + 0.3}, XY{at.X + 3, at.Y + 0.3}
	b.add(Item{Kind: Segments, Layer: LayerLines, Entity: id, Points: s, Style: Style{Stroke: b.pal.Wall, Width: fine}})
}

// metalwork draws a small barred square: something that may need bonding.
func (b *builder) metalwork(id string, at XY) {
	st := Style{Stroke: b.pal.Wall, Width: thin, Fill: b.pal.Paper}
	b.add(Item{Kind: Polygon, Layer: LayerLines, Entity: id, Points: b.square(at, 1.2), Style: st})
	s := b.pts(6)
	for i, x := range [3]float64{-0.6, 0, 0.6} {
		s[2*i], s[2*i+1] = XY{at.X + x, at.Y - 1.2}, XY{at.X + x, at.Y + 1.2}
	}
	b.add(Item{Kind: Segments, Layer: LayerLines, Entity: id, Points: s, Style: Style{Stroke: b.pal.Wall, Width: thin}})
}
