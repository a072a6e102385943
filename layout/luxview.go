package layout

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"duskwire/calc/check"
	"duskwire/calc/light"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

const (
	// Heights at which light beyond the boundary is looked at, metres: an eye and a
	// window upstairs (common practice, no source).
	boundaryLow, boundaryHigh = 1.5, 4.0
	// windowHeight is taken for a window whose height was not drawn.
	windowHeight = 1.5
	// beyond is how far behind the boundary the plane stands, so that what stands
	// on it is in the way, metres.
	beyond = 0.05
	// inWall is how far from a wall a window may be drawn, and proud how far
	// before the wall its pane is taken.
	inWall, proud = 500 * geom.Millimetre, 0.01
	// boundaryApart and boundaryMost are the least distance and the most places
	// along a boundary; roundWindow is in how many directions a window in no wall
	// is turned.
	boundaryApart = geom.Metre
	boundaryMost  = 60
	roundWindow   = 16
)

// views works out the upright light at windows and beyond the boundary: lines of
// that kind, and walls and fences of the neighbour's.
func (w *luxWorker) views(facts *check.LuxFacts, beams map[string]map[string]bool) {
	for _, m := range w.s.Marks.All() {
		if m.Kind == "window" && m.Owner != "own" {
			v := check.LuxView{Subject: luxNamed(m.ID, m.Tag, m.Name), Window: true, Whose: m.Owner}
			if m.Place.Height == 0 {
				v.Taken = fmt.Sprintf("height of %s not drawn: %g m taken", v.Label, windowHeight)
			}
			w.worst(facts, &v, w.panes(m), beams[v.ID])
		}
	}
	for _, l := range w.s.Lines.All() {
		edge := l.Kind == "boundary" || l.Owner == "neighbour" && (l.Kind == "wall" || l.Kind == "fence")
		if !edge || len(l.Path) < 2 {
			continue
		}
		var list []pane
		at, along, _ := alongPath(l.Path, boundaryMost, boundaryApart)
		for i, p := range at {
			n := light.Vec{X: -along[i].Y, Y: along[i].X}
			for _, z := range []float64{boundaryLow, boundaryHigh} {
				for _, n := range []light.Vec{n, n.Mul(-1)} {
					list = append(list, pane{vec(p, z).Sub(n.Mul(beyond)), n})
				}
			}
		}
		v := check.LuxView{Subject: luxNamed(l.ID, l.Tag, l.Name)}
		w.worst(facts, &v, list, nil)
	}
}

// pane is an upright surface: a point and its normal.
type pane struct{ at, n light.Vec }

// panes returns the surfaces that a window may be: both sides of the wall that it
// is drawn in, otherwise turned to all sides.
func (w *luxWorker) panes(m *doc.Mark) []pane {
	z := m.Place.Height.Metres()
	if z == 0 {
		z = windowHeight
	}
	near, found := inWall, false
	var foot geom.Point
	var dir light.Vec
	edge := func(a, b geom.Point) {
		if at, d := geom.Nearest(m.Place.At, a, b); d < near && a != b {
			near, found, foot, dir = d, true, at, vec(b, 0).Sub(vec(a, 0)).Unit()
		}
	}
	for _, a := range w.s.Areas.All() {
		for i := range a.Ring {
			if a.Kind == "building" {
				edge(a.Ring[i], a.Ring[(i+1)%len(a.Ring)])
			}
		}
	}
	for _, l := range w.s.Lines.All() {
		for i := 1; i < len(l.Path) && l.Kind == "wall"; i++ {
			edge(l.Path[i-1], l.Path[i])
		}
	}
	var out []pane
	if found {
		n := light.Vec{X: -dir.Y, Y: dir.X}
		for _, n := range []light.Vec{n, n.Mul(-1)} {
			out = append(out, pane{vec(foot, z).Add(n.Mul(proud)), n})
		}
		return out
	}
	for k := range roundWindow {
		s, c := math.Sincos(2 * math.Pi * float64(k) / roundWindow)
		out = append(out, pane{vec(m.Place.At, z), light.Vec{X: c, Y: s}})
	}
	return out
}

// worst enters the surface with the most light, and that with the most by the lamps
// that burn after curfew. Without the lamps of beams, which GLR-01 reports, the
// surface with the most of the rest counts.
func (w *luxWorker) worst(facts *check.LuxFacts, v *check.LuxView, list []pane, beams map[string]bool) {
	if len(list) == 0 {
		return
	}
	v.Points = len(list)
	var best, late []q.Lux // by lamp
	toward := make([]check.LuxGlance, w.sc.Len())
	for i, p := range list {
		from := w.sc.Shares(p.at, p.n)
		rest, after := q.Lux(0), q.Lux(0)
		for k, e := range from {
			if beams[string(w.n.Lamps[k].ID)] {
				continue
			}
			rest += e
			if w.late.Burns[k] {
				after += e
			}
			w.glance(&toward[k], k, p)
		}
		if i == 0 || rest > v.Rest {
			v.Rest, v.Where, best = rest, placeText(p.at), from
		}
		if i == 0 || after > v.Late {
			v.Late, v.LateWhere, late = after, placeText(p.at), from
		}
	}
	rest, after := append([]q.Lux(nil), best...), append([]q.Lux(nil), late...)
	for k, e := range best {
		v.Lux += e
		beam := beams[string(w.n.Lamps[k].ID)]
		if beam {
			v.Beams = append(v.Beams, w.lamp(k))
			rest[k] = 0
		}
		if beam || !w.late.Burns[k] {
			after[k] = 0
		}
	}
	v.From, v.LateFrom = w.most(rest), w.most(after)
	v.Bright, v.BrightLate = w.brightest(toward)
	facts.Views = append(facts.Views, *v)
}

// glance keeps the greatest intensity of lamp k towards an eye in a surface that it
// is in front of.
func (w *luxWorker) glance(g *check.LuxGlance, k int, p pane) {
	if w.sc.Lamp(k).At.Sub(p.at).Dot(p.n) <= 0 {
		return
	}
	if cd, d := w.sc.Seen(k, p.at); cd > g.Toward {
		*g = check.LuxGlance{Subject: w.lamp(k), Toward: cd, Distance: q.Metre(d)}
	}
}

// brightest returns the lamps with the greatest intensity, at most three: all, and of
// those that burn after curfew.
func (w *luxWorker) brightest(toward []check.LuxGlance) (all, late []check.LuxGlance) {
	order := make([]int, len(toward))
	for k := range order {
		order[k] = k
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(toward[b].Toward, toward[a].Toward) })
	for _, k := range order {
		if toward[k].Toward < faintGlance {
			break
		}
		if len(all) < mostBright {
			all = append(all, toward[k])
		}
		if len(late) < mostBright && w.late.Burns[k] {
			late = append(late, toward[k])
		}
	}
	return all, late
}

// mostBright is the most lamps kept by their intensity towards a view.
const mostBright = 3
