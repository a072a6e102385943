package layout

import (
	"fmt"
	"math"
	"strings"

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
	// lowSpike is the height below which a spike that is not aimed stands in the
	// ground and looks up, metres.
	lowSpike = 1.0
	// evenBeam is the beam angle from which a lamp has none to speak of and
	// shines the same to all sides; see light.Exponent.
	evenBeam = 170
)

// NightOf returns the light of a frame. Without a beam angle a lamp shines the
// same to all sides; one that is not aimed looks up from the ground and down
// from anywhere else; one whose light at its volts is not known counts as full.
// Each is said in Assumed, as is what can not be drawn.
func NightOf(f *Frame) (*Night, error) {
	n := &Night{Maintenance: maintained}
	share := shares(f.Results)
	gaps := newGaps()
	var lamps []light.Lamp
	for _, l := range f.Scheme.Lamps.All() {
		item, ok := f.Stock.Lamp(l.Stock)
		if !ok || item.Flux <= 0 {
			gaps.add("luminous flux not known, left dark", l.Tag)
			continue
		}
		lit, err := nightLamp(l, &item, gaps)
		if err != nil {
			return nil, fmt.Errorf("lamp %s: %w", l.Tag, err)
		}
		s, known := share[string(l.ID)]
		if !known {
			gaps.add("light at its volts not known, taken as full", l.Tag)
			s = 1
		}
		lit.Share = s
		lamps = append(lamps, lit)
		n.Lamps = append(n.Lamps, l)
	}
	blockers := blockersOf(f.Scheme, gaps)
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

// nightLamp turns a lamp of the plan into one of the calculation, Share left
// out. Aim runs clockwise from up the sheet and Tilt up from level; there the
// bearing runs anticlockwise from x and the tilt up from straight down.
func nightLamp(l *doc.Lamp, item *doc.LampStock, gaps *gaps) (light.Lamp, error) {
	flux := item.Flux
	at := l.Place.At
	out := light.Lamp{ID: string(l.ID), At: light.Vec{X: at.X.Metres(), Y: at.Y.Metres(), Z: l.Place.Height.Metres()}, White: item.Temperature}
	if item.Length > 0 {
		long := l.Length.Or(item.Length)
		flux *= q.Lumen(long / item.Length)
		out.Opening.X = math.Min(float64(long), 100)
		if l.Aim == 0 && l.Tilt == 0 {
			gaps.add("strip without an aim, taken to lie across the sheet", l.Tag)
		}
	}
	if out.White == 0 {
		gaps.add("colour temperature not known, taken as 3000 K", l.Tag)
		out.White = 3000
	}
	const degree = math.Pi / 180
	out.Bearing, out.Tilt, out.Spin = (90-l.Aim)*degree, (90+l.Tilt)*degree, -l.Spin*degree
	if l.Aim == 0 && l.Tilt == 0 {
		out.Bearing, out.Tilt = 0, 0
		low := out.At.Z < lowSpike
		switch {
		case low && (item.Kind == "spike" || item.Kind == "deck" || item.Kind == "recessed" || item.Kind == "pond"):
			out.Tilt = math.Pi
			gaps.add("not aimed, taken to shine straight up", l.Tag)
		default:
			gaps.add("not aimed, taken to shine straight down", l.Tag)
		}
	}
	var err error
	switch {
	case item.Beam >= evenBeam:
		out.Dist, err = light.Even(flux)
	case item.Beam < 1:
		gaps.add("beam angle not known, taken to shine the same to all sides", l.Tag)
		out.Dist, err = light.Even(flux)
	default:
		out.Dist, err = light.Beam(flux, item.Beam)
	}
	return out, err
}

// blockersOf returns buildings, walls and fences. Trees are marks with the
// radius of a trunk: of their crowns nothing is known.
func blockersOf(s *doc.Scheme, gaps *gaps) []light.Blocker {
	var out []light.Blocker
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
		}
	}
	for _, l := range s.Lines.All() {
		if (l.Kind == "wall" || l.Kind == "fence") && len(l.Path) >= 2 {
			out = append(out, light.Blocker{Outline: spots(l.Path), Top: height(l.Height, tallWall, l.Tag)})
		}
	}
	for _, m := range s.Marks.All() {
		if m.Kind == "tree" {
			gaps.add("crown not known, throws no shadow", m.Tag)
		}
	}
	return out
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
		out[i] = strings.Join(g.tags[what], ", ") + ": " + what
	}
	return out
}
