package scene

import (
	"math"

	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/calc/network"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// digLook is what the plan is drawn from when it shows the digging.
type digLook struct {
	site     check.SiteLimits
	edges    [3]geom.Length // depths that part the classes of runs
	profiles map[doc.ID]*derive.Profile
}

// Depths that part the classes where no rule set says: in trade use (common
// practice, no source).
var usualDepths = [3]geom.Length{450 * geom.Millimetre, 500 * geom.Millimetre, 600 * geom.Millimetre}

// newDig prepares the look; nil for any other.
func newDig(in *Input) *digLook {
	if in.Look != LookDig {
		return nil
	}
	d := &digLook{edges: usualDepths, profiles: map[doc.ID]*derive.Profile{}}
	if in.Circuits != nil && in.Circuits.Rules() != nil {
		d.site = in.Circuits.Rules().Site
		for i, l := range [3]check.Limit{d.site.DepthLeast, d.site.DepthAdvised, d.site.DepthWorked} {
			if l.Value > 0 {
				d.edges[i] = geom.Metres(l.Value)
			}
		}
	}
	return d
}

// depthClass is how deep a leg lies.
type depthClass int

const (
	notBuried depthClass = iota
	depthUnsaid
	shallow // less than the least
	least
	advised
	worked // as deep as for dug ground, or deeper
	ducted
	depthClasses
)

func (d *digLook) class(l doc.Leg) depthClass {
	switch {
	case l.Support == network.InDuct && l.Depth > 0:
		return ducted
	case l.Support != network.Buried:
		return notBuried
	case l.Depth == 0:
		return depthUnsaid
	case l.Depth < d.edges[0]:
		return shallow
	case l.Depth < d.edges[1]:
		return least
	case l.Depth < d.edges[2]:
		return advised
	}
	return worked
}

// words names a class in the legend.
func (d *digLook) words(c depthClass) string {
	w := func(i int) string { return doc.Written(d.edges[i]) }
	switch c {
	case notBuried:
		return "Not buried"
	case depthUnsaid:
		return "Buried, depth not given"
	case shallow:
		return "Less than " + w(0) + " deep"
	case least:
		return w(0) + " to less than " + w(1)
	case advised:
		return w(1) + " to less than " + w(2)
	case worked:
		return w(2) + " or deeper"
	}
	return "In duct below ground"
}

// depthLine is the line of each class: the deeper, the fuller.
var depthLine = [depthClasses]Style{
	notBuried:   {Width: thin, Dash: []float64{0.5, 1.1}},
	depthUnsaid: {Width: bold, Dash: []float64{0.4, 1.6}},
	shallow:     {Width: bold, Dash: []float64{1.6, 1.6}},
	least:       {Width: bold, Dash: []float64{4, 1.2}},
	advised:     {Width: bold, Dash: []float64{5, 0.9, 0.9, 0.9}},
	worked:      {Width: heavy},
	ducted:      {Width: medium},
}

// legText is the label of a leg.
func (d *digLook) legText(l doc.Leg) string {
	switch d.class(l) {
	case notBuried:
		return ""
	case depthUnsaid:
		return "depth ?"
	case ducted:
		return "duct " + doc.Written(l.Depth)
	}
	return doc.Written(l.Depth)
}

// depthLines draws one leg by its class: duct as two rails.
func (b *builder) depthLines(id string, a, c XY, class depthClass, colour Colour) {
	st := depthLine[class]
	st.Stroke = colour
	if class != ducted {
		b.add(Item{Kind: Polyline, Layer: LayerRuns, Entity: id, Points: b.keep([]XY{a, c}), Style: st})
		return
	}
	n := math.Hypot(c.X-a.X, c.Y-a.Y)
	if n == 0 {
		return
	}
	v := XY{-(c.Y - a.Y) / n * 0.6, (c.X - a.X) / n * 0.6}
	b.add(Item{Kind: Segments, Layer: LayerRuns, Entity: id, Style: st,
		Points: b.keep([]XY{{a.X + v.X, a.Y + v.Y}, {c.X + v.X, c.Y + v.Y}, {a.X - v.X, a.Y - v.Y}, {c.X - v.X, c.Y - v.Y}})})
}

// digRun draws a run leg by leg by its depth.
func (b *builder) digRun(i int, r *doc.Run, path []XY, sys system) {
	id, colour := string(r.ID), runStyle(b.pal, sys).Stroke
	for n, l := range r.Legs {
		a, c := path[n], path[n+1]
		b.depthLines(id, a, c, b.dig.class(l), colour)
		b.free.stroke(a, c, hurtRun)
		if sys == extra {
			b.extraMarks(id, a, c, colour)
		}
		if text := b.dig.legText(l); text != "" {
			b.cables = append(b.cables, cableLabel{entity: id, run: i, path: path[n : n+2], colour: colour, full: r.Tag + " · " + text, name: text})
		}
	}
	if dots := b.vertices(path); len(dots) > 0 {
		b.add(Item{Kind: Segments, Layer: LayerRuns, Entity: id, Points: dots, Style: Style{Stroke: colour, Width: 0.95}})
	}
	b.serviceMarks(id, r, path)
}

// Strokes across extra-low-voltage legs: how far apart, half their reach along and
// across the leg, and the shortest leg that has one, mm on paper. The dashes of a
// leg tell its depth here, so colour alone would part the voltages, and a print in
// black and white would not.
const (
	extraStep   = 7.0
	extraAlong  = 0.6
	extraAcross = 1.2
	extraLeast  = 3.0
)

// extraMarks puts slanted strokes across a leg at extra-low voltage.
func (b *builder) extraMarks(id string, a, c XY, colour Colour) {
	d := math.Hypot(c.X-a.X, c.Y-a.Y)
	if d < extraLeast {
		return
	}
	u := XY{(c.X - a.X) / d, (c.Y - a.Y) / d}
	n := max(1, int(d/extraStep))
	out := b.pts(2 * n)[:0]
	for i := range n {
		t := (float64(i) + 0.5) / float64(n) * d
		p := XY{a.X + u.X*t, a.Y + u.Y*t}
		if p.X < -1 || p.Y < -1 || p.X > b.w+1 || p.Y > b.h+1 {
			continue
		}
		v := XY{u.X*extraAlong - u.Y*extraAcross, u.Y*extraAlong + u.X*extraAcross}
		from, to := XY{p.X - v.X, p.Y - v.Y}, XY{p.X + v.X, p.Y + v.Y}
		out = append(out, from, to)
		b.free.stroke(from, to, 3*hurtRun)
	}
	if len(out) > 0 {
		b.add(Item{Kind: Segments, Layer: LayerRuns, Entity: id, Points: out, Style: Style{Stroke: colour, Width: medium}})
	}
}

// serviceMarks puts an open diamond where a dug leg crosses a buried service.
func (b *builder) serviceMarks(id string, r *doc.Run, path []XY) {
	for _, l := range b.in.Scheme.Lines.All() {
		if l.Kind != "buried service" {
			continue
		}
		for n, leg := range r.Legs {
			if c := b.dig.class(leg); c == notBuried || !b.seesBox(path[n:n+2], 0) {
				continue
			}
			for k := 1; k < len(l.Path); k++ {
				if at, ok := crossing(path[n], path[n+1], b.at(l.Path[k-1]), b.at(l.Path[k])); ok {
					b.add(serviceMark(at, b.pal, id))
				}
			}
		}
	}
}

func serviceMark(at XY, p *Palette, id string) Item {
	const r = 1.3
	return Item{Kind: Polygon, Layer: LayerFinding, Entity: id, Points: []XY{{at.X, at.Y - r}, {at.X + r, at.Y}, {at.X, at.Y + r}, {at.X - r, at.Y}},
		Style: Style{Stroke: p.Service, Width: bold, Fill: p.Paper}}
}

// crossing returns where two segments cross.
func crossing(a, b, c, d XY) (XY, bool) {
	n := (b.X-a.X)*(d.Y-c.Y) - (b.Y-a.Y)*(d.X-c.X)
	if n == 0 {
		return XY{}, false
	}
	t := ((c.X-a.X)*(d.Y-c.Y) - (c.Y-a.Y)*(d.X-c.X)) / n
	u := ((c.X-a.X)*(b.Y-a.Y) - (c.Y-a.Y)*(b.X-a.X)) / n
	if t < 0 || t > 1 || u < 0 || u > 1 {
		return XY{}, false
	}
	return XY{a.X + t*(b.X-a.X), a.Y + t*(b.Y-a.Y)}, true
}

// ring draws a circle of strokes, so that it can be dashed.
func (b *builder) ring(id string, at XY, r float64, st Style) {
	if !b.seesBox([]XY{at}, r) {
		return
	}
	ps := b.pts(min(96, max(24, int(r*3))))
	for i := range ps {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(len(ps)))
		ps[i] = XY{at.X + r*cos, at.Y + r*sin}
	}
	b.add(Item{Kind: Polygon, Layer: LayerLines, Entity: id, Points: ps, Style: st})
	b.crowns = append(b.crowns, round{at, r})
}

// trees draws about each tree where nothing is dug and where it is done by hand.
func (b *builder) trees() {
	for _, m := range b.in.Scheme.Marks.All() {
		if m.Kind != "tree" || b.in.skips(m.ID) {
			continue
		}
		id, at := string(m.ID), b.at(m.Place.At)
		clear := m.Radius + geom.Metres(b.dig.site.RootClear.Value)
		if clear > m.Radius {
			b.ring(id, at, float64(clear)*b.k, b.noDig())
		}
		if zone, known := derive.HandZone(m, &b.dig.site); known && zone > clear {
			b.ring(id, at, float64(zone)*b.k, b.byHand())
		}
	}
}

func (b *builder) noDig() Style { return Style{Stroke: b.pal.Planting, Width: bold} }
func (b *builder) byHand() Style {
	return Style{Stroke: b.pal.Planting, Width: medium, Dash: []float64{2.4, 1.2}}
}

// digClashes marks the findings about digging where they are: a ring with a
// cross on the run, and the mark of the level with its code beside it. A Note
// has no cross.
func (b *builder) digClashes() {
	profile := func(id doc.ID) *derive.Profile {
		p, ok := b.dig.profiles[id]
		if !ok {
			p, _ = derive.Unroll(b.in.Scheme, id, nil)
			b.dig.profiles[id] = p
		}
		return p
	}
	for _, c := range clashes(b.in.Scheme, b.in.Findings, profile) {
		at := b.at(b.dig.profiles[c.run].At(c.leg, c.along))
		if !b.sees(at) || b.in.skips(c.run) {
			continue
		}
		id := string(c.run)
		for _, it := range clashMark(at, c.f.Level, c.f.Overruled != nil, b.pal) {
			it.Entity = id
			b.add(it)
		}
		b.free.box(at.X-1.5, at.Y-1.5, at.X+1.5, at.Y+1.5, hurtSymbol)
		code := string(c.f.Code)
		w := 2*badgeRadius + 0.5 + TextWidth(code, capLabel, true)
		p, far, _ := b.beside(at, 1.6, 1.6, 1.6, w, 2*badgeRadius)
		if p == (XY{}) { // no room on a screen: it can be zoomed in
			continue
		}
		if far {
			b.leader(&tag{entity: id, at: at, rx: 1.6}, XY{p.X, p.Y - badgeRadius + capTag/2}, w)
		}
		for _, it := range Badge(c.f.Level, c.f.Overruled != nil, XY{p.X + badgeRadius, p.Y - badgeRadius}, b.pal) {
			it.Entity = id
			b.add(it)
		}
		b.free.box(p.X, p.Y-2*badgeRadius, p.X+w, p.Y, hurtLabel)
		if b.in.shows(LayerLabels) {
			b.letter(Item{Entity: id, Text: code, Size: capLabel, Bold: true, Style: Style{Fill: b.pal.Ink}},
				XY{p.X + 2*badgeRadius + 0.5, p.Y - badgeRadius + capLabel/2})
		}
	}
}

// clashMark is what lies on the run at a finding.
func clashMark(at XY, l finding.Level, overruled bool, p *Palette) []Item {
	colour := map[finding.Level]Colour{finding.Stop: p.Stop, finding.Decide: p.Decide, finding.Note: p.Note}[l]
	ring := Item{Kind: Circle, Layer: LayerFinding, Points: []XY{at}, Size: 1.4, Style: Style{Stroke: colour, Width: bold}}
	if l == finding.Note || overruled {
		return []Item{ring}
	}
	const d = 0.99
	return []Item{ring, {Kind: Segments, Layer: LayerFinding, Style: Style{Stroke: colour, Width: bold},
		Points: []XY{{at.X - d, at.Y - d}, {at.X + d, at.Y + d}, {at.X - d, at.Y + d}, {at.X + d, at.Y - d}}}}
}
