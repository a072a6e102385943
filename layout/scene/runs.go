package scene

import (
	"math"

	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// runs draws the cables. The line tells the voltage: mains solid, extra-low
// voltage dash and dot. Small marks on the line tell the support; vertices
// are dots; an end in the air is an open circle.
func (b *builder) runs() {
	systems := b.systems()
	var buf []XY
	for i, r := range b.in.Scheme.Runs.All() {
		if len(r.Legs) == 0 || b.in.skips(r.ID) {
			continue
		}
		buf = b.path(buf[:0], r)
		if b.seesBox(buf, 2) {
			b.run(i, r, b.keep(buf), systems[i])
		}
	}
}

// path appends the places of a run's ends and vertices.
func (b *builder) path(ps []XY, r *doc.Run) []XY {
	ps = append(ps, b.at(b.endAt(r.From)))
	for _, l := range r.Legs[:len(r.Legs)-1] {
		ps = append(ps, b.at(l.To))
	}
	return append(ps, b.at(b.endAt(r.To)))
}

func (b *builder) endAt(e doc.End) geom.Point {
	if e.On == "" {
		return e.At
	}
	s := b.in.Scheme
	if x, ok := s.Lamps.Get(e.On); ok {
		return x.Place.At
	}
	if x, ok := s.Boxes.Get(e.On); ok {
		return x.Place.At
	}
	if x, ok := s.Sources.Get(e.On); ok {
		return x.Place.At
	}
	if x, ok := s.Gear.Get(e.On); ok {
		return x.Place.At
	}
	if x, ok := s.Supplies.Get(e.On); ok {
		return x.Place.At
	}
	return e.At
}

// runStyle returns the line of a system.
func (b *builder) runStyle(s system) Style { return runStyle(b.pal, s) }

func runStyle(p *Palette, s system) Style {
	if s == extra {
		return Style{Stroke: p.Extra, Width: bold, Dash: []float64{3.4, 1.3, 0.2, 1.3}}
	}
	return Style{Stroke: p.Mains, Width: bold}
}

func (b *builder) run(i int, r *doc.Run, path []XY, sys system) {
	if b.dig != nil {
		b.digRun(i, r, path, sys)
		return
	}
	id := string(r.ID)
	st := b.runStyle(sys)
	if b.looks != nil {
		st = b.looks.style(b.pal, b.looks.class(r.ID), sys)
	}
	b.add(Item{Kind: Polyline, Layer: LayerRuns, Entity: id, Points: path, Style: st})
	plain := Style{Stroke: st.Stroke, Width: medium}
	marks := b.supports(path, r.Legs)
	if len(marks) > 0 {
		b.add(Item{Kind: Segments, Layer: LayerRuns, Entity: id, Points: marks, Style: plain})
	}
	if dots := b.vertices(path); len(dots) > 0 {
		b.add(Item{Kind: Segments, Layer: LayerRuns, Entity: id, Points: dots, Style: Style{Stroke: st.Stroke, Width: 0.95}})
	}
	for n, e := range [2]doc.End{r.From, r.To} {
		if e.On == "" {
			b.disc(LayerRuns, id, path[n*(len(path)-1)], 0.9, Style{Stroke: st.Stroke, Width: medium, Fill: b.pal.Paper})
		}
	}
	for n := 1; n < len(path); n++ {
		b.free.stroke(path[n-1], path[n], hurtRun)
	}
	for n := 0; n+1 < len(marks); n += 2 {
		b.free.stroke(marks[n], marks[n+1], 3*hurtRun)
	}
	label := cableLabel{entity: id, run: i, path: path, colour: st.Stroke}
	if b.looks != nil { // the paler classes are no colours for letters
		label.colour, label.full, label.name = b.pal.Ink, b.looks.text(r), b.looks.short(r.ID)
	}
	b.cables = append(b.cables, label)
	if len(b.worst) > 0 {
		b.standAt(id, halfway(path), 0.6)
	}
}

// vertices returns a dot for each inner vertex that shows.
func (b *builder) vertices(path []XY) []XY {
	if len(path) < 3 {
		return nil
	}
	out := b.pts(2 * (len(path) - 2))[:0]
	for _, p := range path[1 : len(path)-1] {
		if p.X > -1 && p.Y > -1 && p.X < b.w+1 && p.Y < b.h+1 {
			out = append(out, p, p)
		}
	}
	return out
}

// Marks of a support sit at the middle of a leg, and further ones each
// supportStep away; a leg shorter than supportMin gets none.
const (
	supportStep = 16.0
	supportMin  = 4.0
)

// supports returns the strokes of the support marks of all legs.
func (b *builder) supports(path []XY, legs []doc.Leg) (out []XY) {
	for i, l := range legs {
		a, c := path[i], path[i+1]
		d := math.Hypot(c.X-a.X, c.Y-a.Y)
		glyph := supportMarks[l.Support]
		if d < supportMin || len(glyph) == 0 || !b.seesBox(path[i:i+2], 1) {
			continue
		}
		u := XY{(c.X - a.X) / d, (c.Y - a.Y) / d}
		if u.X < 0 || u.X == 0 && u.Y < 0 { // marks stand upright whichever way it was drawn
			u = XY{-u.X, -u.Y}
		}
		n := max(1, int(d/supportStep))
		for j := range n {
			t := (float64(j) + 0.5) / float64(n)
			p := XY{a.X + (c.X-a.X)*t, a.Y + (c.Y-a.Y)*t}
			if p.X < -1 || p.Y < -1 || p.X > b.w+1 || p.Y > b.h+1 {
				continue
			}
			if out == nil {
				out = b.pts(len(glyph) * (n + 2*(len(legs)-i-1)))[:0]
			}
			for _, g := range glyph {
				out = append(out, XY{p.X + u.X*g.X - u.Y*g.Y, p.Y + u.Y*g.X + u.X*g.Y})
			}
		}
	}
	return out
}

// supportMarks are drawn along the leg (x) and square to it (y, down).
// Buried is an earth mark under the line, duct two rails along it, a
// structure a post, a tree a small crown, indoors a double bar; clipped is
// the plain line. Ours; IEC 60617 marks laid lines in a like way (from
// memory).
var supportMarks = [...][]XY{
	network.Clipped:     nil,
	network.Buried:      {{0, 0}, {0, 0.9}, {-0.9, 0.9}, {0.9, 0.9}, {-0.45, 1.45}, {0.45, 1.45}},
	network.InDuct:      {{-1.5, -0.8}, {1.5, -0.8}, {-1.5, 0.8}, {1.5, 0.8}},
	network.OnStructure: {{0, 0}, {-0.7, 1.3}, {-0.7, 1.3}, {0.7, 1.3}, {0.7, 1.3}, {0, 0}},
	network.InTree:      {{-0.9, 0}, {-0.6, -0.9}, {-0.6, -0.9}, {0, -1.25}, {0, -1.25}, {0.6, -0.9}, {0.6, -0.9}, {0.9, 0}},
	network.Indoors:     {{-0.35, -0.8}, {-0.35, 0.8}, {0.35, -0.8}, {0.35, 0.8}},
}
