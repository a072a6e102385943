package light

import (
	"fmt"
	"math"
	"sort"

	q "duskwire/calc/quantity"
)

// Grid is a rectangle of the plan in square cells at one height, looked at from
// above. Cell x, y has its middle at X0+(x+½)·Step, Y0+(y+½)·Step.
type Grid struct {
	X0, Y0, Step float64
	W, H         int
	Z            float64
}

// Middle returns the middle of a cell.
func (g Grid) Middle(x, y int) Vec {
	return Vec{g.X0 + (float64(x)+0.5)*g.Step, g.Y0 + (float64(y)+0.5)*g.Step, g.Z}
}

const (
	// Block is the edge of the squares of cells that are taken or left together;
	// a band is one row of them.
	Block = 16
	// LeftOut is the most that all lamps together may lack in a cell because
	// faint ones were left out, in lux.
	LeftOut = 0.05
	// unit is what illuminance is counted in: 2^-20 lx. Whole units make sums the
	// same in any order, so that moving a lamp to and fro leaves nothing behind.
	unit      = 1.0 / (1 << 20)
	brightest = 1e9 // lx; more is held
)

// Sheet is the illuminance on a horizontal rectangle of the plan, or on level pieces
// of it at heights of their own, one layer a white. Lamps are left out of squares
// where each gives at most LeftOut divided by the number of lamps; else the sum is
// that of Scene.At to within 1e-6 of the value and a unit a lamp.
type Sheet struct {
	scene  *Scene
	grid   Grid
	layers []*layer
	faint  float64 // lx, of one lamp
	moved  moved
	relief Relief
	steps  [][]uint8   // of relief
	kept   [][][]patch // what each lamp gives in each band; nil: it is not remembered
}

// moved is the lamp that was exchanged last and its light alone, so that the
// next step of a drag need not work out again what it takes off.
type moved struct {
	lamp  int
	units []int64 // nil for none
}

// layer is the light of one white, row after row, in units.
type layer struct {
	white q.Kelvin
	units []int64
}

// NewSheet returns an empty sheet; Fill or all bands make it whole.
func NewSheet(scene *Scene, grid Grid) (*Sheet, error) { return NewSheetOn(scene, grid, Relief{}) }

// NewSheetOn is NewSheet on ground of several heights.
func NewSheetOn(scene *Scene, grid Grid, relief Relief) (*Sheet, error) {
	const most = 1 << 24
	if grid.W < 1 || grid.H < 1 || grid.W > most || grid.H > most || grid.W*grid.H > most {
		return nil, fmt.Errorf("grid: found %d x %d cells, expected 1 to %d in all", grid.W, grid.H, most)
	}
	if !(grid.Step > 0) || math.IsInf(grid.Step, 0) || math.IsNaN(grid.X0+grid.Y0+grid.Z) || math.IsInf(grid.X0+grid.Y0+grid.Z, 0) {
		return nil, fmt.Errorf("grid: found cells of %g m at %g, %g, %g, expected more than 0", grid.Step, grid.X0, grid.Y0, grid.Z)
	}
	if err := relief.check(grid); err != nil {
		return nil, err
	}
	s := &Sheet{scene: scene, grid: grid, faint: LeftOut / float64(max(len(scene.lamps), 1)), relief: relief, steps: relief.steps(grid)}
	for i := range scene.lamps {
		s.layer(scene.lamps[i].White)
	}
	return s, nil
}

// layer returns the layer of a white, a new one if need be; layers stay sorted.
func (s *Sheet) layer(white q.Kelvin) *layer {
	i := sort.Search(len(s.layers), func(i int) bool { return s.layers[i].white >= white })
	if i < len(s.layers) && s.layers[i].white == white {
		return s.layers[i]
	}
	l := &layer{white, make([]int64, s.grid.W*s.grid.H)}
	s.layers = append(s.layers, nil)
	copy(s.layers[i+1:], s.layers[i:])
	s.layers[i] = l
	return l
}

// Grid returns the rectangle.
func (s *Sheet) Grid() Grid { return s.grid }

// Scene returns the scene that the sheet shows.
func (s *Sheet) Scene() *Scene { return s.scene }

// Bands returns how many bands there are.
func (s *Sheet) Bands() int { return (s.grid.H + Block - 1) / Block }

// Band works out one band anew. Bands do not touch each other's cells: they may
// be worked out side by side.
func (s *Sheet) Band(b int) {
	from, to := b*Block*s.grid.W, min((b+1)*Block, s.grid.H)*s.grid.W
	for _, l := range s.layers {
		clear(l.units[from:to])
	}
	for i := range s.scene.lamps {
		p := &s.scene.lamps[i]
		if out := s.layer(p.White).units; s.kept != nil {
			s.keep(i, p, b, out)
		} else {
			s.add(p, b, out, nil)
		}
	}
}

// Fill works out the whole sheet.
func (s *Sheet) Fill() {
	for b := 0; b < s.Bands(); b++ {
		s.Band(b)
	}
}

// Hold works out the light of lamp i alone, so that the Exchange that follows
// costs half: for the start of a gesture. A sheet that keeps has done so.
func (s *Sheet) Hold(i int) {
	if m := &s.moved; s.kept == nil && (m.units == nil || m.lamp != i) {
		s.moved = moved{lamp: i, units: make([]int64, s.grid.W*s.grid.H)}
		s.all(&s.scene.lamps[i], m.units)
	}
}

// Exchange puts lamp i elsewhere or makes it another: what the old one gave is
// taken off and the new one's light added. The result is that of a whole new
// sheet, unit for unit.
func (s *Sheet) Exchange(i int, to Lamp) error {
	next, err := s.scene.With(i, to)
	if err != nil {
		return err
	}
	old, made := &s.scene.lamps[i], &next.lamps[i]
	from, into := s.layer(old.White).units, s.layer(made.White).units
	if s.kept != nil {
		s.takeOff(i, from)
		for b := range s.Bands() {
			s.keep(i, made, b, into)
		}
		s.scene = next
		return nil
	}
	s.Hold(i)
	m := &s.moved
	for k, u := range m.units {
		from[k] -= u
	}
	clear(m.units)
	s.all(made, m.units)
	for k, u := range m.units {
		into[k] += u
	}
	s.scene = next
	return nil
}

// all puts the light of one lamp into out.
func (s *Sheet) all(p *placed, out []int64) {
	for b := 0; b < s.Bands(); b++ {
		s.add(p, b, out, nil)
	}
}

// Lux returns the illuminance of a cell.
func (s *Sheet) Lux(x, y int) q.Lux {
	var sum int64
	for _, l := range s.layers {
		sum += l.units[y*s.grid.W+x]
	}
	return q.Lux(float64(sum) * unit)
}

// All returns the illuminance of all cells in lux, row after row.
func (s *Sheet) All() []float64 {
	out := make([]float64, s.grid.W*s.grid.H)
	for _, l := range s.layers {
		for i, u := range l.units {
			out[i] += float64(u) * unit
		}
	}
	return out
}

// add puts the light of one lamp into a band of out, and into keep unless that is nil.
func (s *Sheet) add(p *placed, b int, out []int64, keep *[]patch) {
	if p.scale == 0 {
		return
	}
	y0, y1 := b*Block, min((b+1)*Block, s.grid.H)
	for x0 := 0; x0 < s.grid.W; x0 += Block {
		t := square{x0: x0, x1: min(x0+Block, s.grid.W), y0: y0, y1: y1, z: s.grid.Z, whole: true}
		if s.relief.level() {
			s.put(p, &t, out, keep)
			continue
		}
		kinds := s.steps[b*((s.grid.W+Block-1)/Block)+x0/Block]
		for _, k := range kinds {
			t.kind, t.z, t.whole = k, s.relief.Z[k], len(kinds) == 1
			s.put(p, &t, out, keep)
		}
	}
}

// put puts the light of one lamp into a square of out, and into keep unless that is
// nil.
func (s *Sheet) put(p *placed, t *square, out []int64, keep *[]patch) {
	t.bounds(s.grid)
	if s.dark(p, t) {
		return
	}
	if keep == nil {
		s.light(p, t, out)
		return
	}
	var was before
	was.take(t, out, s.grid.W)
	s.light(p, t, out)
	if got, any := was.since(t, out, s.grid.W); any {
		*keep = append(*keep, got)
	}
}

// light puts the light of a lamp that is not too faint into a square of out.
func (s *Sheet) light(p *placed, t *square, out []int64) {
	ways := s.between(p, t)
	switch {
	case len(ways) > 0 || !t.whole || p.size > 0 && t.dist(p.At)-p.size < fiveTimes*p.size:
		s.slow(p, t, ways, out)
	default:
		s.quick(p, t, out)
	}
}

// square is a block of cells at one height z; unless it is whole those of another
// kind in the relief are left out.
type square struct {
	x0, x1, y0, y1 int
	z              float64
	kind           uint8
	whole          bool
	low, high      Spot // outermost middles
	mid            Vec
	radius         float64
}

func (t *square) bounds(g Grid) {
	a, b := g.Middle(t.x0, t.y0), g.Middle(t.x1-1, t.y1-1)
	a.Z, b.Z = t.z, t.z
	t.low, t.high = Spot{a.X, a.Y}, Spot{b.X, b.Y}
	t.mid = a.Add(b).Mul(0.5)
	t.radius = b.Sub(a).Len() / 2
}

// dist returns the least distance from p to the square.
func (t *square) dist(p Vec) float64 {
	out := func(v, low, high float64) float64 { return math.Max(math.Max(low-v, v-high), 0) }
	return Vec{out(p.X, t.low.X, t.high.X), out(p.Y, t.low.Y, t.high.Y), p.Z - t.mid.Z}.Len()
}

// dark reports whether the lamp gives the square at most the faint share, by a
// bound: greatest intensity at any angle from the axis that the square can have,
// greatest cosine, least distance.
func (s *Sheet) dark(p *placed, t *square) bool {
	reach := p.size / 2 * math.Sqrt(3) // from the centre to a corner of the opening
	h := p.At.Z - t.mid.Z + reach
	if h <= 0 {
		return true
	}
	v := t.mid.Sub(p.At)
	d := v.Len()
	angle := 0.0
	if wide := t.radius + reach; d > wide*1.001 {
		angle = math.Max((math.Acos(math.Max(-1, math.Min(1, -p.r.z.Dot(v)/d)))-math.Asin(wide/d))*perRad, 0)
	}
	near := math.Max(t.dist(p.At)-reach, closest)
	return p.scale*p.Dist.beyond(angle)*math.Min(h/near, 1)/sq(near) <= s.faint
}

// between returns the blockers that may stand between lamp and square.
func (s *Sheet) between(p *placed, t *square) []blocker {
	var out []blocker
	reach := p.size / 2 * math.Sqrt(3)
	low := Spot{math.Min(p.At.X-reach, t.low.X), math.Min(p.At.Y-reach, t.low.Y)}
	high := Spot{math.Max(p.At.X+reach, t.high.X), math.Max(p.At.Y+reach, t.high.Y)}
	for i := range s.scene.blockers {
		b := &s.scene.blockers[i]
		if b.misses(low, high) || b.Base > math.Max(p.At.Z+reach, t.mid.Z) || b.Top < t.mid.Z || b.beside(p.At, t, reach) {
			continue
		}
		out = append(out, *b)
	}
	return out
}

// beside reports whether the whole outline lies on one side of the strip
// between lamp and square.
func (b *blocker) beside(at Vec, t *square, reach float64) bool {
	dx, dy := t.mid.X-at.X, t.mid.Y-at.Y
	d := math.Hypot(dx, dy)
	if d == 0 {
		return false
	}
	least, most := math.Inf(1), math.Inf(-1)
	for _, c := range b.Outline {
		across := ((c.X-at.X)*dy - (c.Y-at.Y)*dx) / d
		least, most = math.Min(least, across), math.Max(most, across)
	}
	half := math.Max(t.radius, reach)
	return least > half || most < -half
}

// counted returns an illuminance in units.
func counted(lux float64) int64 {
	if lux > brightest {
		lux = brightest
	}
	return int64(lux*(1/unit) + 0.5)
}

// slow takes each cell as a point, with blockers and parts.
func (s *Sheet) slow(p *placed, t *square, ways []blocker, out []int64) {
	for y := t.y0; y < t.y1; y++ {
		for x := t.x0; x < t.x1; x++ {
			at := y*s.grid.W + x
			if !t.whole && s.relief.Kind[at] != t.kind {
				continue
			}
			m := s.grid.Middle(x, y)
			m.Z = t.z
			out[at] += counted(s.scene.lux(p, m, Up, ways))
		}
	}
}

// quick is the point formula on a horizontal plane, E = I·h/d³, spelt out row by
// row: it is where the time goes.
func (s *Sheet) quick(p *placed, t *square, out []int64) {
	g := s.grid
	from := p.heart
	h := from.Z - t.z
	if h <= 0 {
		return
	}
	hh, scale := h*h, p.scale*h
	round := p.Dist.Rotational()
	for y := t.y0; y < t.y1; y++ {
		dy := g.Y0 + (float64(y)+0.5)*g.Step - from.Y
		row := out[y*g.W+t.x0 : y*g.W+t.x1]
		rest := dy*dy + hh
		axis := p.r.z.Y*dy - p.r.z.Z*h
		ex, ey := p.r.x.Y*dy-p.r.x.Z*h, p.r.y.Y*dy-p.r.y.Z*h
		for i := range row {
			dx := g.X0 + (float64(t.x0+i)+0.5)*g.Step - from.X
			inv := 1 / math.Sqrt(dx*dx+rest)
			gamma := acos(-(p.r.z.X*dx+axis)*inv) * perRad
			c := 0.0
			if !round {
				c = atan2(p.r.y.X*dx+ey, p.r.x.X*dx+ex) * perRad
			}
			// Below closest the distance is held, the direction is not.
			held := inv
			if held > 1/closest {
				held = 1 / closest
			}
			e := scale * inv * p.Dist.at(c, gamma) * held * held
			row[i] += counted(e)
		}
	}
}
