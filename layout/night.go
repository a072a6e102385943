package layout

import (
	"fmt"
	"math"

	"duskwire/calc/light"
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
	// Least and Most are the scenes between which the light lies where that of
	// some lamps at their volts is not known; otherwise both are Scene. Targets are
	// judged by Least, limits by Most, so that nothing that was taken flatters.
	Least, Most *light.Scene
	Unsure      []Unsure // those lamps, in the order of Lamps
	// Solid is what of the scheme stands in the way: buildings, walls, fences,
	// crowns and trunks of trees, posts of pergolas; one entry a blocker, or more.
	Solid []doc.Entity
	// Ground is all areas where some lie higher than the rest, else nil.
	Ground []*doc.Area
	// Maintenance is the factor for age and dirt of lamps, ground that of those let
	// into the ground, which low names.
	Maintenance float64
	ground      float64
	low         []string
	// Assumed says what the scheme leaves open and what was taken instead.
	Assumed []string
	known   []string // of Assumed, what is not about Unsure
}

// Heights taken for what has none, metres (common practice, no source).
const tallBuilding, tallWall = 5.0, 1.8

// Nights makes the light of one frame after the other and keeps the tables of
// intensity, which lamps of a kind share. Not for two goroutines at once.
type Nights struct {
	tables map[beamKey]*light.Distribution
}

// beamKey is what a table depends on: a model, or the table of a file so many
// times.
type beamKey struct {
	model light.Model
	of    *light.Distribution
	times float64
}

// mostTables is the number of tables from which they are made anew.
const mostTables = 1000

// NightOf returns the light of a frame. Without a beam angle a lamp shines the
// same to all sides; one that is not aimed looks up from the ground and down
// from anywhere else; one that hangs on no circuit counts as full, and one whose
// light at its volts is not known as network.Load.Range says. Each is said in
// Assumed, as is what can not be drawn.
func NightOf(f *Frame) (*Night, error) { return new(Nights).Of(f) }

// Of is NightOf with the tables of the frames before.
func (m *Nights) Of(f *Frame) (*Night, error) {
	n := &Night{}
	n.Maintenance, n.ground = f.Scheme.Survey.Ages()
	glow := glows(f)
	gaps := newGaps()
	var lamps dimmed
	for _, l := range f.Scheme.Lamps.All() {
		item, ok := f.Stock.Lamp(l.Stock)
		table := tableOf(f, l, gaps)
		if !ok || !item.Lit() && table == nil {
			gaps.add("luminous flux not known, left dark", l.Tag)
			continue
		}
		lit, err := m.lamp(l, &item, table, gaps)
		if err != nil {
			return nil, fmt.Errorf("lamp %s: %w", l.Tag, err)
		}
		n.age(&lit, l, &item)
		g := glow[l.ID]
		if g == nil {
			gaps.add("hangs on no circuit, its light taken as at nominal volts", l.Tag)
		}
		lamps.add(lit, l, g)
		n.Lamps = append(n.Lamps, l)
		n.Files = append(n.Files, table)
	}
	blockers, solid := blockersOf(f.Scheme, gaps)
	n.Solid, n.Ground = solid, raised(f.Scheme)
	var err error
	if n.Scene, err = light.NewScene(lamps.drawn, blockers, n.Maintenance); err != nil {
		return nil, err
	}
	err = n.bound(&lamps)
	n.known = gaps.list()
	n.Assumed = append(n.unsureLines(drawnWords), n.known...)
	return n, err
}

// lamp turns a lamp of the plan into one of the calculation at its nominal
// volts; table is that of its photometric file, nil for none.
func (m *Nights) lamp(l *doc.Lamp, item *doc.LampStock, table *Light, gaps *gaps) (light.Lamp, error) {
	out := l.Lies(item)
	out.White, out.Share = item.Temperature, 1
	if out.White == 0 && table != nil {
		out.White = table.Table.White.Or(0)
	}
	long := 1.0
	if item.Length > 0 {
		long = float64(l.Length.Or(item.Length) / item.Length)
		if !l.Aimed() {
			gaps.add("strip without an aim, taken to lie across the sheet", l.Tag)
		}
	}
	if out.White == 0 {
		gaps.add("colour temperature not known, taken as 3000 K", l.Tag)
		out.White = 3000
	}
	if !l.Aimed() {
		switch {
		case table != nil && table.Upward:
			out.Tilt = 0
			gaps.add("not aimed, taken to stand as its photometric file was measured", l.Tag)
		case out.Tilt > 0:
			gaps.add("not aimed, taken to shine straight up", l.Tag)
		default:
			gaps.add("not aimed, taken to shine straight down", l.Tag)
		}
	}
	var err error
	out.Dist, out.Share, err = m.beamOf(l, item, table, long, out.Tilt*180/math.Pi, gaps)
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

// blockersOf returns buildings, walls and fences, the crowns of trees whose height
// is known, trunks whose radius is, and the posts of pergolas.
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
	for _, l := range s.Lines.All() {
		if l.Kind == "pergola" {
			for _, p := range posts(l) {
				out, from = append(out, p), append(from, l)
			}
		}
	}
	for _, m := range s.Marks.All() {
		if m.Kind != "tree" {
			continue
		}
		if b, ok := trunk(m, gaps); ok {
			out, from = append(out, b), append(from, m)
		}
		if b, ok := crown(m, gaps); ok {
			out, from = append(out, b), append(from, m)
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
