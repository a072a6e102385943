package packs

import (
	"cmp"
	"math"
	"slices"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/output"
	"duskwire/layout/scene"
)

// A drawing holds so many points with their two distances; more go to further
// drawings, and beyond mostParts drawings to the list alone.
const mostTapes = 10

// tapeDrawings draw the distances from the two fixed points as dimension lines.
func (d *draft) tapeDrawings() {
	parts := d.tapeParts()
	for i, part := range parts {
		title := "Tape distances"
		if len(parts) > 1 {
			title += ", part " + whole(i+1) + " of " + whole(len(parts))
		}
		d.drawing(title, func(s output.Sheet) (*scene.List, error) { return d.tapeDrawing(s, part) })
	}
}

// tapeParts shares the points out to drawings: what stands in the garden and the
// bends of what is dug; lamps where everything goes on one drawing. They are on
// the list anyway.
func (b *book) tapeParts() (out [][]spot) {
	if b.fixed == nil {
		return nil
	}
	inGround := map[geom.Point]bool{}
	each(b.scheme, func(_ *doc.Run, _ int, p, q geom.Point) { inGround[p], inGround[q] = true, true })
	var few, lamps []spot
	seen := map[geom.Point]bool{b.fixed.at[0]: true, b.fixed.at[1]: true}
	for _, s := range b.spots() {
		if s.number > 0 && !inGround[s.at] || seen[s.at] {
			continue
		}
		seen[s.at] = true
		if doc.KindOfEntity(doc.WithTag(b.scheme, s.name)) == doc.LampKind && s.number == 0 {
			lamps = append(lamps, s)
			continue
		}
		few = append(few, s)
	}
	if len(few)+len(lamps) <= mostTapes {
		few = append(few, lamps...)
	}
	return b.spread(few)
}

// spread shares points out so that the lines to them lie apart: each comes on the
// drawing with the fewest lines close to its own, and on a new one where these are
// two or more, up to twice as many drawings as the points would fill.
func (b *book) spread(points []spot) (out [][]spot) {
	sheets := min((len(points)+mostTapes-1)/mostTapes, mostParts)
	most := min(2*sheets, mostParts)
	slices.SortStableFunc(points, func(p, q spot) int { return cmp.Compare(b.abreast(p.at), b.abreast(q.at)) })
	for _, p := range points {
		best, least := -1, math.MaxInt
		for i, sheet := range out {
			close := 0
			for _, o := range sheet {
				if b.close(p.at, o.at) {
					close++
				}
			}
			if len(sheet) < mostTapes && (close < least || close == least && len(sheet) < len(out[best])) {
				best, least = i, close
			}
		}
		if least > 1 && len(out) < most { // two beside each other are lettered on their outer sides
			out = append(out, nil)
			best = len(out) - 1
		}
		if best < 0 {
			break // more than all drawings hold: the list has the rest
		}
		out[best] = append(out[best], p)
	}
	return out
}

// close reports whether the lines to two points from one of the fixed points lie
// beside each other with no room for a figure, at the scale of the plan.
func (b *book) close(p, q geom.Point) bool {
	const room = 2 * geom.Millimetre // on paper
	scale := b.scheme.Plan.Scale
	if scale <= 0 {
		scale = 100
	}
	for _, f := range b.fixed.at {
		px, py, qx, qy := float64(p.X-f.X), float64(p.Y-f.Y), float64(q.X-f.X), float64(q.Y-f.Y)
		far := max(math.Hypot(px, py), math.Hypot(qx, qy))
		if px*qx+py*qy > 0 && math.Abs(px*qy-py*qx) < far*float64(room)*float64(scale) {
			return true
		}
	}
	return false
}

// abreast is how far a point lies along the line of the fixed points, from F1.
func (b *book) abreast(p geom.Point) float64 {
	f := b.fixed.at
	return float64(p.X-f[0].X)*float64(f[1].X-f[0].X) + float64(p.Y-f[0].Y)*float64(f[1].Y-f[0].Y)
}

// tapeDrawing is the plan, in outline, with the two distances of every point.
// Distances from F1 are drawn in full and those from F2 dashed, so that they are
// told apart without colour; each is lettered with its fixed point.
func (b *book) tapeDrawing(s output.Sheet, spots []spot) (*scene.List, error) {
	s.Plan = b.planInput()
	s.Plan.Findings, s.Plan.Lengths, s.Plan.NoZones = nil, nil, true
	s.More = b.tapeLegend(spots)
	s.Window = b.tapeWindow(spots)
	if s.Paper == "" {
		s.Paper = "A3" // figures need room
	}
	l, err := output.Page(s)
	if err != nil {
		return nil, err
	}
	l.Items = slices.DeleteFunc(l.Items, func(it scene.Item) bool { // cables are not what is read here
		_, run := b.scheme.Runs.Get(doc.ID(it.Entity))
		return run && it.Kind == scene.Text
	})
	t := &tapes{book: b, l: l, taken: newTaken(l)}
	var ends [2]scene.XY
	for i, p := range b.fixed.at {
		ends[i] = l.View.Paper(p)
	}
	t.base(ends)
	for _, p := range spots {
		for i := range ends {
			t.tape(i, ends[i], l.View.Paper(p.at), "F"+whole(i+1)+" "+long(geom.Distance(b.fixed.at[i], p.at)))
		}
	}
	t.under()
	for i := range ends {
		l.Items = append(l.Items, fixedMark(ends[i], b.pal)...)
		l.Items = append(l.Items, fixedName(ends[i], ends[1-i], "F"+whole(i+1), b.pal))
		t.taken.add(ends[i].X-2, ends[i].Y-2, ends[i].X+2, ends[i].Y+2)
		t.taken.text(&l.Items[len(l.Items)-1])
	}
	var bends []spot
	for _, p := range spots {
		if p.number > 0 {
			bends = append(bends, p)
		}
	}
	b.letterBends(l, bends)
	t.taken = newTaken(l) // with the numbers of the bends
	t.letters()
	return l, nil
}

// tapeWindow is the part of the plan that holds the points and what they are
// measured from.
func (b *book) tapeWindow(spots []spot) geom.Rect {
	r := geom.Around(b.fixed.at[:]...)
	for _, p := range spots {
		r = r.With(p.at)
	}
	return r.Grow(300 * geom.Millimetre)
}

func (b *book) tapeLegend(spots []spot) []scene.Entry {
	line := func(i int) []scene.Item {
		return []scene.Item{{Kind: scene.Polyline, Points: points(-scene.LegendWidth/2, 0, scene.LegendWidth/2, 0), Style: b.tapeStyle(i)}}
	}
	out := []scene.Entry{
		{Group: "Setting out", Sample: fixedMark(scene.XY{}, b.pal), Words: "F1 and F2, the fixed points: see the list Setting out"},
		{Group: "Setting out", Sample: line(0), Words: "Distance from F1, m, level"},
		{Group: "Setting out", Sample: line(1), Words: "Distance from F2, m, level"},
	}
	if slices.ContainsFunc(spots, func(s spot) bool { return s.number > 0 }) {
		out = append(out, scene.Entry{Group: "Setting out", Sample: []scene.Item{bendDot(scene.XY{}, b.pal)}, Words: "Bend of a run in the ground, p with its number"})
	}
	return out
}

// tapeStyle is the line of a distance from a fixed point.
func (b *book) tapeStyle(i int) scene.Style {
	st := scene.Style{Stroke: b.pal.Ink, Width: 0.18}
	if i == 1 {
		st.Dash = []float64{2.2, 1.2}
	}
	return st
}

// tapes draws dimension lines and letters them.
type tapes struct {
	*book
	l     *scene.List
	taken *taken
	lines []tapeLine
	items []scene.Item // lines, which go below symbols and labels
}

type tapeLine struct {
	from, to scene.XY
	text     string
	base     bool
}

// base draws the distance of the fixed points beside the line between them, on the
// side away from the garden.
func (t *tapes) base(ends [2]scene.XY) {
	a, z := ends[0], ends[1]
	d := math.Hypot(z.X-a.X, z.Y-a.Y)
	if d == 0 {
		return
	}
	n := scene.XY{X: -(z.Y - a.Y) / d, Y: (z.X - a.X) / d}
	if c := t.l.View.Paper(centre(t.scheme)); (c.X-a.X)*n.X+(c.Y-a.Y)*n.Y > 0 {
		n = scene.XY{X: -n.X, Y: -n.Y}
	}
	const off = 6.0
	p, q := scene.XY{X: a.X + off*n.X, Y: a.Y + off*n.Y}, scene.XY{X: z.X + off*n.X, Y: z.Y + off*n.Y}
	ink := scene.Style{Stroke: t.pal.Ink, Width: 0.18}
	t.items = append(t.items, scene.Item{Kind: scene.Segments, Layer: scene.LayerDimensions, Style: ink, Points: points(
		a.X, a.Y, p.X+1.5*n.X, p.Y+1.5*n.Y, z.X, z.Y, q.X+1.5*n.X, q.Y+1.5*n.Y, p.X, p.Y, q.X, q.Y)})
	t.tick(p, q)
	t.tick(q, p)
	t.lines = append(t.lines, tapeLine{p, q, "F1 to F2 " + long(geom.Distance(t.fixed.at[0], t.fixed.at[1])), true})
}

// tick is the short stroke across the end of a dimension line (ISO 129-1, from
// memory).
func (t *tapes) tick(at, other scene.XY) {
	d := math.Hypot(other.X-at.X, other.Y-at.Y)
	ux, uy := (other.X-at.X)/d, (other.Y-at.Y)/d
	x, y := (ux-uy)*0.7, (ux+uy)*0.7 // turned by 45°
	t.items = append(t.items, scene.Item{Kind: scene.Polyline, Layer: scene.LayerDimensions, Points: points(at.X-x, at.Y-y, at.X+x, at.Y+y),
		Style: scene.Style{Stroke: t.pal.Ink, Width: 0.35}})
}

// tape draws one distance.
func (t *tapes) tape(i int, from, to scene.XY, text string) {
	if math.Hypot(to.X-from.X, to.Y-from.Y) < 2 {
		return
	}
	t.items = append(t.items, scene.Item{Kind: scene.Polyline, Layer: scene.LayerDimensions, Points: []scene.XY{from, to}, Style: t.tapeStyle(i)})
	t.tick(to, from)
	t.lines = append(t.lines, tapeLine{from: from, to: to, text: text})
}

// under puts the lines below the symbols and labels of the plan.
func (t *tapes) under() {
	at := slices.IndexFunc(t.l.Items, func(it scene.Item) bool {
		return it.Layer == scene.LayerPoints || it.Layer == scene.LayerLabels || it.Layer == scene.LayerFrame
	})
	if at < 0 {
		at = len(t.l.Items)
	}
	t.l.Items = slices.Insert(t.l.Items, at, t.items...)
}

// letters letters the lines, shortest first: they have the least room.
func (t *tapes) letters() {
	order := make([]int, len(t.lines))
	for i := range order {
		order[i] = i
	}
	size := func(i int) float64 {
		l := &t.lines[i]
		return math.Hypot(l.to.X-l.from.X, l.to.Y-l.from.Y)
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch x, y := size(a), size(b); {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	})
	for _, i := range order {
		t.letter(i)
	}
}

// letter puts the figure of a line along it, where it hurts least: near the point,
// off letters and symbols, and off other lines.
func (t *tapes) letter(i int) {
	l := &t.lines[i]
	dx, dy := l.to.X-l.from.X, l.to.Y-l.from.Y
	d := math.Hypot(dx, dy)
	turn := math.Atan2(-dy, dx) * 180 / math.Pi
	ux, uy := dx/d, dy/d
	if turn > 90 || turn <= -90 { // to be read from below or from the right
		turn -= math.Copysign(180, turn)
		ux, uy = -ux, -uy
	}
	w := scene.TextWidth(l.text, capSmall, false)
	best, least := scene.Item{}, math.Inf(1)
	for k := range 33 {
		share := 0.9 - float64(k)*0.025
		if l.base {
			share = 0.5 + float64((k+1)/2)*0.02*float64(1-2*(k%2))
		}
		m := scene.XY{X: l.from.X + share*dx, Y: l.from.Y + share*dy}
		for _, side := range [2]float64{0.6, -0.6 - capSmall} { // above the line, below it
			at := scene.XY{X: m.X - ux*w/2 + uy*side, Y: m.Y - uy*w/2 - ux*side}
			it := scene.Item{Kind: scene.Text, Layer: scene.LayerFrame, Points: []scene.XY{at}, Text: l.text, Size: capSmall, Turn: turn, Halo: true, Style: scene.Style{Fill: t.pal.Ink}}
			if cost := t.cost(i, at, ux, uy, w) + float64(k)*0.05; cost < least {
				best, least = it, cost
			}
		}
	}
	t.taken.text(&best)
	t.l.Items = append(t.l.Items, best)
}

// cost tells what a text that starts at a place would lie on: 10 for every piece of
// it on letters or symbols, 1 for every piece on a line of another distance.
func (t *tapes) cost(own int, at scene.XY, ux, uy, w float64) (cost float64) {
	const half = capSmall / 2
	for n := half; n <= w+half/2; n += half {
		c := scene.XY{X: at.X + ux*n + uy*half, Y: at.Y + uy*n - ux*half} // in the middle of the letters
		if t.taken.hits(c.X-half-0.3, c.Y-half-0.3, c.X+half+0.3, c.Y+half+0.3) > 0 {
			cost += 10
		}
		for i := range t.lines {
			if i != own && toLine(c, t.lines[i].from, t.lines[i].to) < half+0.3 {
				cost++
			}
		}
	}
	return cost
}

// toLine is the distance of a point from a stretch of line.
func toLine(c, a, z scene.XY) float64 {
	dx, dy := z.X-a.X, z.Y-a.Y
	s := ((c.X-a.X)*dx + (c.Y-a.Y)*dy) / (dx*dx + dy*dy)
	s = max(0, min(1, s))
	return math.Hypot(c.X-a.X-s*dx, c.Y-a.Y-s*dy)
}
