package layout

import (
	"fmt"
	"math"

	"duskwire/calc"
	"duskwire/calc/light"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// Night is the light of a frame: every lamp with the output that its volts
// leave it, and what stands in the way. Metres, x to the right and y up the
// sheet, z above ground, which is taken to be level.
type Night struct {
	Scene *light.Scene
	Lamps []*doc.Lamp // as the scene numbers them
	// Files are the photometric files that the light of the lamps comes from, nil
	// for a model of lumens and beam.
	Files []*Light
	// Solid is what of the scheme stands in the way: buildings, walls, fences and
	// crowns of trees.
	Solid []doc.Entity
	// Maintenance is the factor on all figures.
	Maintenance float64
	// Assumed says what the scheme leaves open and what was taken instead.
	Assumed []string
}

const (
	// maintained is the usual factor for age and dirt (common practice).
	maintained = 0.8
	// Heights taken for what has none, metres (common practice, no source).
	tallBuilding, tallWall = 5.0, 1.8
)

// Nights makes the light of one frame after the other and keeps the tables of
// intensity, which lamps of a kind share. Not for two goroutines at once.
type Nights struct {
	tables map[beamKey]*light.Distribution
}

// beamKey is what a table depends on: a model, where beam 0 shines the same to
// all sides, or the table of a file brought to another flux.
type beamKey struct {
	flux q.Lumen
	beam float64
	of   *light.Distribution
}

// mostTables is the number of tables from which they are made anew.
const mostTables = 1000

// NightOf returns the light of a frame. Without a beam angle a lamp shines the
// same to all sides; one that is not aimed looks up from the ground and down
// from anywhere else; one whose light at its volts is not known counts as full.
// Each is said in Assumed, as is what can not be drawn.
func NightOf(f *Frame) (*Night, error) { return new(Nights).Of(f) }

// Of is NightOf with the tables of the frames before.
func (m *Nights) Of(f *Frame) (*Night, error) {
	n := &Night{Maintenance: maintained}
	share := shares(f.Results)
	gaps := newGaps()
	var lamps []light.Lamp
	for _, l := range f.Scheme.Lamps.All() {
		item, ok := f.Stock.Lamp(l.Stock)
		table := tableOf(f, l, gaps)
		if !ok || item.Flux <= 0 && table == nil {
			gaps.add("luminous flux not known, left dark", l.Tag)
			continue
		}
		lit, err := m.lamp(l, &item, table, gaps)
		if err != nil {
			return nil, fmt.Errorf("lamp %s: %w", l.Tag, err)
		}
		s, known := share[string(l.ID)]
		if !known {
			gaps.add("light at its volts not known, taken as full", l.Tag)
			s = 1
		}
		lit.Share *= s
		lamps = append(lamps, lit)
		n.Lamps = append(n.Lamps, l)
		n.Files = append(n.Files, table)
	}
	blockers, solid := blockersOf(f.Scheme, gaps)
	n.Solid = solid
	var err error
	n.Scene, err = light.NewScene(lamps, blockers, n.Maintenance)
	n.Assumed = gaps.list()
	return n, err
}

// shares returns the light of each lamp over that at nominal volts; of a strip
// the mean of its ends and its darkest place.
func shares(results []*calc.Result) map[string]float64 {
	type mean struct{ sum, n float64 }
	sums := map[string]mean{}
	for _, r := range results {
		for i := range r.Points {
			p := &r.Points[i]
			for _, v := range []q.Maybe[float64]{p.Light, p.Darkest} {
				if v.Known {
					m := sums[p.ID]
					sums[p.ID] = mean{m.sum + v.Value, m.n + 1}
				}
			}
		}
	}
	out := make(map[string]float64, len(sums))
	for id, m := range sums {
		out[id] = m.sum / m.n
	}
	return out
}

// lamp turns a lamp of the plan into one of the calculation at its nominal
// volts; table is that of its photometric file, nil for none. Aim runs clockwise
// from up the sheet and Tilt up from level; there the bearing runs anticlockwise
// from x and the tilt up from straight down.
func (m *Nights) lamp(l *doc.Lamp, item *doc.LampStock, table *Light, gaps *gaps) (light.Lamp, error) {
	flux := item.Flux
	at := l.Place.At
	out := light.Lamp{ID: string(l.ID), At: light.Vec{X: at.X.Metres(), Y: at.Y.Metres(), Z: l.Place.Height.Metres()}, White: item.Temperature, Share: 1}
	if table != nil {
		flux = table.Dist.Flux()
		out.Opening = table.Opening
		if out.White == 0 {
			out.White = table.Table.White.Or(0)
		}
	}
	if item.Length > 0 {
		long := l.Length.Or(item.Length)
		flux *= q.Lumen(long / item.Length)
		out.Opening = light.Opening{X: math.Min(float64(long), 100)}
		if l.Aim == 0 && l.Tilt == 0 {
			gaps.add("strip without an aim, taken to lie across the sheet", l.Tag)
		}
	}
	if out.White == 0 {
		gaps.add("colour temperature not known, taken as 3000 K", l.Tag)
		out.White = 3000
	}
	const degree = math.Pi / 180
	aim, tilt := l.Points(item)
	out.Bearing, out.Tilt, out.Spin = (90-aim)*degree, (90+tilt)*degree, -l.Spin*degree
	if !l.Aimed() {
		out.Bearing, out.Tilt = 0, 0
		switch {
		case table != nil && table.Upward:
			gaps.add("not aimed, taken to stand as its photometric file was measured", l.Tag)
		case tilt > 0:
			out.Tilt = math.Pi
			gaps.add("not aimed, taken to shine straight up", l.Tag)
		default:
			gaps.add("not aimed, taken to shine straight down", l.Tag)
		}
	}
	var err error
	if table != nil {
		out.Share = table.Table.Tilt.Factor(out.Tilt / degree)
		out.Dist, err = m.table(beamKey{flux: flux, of: table.Dist})
		return out, err
	}
	if item.Beam < 1 {
		gaps.add("beam angle not known, taken to shine the same to all sides", l.Tag)
	}
	beam := 0.0
	if item.HasBeam() {
		beam = item.Beam
	}
	out.Dist, err = m.table(beamKey{flux: flux, beam: beam})
	return out, err
}

// tableOf returns the photometric file that the light of a lamp comes from, nil
// when that is the stock book.
func tableOf(f *Frame, l *doc.Lamp, gaps *gaps) *Light {
	of, ok := f.Scheme.LightOf(l.Stock)
	if !ok {
		return nil
	}
	if table := f.Lights.Of(l.Stock); table.Good() {
		return table
	}
	gaps.add("photometric file "+of.Name()+" not to be used, light taken from the stock book", l.Tag)
	return nil
}

// table returns the table of a key.
func (m *Nights) table(k beamKey) (*light.Distribution, error) {
	if k.of != nil && k.flux == k.of.Flux() {
		return k.of, nil
	}
	if d := m.tables[k]; d != nil {
		return d, nil
	}
	var d *light.Distribution
	var err error
	switch {
	case k.of != nil:
		d, err = k.of.Scaled(float64(k.flux / k.of.Flux()))
	case k.beam == 0:
		d, err = light.Even(k.flux)
	default:
		d, err = light.Beam(k.flux, k.beam)
	}
	if err != nil {
		return nil, err
	}
	if m.tables == nil || len(m.tables) >= mostTables {
		m.tables = map[beamKey]*light.Distribution{}
	}
	m.tables[k] = d
	return d, nil
}

// blockersOf returns buildings, walls and fences, and the crowns of trees whose
// height is known.
func blockersOf(s *doc.Scheme, gaps *gaps) (out []light.Blocker, from []doc.Entity) {
	height := func(h geom.Length, otherwise float64, tag string) float64 {
		if h > 0 {
			return h.Metres()
		}
		gaps.add(fmt.Sprintf("height not known, taken as %g m", otherwise), tag)
		return otherwise
	}
	for _, a := range s.Areas.All() {
		if a.Kind == "building" && len(a.Ring) >= 3 {
			out = append(out, light.Blocker{Outline: spots(a.Ring), Closed: true, Top: height(a.Height, tallBuilding, a.Tag)})
			from = append(from, a)
		}
	}
	for _, l := range s.Lines.All() {
		if (l.Kind == "wall" || l.Kind == "fence") && len(l.Path) >= 2 {
			out = append(out, light.Blocker{Outline: spots(l.Path), Top: height(l.Height, tallWall, l.Tag)})
			from = append(from, l)
		}
	}
	for _, m := range s.Marks.All() {
		if m.Kind == "tree" {
			if b, ok := crown(m, gaps); ok {
				out = append(out, b)
				from = append(from, m)
			}
		}
	}
	return out, from
}

func spots(ring []geom.Point) []light.Spot {
	out := make([]light.Spot, len(ring))
	for i, p := range ring {
		out[i] = light.Spot{X: p.X.Metres(), Y: p.Y.Metres()}
	}
	return out
}

// gaps gathers what was taken for unknown, one line a thing with its tags.
type gaps struct {
	order []string
	tags  map[string][]string
}

func newGaps() *gaps { return &gaps{tags: map[string][]string{}} }

func (g *gaps) add(what, tag string) {
	if g.tags[what] == nil {
		g.order = append(g.order, what)
	}
	g.tags[what] = append(g.tags[what], tag)
}

func (g *gaps) list() []string {
	out := make([]string, len(g.order))
	for i, what := range g.order {
		out[i] = TagRuns(g.tags[what]) + ": " + what
	}
	return out
}
