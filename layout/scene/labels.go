package scene

import (
	"math"
	"sort"
)

// tag waits for a place beside its symbol.
type tag struct {
	entity       string
	at           XY
	rx, up, down float64 // reach of the symbol to the sides, up and down
	text, zone   string
	colour       Colour // of the zone
}

// never is the cost above which a label is dropped on a screen: about two
// other labels underneath.
const never = 1200

// fewTags is how many things a plan on a screen may show for their tags to go as far
// out as it takes; among more a tag that has no room is read after zooming in.
const fewTags = 60

// placeTags letters the tags in order, each where it hurts least: right
// first, then left, above, below and the corners, then the same further out. Those
// of a few that found no room on a screen look further out once the others stand.
func (b *builder) placeTags() {
	var late []*tag
	for i := range b.tags {
		if t := &b.tags[i]; !b.placeTag(t, false) && b.in.Screen && !b.in.Sparse && len(b.tags) <= fewTags {
			late = append(late, t)
		}
	}
	for _, t := range late {
		b.placeTag(t, true)
	}
}

// placeTag letters a tag and reports whether there was room for it.
func (b *builder) placeTag(t *tag, far bool) bool {
	if t.text == "" && t.zone == "" {
		return true
	}
	wt := TextWidth(t.text, capTag, false)
	w := wt
	if t.zone != "" {
		w += TextWidth(t.zone, capTag, true) + 0.1
	}
	at, out, cost := b.around(t.at, t.rx, t.up, t.down, w, capTag, far)
	if b.in.Sparse && cost >= hurtSymbol || b.in.Screen && cost >= never {
		return false
	}
	b.free.box(at.X-0.2, at.Y-capTag-0.2, at.X+w+0.2, at.Y+0.2, hurtLabel)
	if out {
		b.leader(t, at, w)
	}
	b.letter(Item{Entity: t.entity, Text: t.text, Size: capTag, Style: Style{Fill: b.pal.Ink}}, at)
	if t.zone != "" {
		b.letter(Item{Entity: t.entity, Text: t.zone, Size: capTag, Bold: true, Style: Style{Fill: t.colour}}, XY{at.X + wt + 0.1, at.Y})
	}
	return true
}

// letter adds a text with halo on the label layer.
func (b *builder) letter(it Item, at XY) {
	p := b.pts(1)
	p[0] = at
	it.Kind, it.Layer, it.Points, it.Halo = Text, LayerLabels, p, true
	b.add(it)
}

// beside returns the baseline start of a text w wide beside a symbol, whether
// it lies in an outer ring, and what it hurts.
func (b *builder) beside(c XY, rx, up, down, w, h float64) (at XY, outer bool, cost int) {
	return b.around(c, rx, up, down, w, h, false)
}

// around is beside; far looks further out on a screen, too.
func (b *builder) around(c XY, rx, up, down, w, h float64, far bool) (at XY, outer bool, cost int) {
	cost = math.MaxInt
	gaps := []float64{0.8, 3.2, 6}
	if b.in.Screen { // dropped anyway when it gets that bad
		cost = never
		gaps = gaps[:2]
		if far {
			gaps = []float64{0.8, 3.2, 6, 9.5}
		}
	}
	if b.in.Sparse {
		gaps, cost = gaps[:1], hurtSymbol
	}
	for ring, gap := range gaps {
		l, r := c.X-rx-gap-w, c.X+rx+gap
		t, m, d := c.Y-up-gap, c.Y+h/2, c.Y+down+gap+h
		spots := [8]XY{{r, m}, {l, m}, {c.X - w/2, t}, {c.X - w/2, d},
			{r - 0.4, t + 0.4}, {r - 0.4, d - 0.4}, {l + 0.4, t + 0.4}, {l + 0.4, d - 0.4}}
		for n, p := range spots {
			base := n + 40*ring
			if base >= cost {
				break
			}
			if k := base + b.free.cost(p.X-0.3, p.Y-h-0.3, p.X+w+0.3, p.Y+0.3, cost-base); k < cost {
				at, outer, cost = p, ring > 0, k
			}
		}
	}
	return at, outer, cost
}

// leader draws a thin line from a far label to its symbol.
func (b *builder) leader(t *tag, at XY, w float64) {
	end := XY{min(max(t.at.X, at.X), at.X+w), at.Y - capTag/2}
	if end.X == t.at.X { // straight above or below
		end.Y = at.Y + 0.4
		if at.Y > t.at.Y {
			end.Y = at.Y - capTag - 0.4
		}
	}
	dx, dy := end.X-t.at.X, end.Y-t.at.Y
	d := math.Hypot(dx, dy)
	r := t.rx + 0.1
	if d <= r {
		return
	}
	p := b.pts(2)
	p[0], p[1] = XY{t.at.X + dx/d*r, t.at.Y + dy/d*r}, end
	b.add(Item{Kind: Polyline, Layer: LayerLabels, Entity: t.entity, Points: p, Style: Style{Stroke: b.pal.Soft, Width: fine}})
	b.free.stroke(p[0], p[1], hurtRun)
}

// cableLabel waits for a place along its run.
type cableLabel struct {
	entity string
	run    int // number in run order
	path   []XY
	colour Colour
	// full and name replace the label and the tag alone.
	full, name string
}

// labelRuns letters each run along its longest legs: tag, cable and cut
// length where that fits, else the tag alone.
func (b *builder) labelRuns() {
	bear := 50
	if b.in.Screen {
		bear = 24 // the tag can be read after zooming in, or in the lengths
	}
	for i := range b.cables {
		c := &b.cables[i]
		name := c.name
		if c.full == "" {
			name = b.in.Scheme.Runs.All()[c.run].Tag
		}
		w := TextWidth(name, capLabel, false)
		legs := b.longest(c.path, w+1.5)
		if len(legs) > 0 {
			if legs[0].length > 3*w && b.lie(c.entity, b.fullText(c), legs, c.colour, bear) {
				continue
			}
			if b.lie(c.entity, name, legs, c.colour, bear) {
				continue
			}
		}
		if name == "" {
			continue
		}
		p, outer, cost := b.beside(halfway(c.path), 0.4, 0.4, 0.4, w, capLabel)
		if b.in.Screen && (cost >= bear || outer) || cost >= 2*never {
			continue
		}
		b.free.box(p.X, p.Y-capLabel, p.X+w, p.Y, hurtLabel)
		b.letter(Item{Entity: c.entity, Text: name, Size: capLabel, Style: Style{Fill: c.colour}}, p)
	}
}

// fullText is the label of a run, or of what stands for it, in full.
func (b *builder) fullText(c *cableLabel) string {
	if c.full != "" {
		return c.full
	}
	return b.runText(c.run)
}

// runText returns "R3 · 3 × 1.5 mm² · 8.5 m" with what is known of it.
func (b *builder) runText(run int) string {
	r := b.in.Scheme.Runs.All()[run]
	text := r.Tag
	if c, ok := b.stock.stock.Cable(r.Cable); ok {
		size := b.sizes[c]
		if size == "" {
			size = cableText(c)
			b.sizes[c] = size
		}
		text += " · " + size
	} else if r.Cable != "" {
		text += " · " + r.Cable
	}
	if run < len(b.in.Lengths) && b.in.Lengths[run].Run == r.ID && b.in.Lengths[run].Cut > 0 {
		text += " · " + b.in.Lengths[run].Cut.String()
	}
	return text
}

// leg is a stretch of path that shows, for lettering along it.
type leg struct {
	a, b   XY
	length float64
}

// longest returns up to three longest visible legs, longest first.
func (b *builder) longest(path []XY, need float64) []leg {
	var top [3]leg
	n := 0
	for i := 1; i < len(path); i++ {
		if p, q := path[i-1], path[i]; math.Abs(p.X-q.X)+math.Abs(p.Y-q.Y) < need {
			continue
		}
		a, c, ok := clip(path[i-1], path[i], 0, 0, b.w, b.h)
		if !ok {
			continue
		}
		l := leg{a, c, math.Hypot(c.X-a.X, c.Y-a.Y)}
		if l.length < need {
			continue
		}
		j := min(n, 2)
		if n == 3 && top[2].length >= l.length {
			continue
		}
		for ; j > 0 && top[j-1].length < l.length; j-- {
			top[j] = top[j-1]
		}
		top[j] = l
		n = min(3, n+1)
	}
	return append([]leg(nil), top[:n]...)
}

// tail is what letters such as g reach below the baseline, in mm.
const tail = 0.4

// lie letters a text along one of the longest legs, over or under it, upright;
// it reports false when every place hurts more than limit.
func (b *builder) lie(entity, text string, legs []leg, c Colour, limit int) bool {
	if text == "" {
		return false
	}
	w := TextWidth(text, capLabel, false)
	best := limit
	var o, u XY
	for rank, l := range legs {
		dir := XY{(l.b.X - l.a.X) / l.length, (l.b.Y - l.a.Y) / l.length}
		start := l.a
		if dir.X < -1e-9 || math.Abs(dir.X) <= 1e-9 && dir.Y > 0 { // read from the left or from below
			dir, start = XY{-dir.X, -dir.Y}, l.b
		}
		v := XY{-dir.Y, dir.X} // down the letters
		for n, t := range [5]float64{0.5, 0.3, 0.7, 0.12, 0.88} {
			s := t*l.length - w/2
			if s < 0.5 || s+w > l.length-0.5 {
				continue
			}
			for side, off := range [2]float64{-1.2 - capLabel, 1.2} {
				base := 8*rank + 2*n + side
				p := XY{start.X + dir.X*s + v.X*off, start.Y + dir.Y*s + v.Y*off}
				if base >= best {
					continue
				}
				if k := base + b.free.costTurned(p, dir, v, w, capLabel+tail, best-base); k < best {
					best, o, u = k, p, dir
				}
			}
		}
	}
	if best >= limit {
		return false
	}
	v := XY{-u.Y, u.X}
	b.free.takeTurned(o, u, v, w, capLabel, hurtLabel)
	turn := math.Atan2(-u.Y, u.X) * 180 / math.Pi
	b.letter(Item{Entity: entity, Text: text, Size: capLabel, Turn: turn, Style: Style{Fill: c}},
		XY{o.X + v.X*capLabel, o.Y + v.Y*capLabel})
	return true
}

// nameLabel waits for a place in a ring, along a path or beside a point.
type nameLabel struct {
	entity, text string
	ring, path   []XY
	at           XY
	r            float64
}

// labelGround letters the names of areas, lines and marks where room is left;
// they are the first to go when it is crowded.
func (b *builder) labelGround() {
	bear := 60
	if b.in.Screen {
		bear = 20 // not over another line
	}
	for i := range b.names {
		n := &b.names[i]
		switch {
		case n.ring != nil:
			b.nameArea(n, b.names[i+1:])
		case n.path != nil:
			b.lie(n.entity, n.text, b.longest(n.path, TextWidth(n.text, capLabel, false)+1.5), b.pal.Soft, bear)
		default:
			w := TextWidth(n.text, capLabel, false)
			most := 100
			if b.in.Sparse {
				most = hurtSymbol
			}
			if at, outer, cost := b.beside(n.at, n.r, n.r, n.r, w, capLabel); cost < most && !outer {
				b.name(n, at, w)
			}
		}
	}
}

func (b *builder) name(n *nameLabel, at XY, w float64) {
	b.free.box(at.X, at.Y-capLabel, at.X+w, at.Y, hurtLabel)
	b.letter(Item{Entity: n.entity, Text: n.text, Size: capLabel, Style: Style{Fill: b.pal.Soft}}, at)
}

// nameArea letters an area at its middle or at the free place nearest to it,
// not where an area drawn later covers it.
func (b *builder) nameArea(n *nameLabel, later []nameLabel) {
	w := TextWidth(n.text, capLabel, false)
	lo, hi := bounds(n.ring)
	lo, hi = XY{max(lo.X, 0), max(lo.Y, 0)}, XY{min(hi.X, b.w), min(hi.Y, b.h)}
	c := middle(n.ring)
	const steps, bad = 9, 60
	type place struct {
		at   XY
		away float64
	}
	places := []place{{c, 0}}
	for i := 1; i < steps; i++ {
		for j := 1; j < steps; j++ {
			p := XY{lo.X + (hi.X-lo.X)*float64(i)/steps, lo.Y + (hi.Y-lo.Y)*float64(j)/steps}
			places = append(places, place{p, math.Hypot(p.X-c.X, p.Y-c.Y)})
		}
	}
	sort.SliceStable(places, func(i, j int) bool { return places[i].away < places[j].away })
	best, at := bad+underTree, XY{}
	for _, p := range places {
		x, y := p.at.X-w/2, p.at.Y+capLabel/2
		if !shown(n, later, XY{x - 0.8, y - capLabel - 0.6}, XY{x + w + 0.8, y + 0.6}) {
			continue
		}
		k := b.free.cost(x-1, y-capLabel-0.7, x+w+1, y+0.7, min(best, bad))
		if k >= bad {
			continue
		}
		if k += b.underCrown(XY{x, y - capLabel}, XY{x + w, y}); k < best {
			best, at = k, XY{x, y}
		}
		if best == 0 {
			break
		}
	}
	if best < bad+underTree {
		b.name(n, at, w)
	}
}

// underTree is what it hurts to name an area within the circle of a tree; where
// nothing else is free the name stands there.
const underTree = 20

// underCrown returns underTree within the circle of a tree, else 0.
func (b *builder) underCrown(lo, hi XY) int {
	for _, c := range b.crowns {
		x, y := c.at.X-min(max(c.at.X, lo.X), hi.X), c.at.Y-min(max(c.at.Y, lo.Y), hi.Y)
		if math.Hypot(x, y) < c.r+0.8 {
			return underTree
		}
	}
	return 0
}

// shown reports whether a rectangle lies in the area and under none that is
// drawn later, by its corners and its middle.
func shown(n *nameLabel, later []nameLabel, lo, hi XY) bool {
	for _, p := range [5]XY{lo, hi, {lo.X, hi.Y}, {hi.X, lo.Y}, {(lo.X + hi.X) / 2, (lo.Y + hi.Y) / 2}} {
		if !inside(p, n.ring) {
			return false
		}
		for i := range later {
			if later[i].ring != nil && inside(p, later[i].ring) {
				return false
			}
		}
	}
	return true
}
