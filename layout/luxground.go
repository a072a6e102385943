package layout

import (
	"fmt"
	"slices"

	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/calc/light"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

const (
	// doorSide is the side of the square round a door that is lit as an entrance
	// (common practice, no source).
	doorSide = 1.5 * float64(geom.Metre)
	// stepApart is the least distance of points along a line of steps.
	stepApart = 100 * geom.Millimetre
	// walkEyes is the most points of a walk from which lamps are looked at.
	walkEyes = 40
)

// luxWalk is ground that people walk on, for the intensity towards their eyes.
type luxWalk struct {
	finding.Subject
	at []geom.Point
}

// piece is ground of a use.
type piece struct {
	finding.Subject
	use, kind string
	said      bool
	z         float64
	ring      []geom.Point // of an area or a door
	path      []geom.Point // of a line
	order     int          // of an area among the areas, -1 otherwise
	bounds    geom.Rect
}

// uses works out the light on the ground by its use: on areas as far as no area
// drawn later covers them, along steps, and before doors.
func (w *luxWorker) uses(facts *check.LuxFacts) {
	var list []piece
	areas := w.s.Areas.All()
	bounds := make([]geom.Rect, len(areas))
	for i, a := range areas {
		bounds[i] = geom.Around(a.Ring...)
		if use := doc.UseOf(a.Kind, a.Use); use != "none" && len(a.Ring) >= 3 {
			z := 0.0
			if a.Kind == "deck" {
				z = a.Height.Metres()
			}
			list = append(list, piece{Subject: luxNamed(a.ID, a.Tag, a.Name), use: use, kind: a.Kind, said: a.Use != "", z: z, ring: a.Ring, order: i, bounds: bounds[i]})
		}
	}
	for _, l := range w.s.Lines.All() {
		if use := doc.UseOf(l.Kind, l.Use); use != "none" && len(l.Path) >= 2 {
			list = append(list, piece{Subject: luxNamed(l.ID, l.Tag, l.Name), use: use, kind: l.Kind, said: l.Use != "", path: l.Path, order: -1})
		}
	}
	for _, m := range w.s.Marks.All() {
		if m.Kind == "door" {
			r := geom.Around(m.Place.At).Grow(geom.Length(doorSide / 2))
			ring := []geom.Point{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}}
			list = append(list, piece{Subject: luxNamed(m.ID, m.Tag, m.Name), use: "entrance", kind: "door", ring: ring, order: -1, bounds: r})
		}
	}
	n := w.perPlace(len(list))
	for i := range list {
		w.use(facts, &list[i], n, areas, bounds)
	}
}

func (w *luxWorker) use(facts *check.LuxFacts, p *piece, n int, areas []*doc.Area, bounds []geom.Rect) {
	var at []geom.Point
	var step geom.Length
	if p.path != nil {
		at, _, step = alongPath(p.path, n, stepApart)
	} else {
		var over []*doc.Area // that may own the ground
		for i, a := range areas {
			if (i > p.order && p.order >= 0 || p.order < 0 && a.Kind == "building") && bounds[i].Overlaps(p.bounds) {
				over = append(over, a)
			}
		}
		at, step = inRing(p.ring, n, func(at geom.Point) bool {
			return !slices.ContainsFunc(over, func(a *doc.Area) bool { return geom.Inside(at, a.Ring) })
		})
	}
	if len(at) == 0 {
		return
	}
	u := check.LuxUse{Subject: p.Subject, Use: p.use, Kind: p.kind, Said: p.said, Points: len(at), Step: q.Metre(step.Metres())}
	sum := q.Lux(0)
	for i, a := range at {
		e := w.sc.At(vec(a, p.z), light.Up)
		if i == 0 || e < u.Least {
			u.Least = e
		}
		u.Most = max(u.Most, e)
		sum += e
	}
	u.Average = sum / q.Lux(len(at))
	facts.Uses = append(facts.Uses, u)
	if p.use == "path" || p.use == "steps" {
		w.walks = append(w.walks, luxWalk{p.Subject, thinned(at, walkEyes)})
	}
}

// thinned returns at most n of the points, spread over all of them.
func thinned(at []geom.Point, n int) []geom.Point {
	if len(at) <= n {
		return at
	}
	out := make([]geom.Point, n)
	for i := range out {
		out[i] = at[(2*i+1)*len(at)/(2*n)]
	}
	return out
}

// placeText says where on the plan something is.
func placeText(p light.Vec) string {
	return fmt.Sprintf("%.1f m above ground at %.1f m, %.1f m of the plan", p.Z, p.X, p.Y)
}
