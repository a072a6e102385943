package scene

import (
	"math"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// area draws one piece of ground: fill, hatch, outline. The hatch tells the
// kinds apart on a black-and-white print; it is anchored to the plan, so it
// does not swim when the view moves.
func (b *builder) area(a *doc.Area) {
	if len(a.Ring) < 3 || b.in.skips(a.ID) {
		return
	}
	ring := b.pts(len(a.Ring))
	for i, p := range a.Ring {
		ring[i] = b.at(p)
	}
	if !b.seesBox(ring, 0) {
		return
	}
	seen := clipRing(ring, -2, -2, b.w+2, b.h+2)
	if len(seen) < 3 {
		return
	}
	id := string(a.ID)
	b.paintGround(a, seen)
	edge := Item{Kind: Polygon, Layer: LayerGround, Entity: id, Points: ring, Style: Style{Stroke: b.pal.Soft, Width: thin}}
	if a.Kind == "building" {
		edge.Style = Style{Stroke: b.pal.Wall, Width: bold}
		b.walls = append(b.walls, edge)
	} else {
		b.add(edge)
	}
	for i, p := range ring {
		b.free.stroke(p, ring[(i+1)%len(ring)], hurtLine)
	}
	name := a.Name
	if name == "" {
		name = sentence(a.Kind)
	}
	b.names = append(b.names, nameLabel{entity: id, text: b.digName(name, a), ring: seen})
	b.standAt(id, middle(seen), 0)
}

// motif is one small drawing repeated over an area: strokes as pairs of
// offsets from its place, repeated every DX, DY, each second row shifted by
// half, moved about by up to Jitter so that it does not look like a grid.
type motif struct {
	dx, dy, jitter float64
	stagger        bool
	width          float64
	strokes        []XY
}

var motifs = map[string]motif{
	"lawn":    {8, 5.5, 1.4, true, fine, []XY{{-0.7, -0.9}, {-0.2, 0.3}, {0, -1.3}, {0, 0.3}, {0.7, -0.9}, {0.2, 0.3}}},
	"border":  {5, 4, 0.6, true, fine, []XY{{-0.8, 0}, {0.8, 0}, {-0.4, -0.7}, {0.4, 0.7}, {0.4, -0.7}, {-0.4, 0.7}}},
	"dug bed": {4.4, 2, 0, true, fine, []XY{{-1.3, 0}, {1.3, 0}}},
	"paving":  {6, 3, 0, true, fine, []XY{{0, 0}, {0, 3}}},
	"gravel":  {3, 2.6, 1, true, medium, []XY{{0, 0}, {0.02, 0}}},
	"water": {9, 4, 0, true, thin, []XY{{-2, 0}, {-1.3, -0.5}, {-1.3, -0.5}, {-0.7, -0.5}, {-0.7, -0.5}, {0, 0},
		{0, 0}, {0.7, 0.5}, {0.7, 0.5}, {1.3, 0.5}, {1.3, 0.5}, {2, 0}}},
}

// rule is a family of parallel lines: angle in degrees, spacing in mm.
type rule struct {
	angle, step float64
	dash        []float64
}

var rules = map[string]rule{
	"building": {45, 2.4, nil},
	"paving":   {0, 3, nil},
	"deck":     {0, 1.6, nil},
	"drive":    {-45, 3.2, []float64{3, 1.8}},
}

// texture hatches the ring by its kind.
func (b *builder) texture(id, kind string, ring []XY, c Colour) {
	if r, ok := rules[kind]; ok {
		if ps := b.ruled(ring, r); len(ps) > 0 {
			b.add(Item{Kind: Segments, Layer: LayerGround, Entity: id, Points: ps,
				Style: Style{Stroke: c, Width: fine, Dash: r.dash}})
		}
	}
	if m, ok := motifs[kind]; ok {
		if ps := b.strewn(ring, m); len(ps) > 0 {
			b.add(Item{Kind: Segments, Layer: LayerGround, Entity: id, Points: ps,
				Style: Style{Stroke: c, Width: m.width}})
		}
	}
}

// anchor returns the place that hatches start from: the plan's origin, moved
// by an odd bit so that edges at round measures do not fall on a hatch line
// and come and go by rounding.
func (b *builder) anchor() XY {
	o := b.at(geom.Point{})
	return XY{o.X + 0.37, o.Y + 0.41}
}

// ruled returns the strokes of parallel lines inside the ring. Paper is
// turned so that the lines lie level; each line is cut where it crosses an
// edge and every second piece is inside.
func (b *builder) ruled(ring []XY, r rule) []XY {
	sin, cos := math.Sincos(r.angle * math.Pi / 180)
	org := b.anchor()
	turnedRing := make([]XY, len(ring))
	for i, p := range ring {
		x, y := p.X-org.X, p.Y-org.Y
		turnedRing[i] = XY{x*cos - y*sin, x*sin + y*cos}
	}
	lo, hi := bounds(turnedRing)
	var out []XY
	b.levels.start(turnedRing)
	for n := math.Ceil(lo.Y / r.step); n*r.step <= hi.Y; n++ {
		y := n * r.step
		b.scans = b.levels.at(y, b.scans[:0])
		for i := 0; i+1 < len(b.scans); i += 2 {
			for _, x := range [2]float64{b.scans[i], b.scans[i+1]} {
				out = append(out, XY{org.X + x*cos + y*sin, org.Y - x*sin + y*cos})
			}
		}
	}
	return out
}

// strewn returns the strokes of a motif wherever all of it is inside.
func (b *builder) strewn(ring []XY, m motif) []XY {
	lo, hi := bounds(ring)
	org := b.anchor()
	area := newSlabs(ring)
	var out []XY
	for row := math.Floor((lo.Y - org.Y) / m.dy); org.Y+row*m.dy < hi.Y+m.dy; row++ {
		shift := 0.0
		if m.stagger && int(math.Abs(row))%2 == 1 {
			shift = m.dx / 2
		}
		for col := math.Floor((lo.X - org.X - shift) / m.dx); org.X+col*m.dx+shift < hi.X+m.dx; col++ {
			jx, jy := jitter(int(col), int(row))
			at := XY{org.X + col*m.dx + shift + m.jitter*jx, org.Y + row*m.dy + m.jitter*jy}
			out = stamp(out, area, at, m.strokes)
		}
	}
	return out
}

// stamp appends the strokes at a place unless one of them leaves the ring.
func stamp(out []XY, area *slabs, at XY, strokes []XY) []XY {
	n := len(out)
	for i, s := range strokes {
		p := XY{at.X + s.X, at.Y + s.Y}
		if (i == 0 || s != strokes[i-1]) && !area.holds(p) {
			return out[:n]
		}
		out = append(out, p)
	}
	return out
}

// jitter returns two numbers in (-0.5, 0.5) that look random but belong to
// the cell: multiply and mix, constants odd and otherwise arbitrary.
func jitter(col, row int) (x, y float64) {
	h := uint32(col)*0x9E3779B1 ^ uint32(row)*0x85EBCA77
	h ^= h >> 15
	h *= 0x2C1B3C6D
	h ^= h >> 13
	return float64(h&0xFFFF)/65536 - 0.5, float64(h>>16)/65536 - 0.5
}

// inside reports whether p lies in the ring (even-odd).
func inside(p XY, ring []XY) bool {
	in := false
	for i, j := 0, len(ring)-1; i < len(ring); j, i = i, i+1 {
		if beneath(p, ring[i], ring[j]) {
			in = !in
		}
	}
	return in
}

// beneath reports whether the ray from p towards larger X meets the edge.
func beneath(p, a, c XY) bool {
	return (a.Y > p.Y) != (c.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(c.Y-a.Y)*(c.X-a.X)
}

// middle returns the centroid of a ring, or the middle of its box when the
// ring has no area.
func middle(ring []XY) XY {
	var a, x, y float64
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		c := p.X*q.Y - q.X*p.Y
		a, x, y = a+c, x+(p.X+q.X)*c, y+(p.Y+q.Y)*c
	}
	if math.Abs(a) < 1e-9 {
		lo, hi := bounds(ring)
		return XY{(lo.X + hi.X) / 2, (lo.Y + hi.Y) / 2}
	}
	return XY{x / (3 * a), y / (3 * a)}
}
