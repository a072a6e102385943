package scene

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// Line weights in millimetres, after the series of ISO 128.
const (
	fine   = 0.18
	thin   = 0.25
	medium = 0.35
	bold   = 0.50
	heavy  = 0.70
)

// Cap heights in millimetres; nothing on paper is lettered smaller than 1.8.
const (
	capTag   = 2.0
	capLabel = 1.8
)

// Build returns the plan as a display list for a drawing area of width by
// height millimetres, back to front. It depends on nothing but its arguments:
// the same input gives the same list.
func Build(in Input, view View, width, height float64) *List {
	b := newBuilder(in, view, width, height)
	b.roomy()
	s := in.Scheme
	if in.shows(LayerPicture) {
		b.picture()
	}
	if in.shows(LayerGrid) {
		b.grid()
	}
	if in.shows(LayerGround) {
		for _, a := range s.Areas.All() {
			b.area(a)
		}
		for _, r := range b.walls { // over the grounds that adjoin
			b.add(r)
		}
	}
	if in.shows(LayerLines) {
		for _, l := range s.Lines.All() {
			b.drawLine(l)
		}
		for _, m := range s.Marks.All() {
			b.mark(m)
		}
	}
	if b.dig != nil && in.shows(LayerLines) {
		b.trees()
	}
	b.zoneAreas()
	if in.shows(LayerRuns) {
		b.runs()
	}
	var figures []figure
	if in.shows(LayerDimensions) {
		figures = b.dimensions() // lines under the symbols, figures over them
	}
	if in.shows(LayerPoints) {
		b.points()
		b.locks()
	}
	b.letterFigures(figures)
	if in.shows(LayerLabels) {
		b.placeTags()
	}
	if in.shows(LayerFinding) {
		b.badges()
		if b.dig != nil {
			b.digClashes()
		}
	}
	if in.shows(LayerLabels) {
		b.labelRuns()
		b.labelGround()
	}
	if in.Look == LookDusk {
		b.cased()
	}
	return b.list
}

// builder carries one Build from step to step.
type builder struct {
	in    Input
	pal   *Palette
	view  View
	w, h  float64
	k     float64 // paper mm per plan µm
	list  *List
	arena []XY
	free  *field
	stock index

	worst  map[string]finding.Level // level per subject, open findings first
	closed map[string]bool          // all findings of the worst level are overruled
	spots  []spot                   // where subjects stand
	tags   []tag
	cables []cableLabel
	sizes  map[*network.Cable]string // short names of cables
	walls  []Item                    // outlines of buildings
	names  []nameLabel
	crowns []round // circles about trees
	scans  []float64
	levels levels
	looks  *along   // figures of the look, nil for the plain plan
	dig    *digLook // nil for any other look
	rings  zoneShapes
	unsure map[string]bool // lamps whose light is not known, see doubts
}

func newBuilder(in Input, view View, width, height float64) *builder {
	pal := in.Palette
	if pal == nil {
		pal = Light()
	}
	b := &builder{in: in, pal: pal, view: view, w: width, h: height,
		k:    1 / (float64(geom.Millimetre) * view.Denominator),
		free: newField(width, height), stock: newIndex(in.Stock), sizes: map[*network.Cable]string{}}
	b.list = &List{Width: width, Height: height, Background: pal.Paper, View: view}
	b.rank()
	b.looks = newAlong(&b.in)
	b.dig, b.rings = newDig(&b.in), zoneShapes{}
	return b
}

// roomy makes room for what the plan of a scheme takes, all at once.
func (b *builder) roomy() {
	s := b.in.Scheme
	points := s.Lamps.Len() + s.Boxes.Len() + s.Gear.Len() + s.Sources.Len() + s.Supplies.Len()
	b.list.Items = make([]Item, 0, 64+6*points+4*s.Runs.Len()+6*s.Areas.Len()+4*s.Lines.Len())
}

// add appends one item.
func (b *builder) add(it Item) { b.list.Items = append(b.list.Items, it) }

// pts returns room for n points that belongs to the list.
func (b *builder) pts(n int) []XY {
	if len(b.arena) < n {
		b.arena = make([]XY, max(n, 4096))
	}
	p := b.arena[:n:n]
	b.arena = b.arena[n:]
	return p
}

// keep copies points into room of the list.
func (b *builder) keep(ps []XY) []XY {
	p := b.pts(len(ps))
	copy(p, ps)
	return p
}

// at returns the place on paper of a plan point.
func (b *builder) at(p geom.Point) XY {
	return XY{float64(p.X-b.view.Origin.X) * b.k, -float64(p.Y-b.view.Origin.Y) * b.k}
}

// sees reports whether a point symbol at p may show.
func (b *builder) sees(p XY) bool {
	const reach = 8 // largest symbol with its tag
	return p.X > -reach && p.Y > -reach && p.X < b.w+reach && p.Y < b.h+reach
}

// seesBox reports whether the box of the points, grown by d, meets the sheet.
func (b *builder) seesBox(ps []XY, d float64) bool {
	if len(ps) == 0 {
		return false
	}
	lo, hi := bounds(ps)
	return hi.X > -d && hi.Y > -d && lo.X < b.w+d && lo.Y < b.h+d
}

func bounds(ps []XY) (lo, hi XY) {
	lo, hi = ps[0], ps[0]
	for _, p := range ps[1:] {
		lo.X, lo.Y = min(lo.X, p.X), min(lo.Y, p.Y)
		hi.X, hi.Y = max(hi.X, p.X), max(hi.Y, p.Y)
	}
	return lo, hi
}

// index finds stock items by key without the cost of a list search for each
// of a thousand lamps.
type index struct {
	stock *doc.Stock
	lamps map[string]*doc.LampStock
}

func newIndex(s *doc.Stock) index {
	if s == nil {
		s = &doc.Stock{}
	}
	i := index{s, make(map[string]*doc.LampStock, len(s.Lamps))}
	for n := range s.Lamps {
		if l := &s.Lamps[n]; i.lamps[l.Key] == nil {
			i.lamps[l.Key] = l
		}
	}
	return i
}

// extraLow is the highest nominal voltage drawn as extra-low, volts: the a.c.
// limit of BS 7671 Part 2 "voltage, nominal" (from memory).
const extraLow = 50
