package layout

import (
	"fmt"
	"math"
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
	// faceHeight is how far above ground faces are, faceTurns in how many directions
	// they are turned, facePoints at how many points of a piece of ground at most
	// (common practice, no source).
	faceHeight            = 1.5
	faceTurns, facePoints = 8, 40
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
		e := w.n.Least.At(w.on(p, a), light.Up)
		if i == 0 || e < u.Least {
			u.Least = e
		}
		u.Most = max(u.Most, e)
		sum += e
	}
	u.Average = sum / q.Lux(len(at))
	u.New, u.Near = w.fresh(u.Average, p, at), w.near(p, at)
	if w.n.Least != w.n.Most {
		u.Bright = w.mean(p, at)
	}
	if w.faces[p.use] {
		w.upright(&u, p, at)
	}
	facts.Uses = append(facts.Uses, u)
	if p.use == "path" || p.use == "steps" {
		w.walks = append(w.walks, luxWalk{p.Subject, thinned(at, walkEyes)})
	}
}

// on returns a point of a piece of ground as high as the ground lies there: that
// before a door is what was drawn under it.
func (w *luxWorker) on(p *piece, at geom.Point) light.Vec {
	if p.kind == "door" {
		return vec(at, w.n.GroundAt(at))
	}
	return vec(at, p.z)
}

// upright works out the light on faces: at some of the points, turned to where most
// light comes from, on average.
func (w *luxWorker) upright(u *check.LuxUse, p *piece, at []geom.Point) {
	at = thinned(at, min(max(len(at)/faceTurns, 4), facePoints))
	sum := q.Lux(0)
	for _, a := range at {
		best, _ := faceLight(w.n.Least, w.on(p, a).Add(light.Up.Mul(faceHeight)), faceTurns)
		sum += best
	}
	u.Upright, u.Faces, u.FaceHeight = sum/q.Lux(len(at)), len(at), faceHeight
}

// faceLight returns the greatest light on an upright surface at a point, turned to so
// many directions, and the normal of that.
func faceLight(sc *light.Scene, at light.Vec, turns int) (best q.Lux, normal light.Vec) {
	for k := range turns {
		s, c := math.Sincos(2 * math.Pi * float64(k) / float64(turns))
		n := light.Vec{X: s, Y: c} // the first one up the sheet, then clockwise
		if e := sc.At(at, n); k == 0 || e > best {
			best, normal = e, n
		}
	}
	return best, normal
}

// fresh returns the average with all lamps new and clean.
func (w *luxWorker) fresh(average q.Lux, p *piece, at []geom.Point) (sum q.Lux) {
	if len(w.n.low) == 0 {
		return average / q.Lux(w.n.Maintenance)
	}
	at = thinned(at, luxFew)
	kept := q.Lux(0)
	for _, a := range at {
		v := w.on(p, a)
		kept, sum = kept+w.n.Least.At(v, light.Up), sum+w.n.Least.New(v, light.Up)
	}
	if kept == 0 {
		return 0
	}
	return average * sum / kept
}

// near says which lamps are near to any of the points for what shines.
func (w *luxWorker) near(p *piece, at []geom.Point) string {
	var tags []string
	for i := range w.n.Lamps {
		if l := w.sc.Lamp(i); l.Opening.Size() > 0 && l.Share > 0 && slices.ContainsFunc(at, func(a geom.Point) bool { return w.sc.Near(i, w.on(p, a)) }) {
			tags = append(tags, w.n.Lamps[i].Tag)
		}
	}
	return NearText(tags)
}

// mean returns the average with the most light that the lamps may give.
func (w *luxWorker) mean(p *piece, at []geom.Point) (sum q.Lux) {
	for _, a := range at {
		sum += w.sc.At(w.on(p, a), light.Up)
	}
	return sum / q.Lux(len(at))
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
