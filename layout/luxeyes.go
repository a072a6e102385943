package layout

import (
	"cmp"
	"math"
	"slices"

	"duskwire/calc/check"
	"duskwire/calc/light"
	q "duskwire/calc/quantity"
	"duskwire/layout/geom"
)

const (
	// Eyes above ground of who sits and who walks, metres, and from which angles
	// below and above them a lamp is looked at: the intensity classes of EN 13201-2
	// begin at 70° from down (from memory), 45° down is where one looks who walks
	// (common practice, no source).
	sitEye, walkEye = 1.2, 1.5
	eyeAbove        = 20 * math.Pi / 180
	eyeBelow        = 45 * math.Pi / 180
	// eyeReach is how far off a lamp is looked at, metres; the rule set may ask for
	// less.
	eyeReach = 10.0
	// glances is the most lamps kept of a place, faintGlance what counts as none.
	glances     = 5
	faintGlance = 1.0
)

// seats works out how bright lamps are from seats and along walks. A lamp whose
// beam GLR-01 reports at a seat is left out there.
func (w *luxWorker) seats(facts *check.LuxFacts, beams map[string]map[string]bool) {
	for _, m := range w.s.Marks.All() {
		if m.Kind != "seat" {
			continue
		}
		e := check.LuxEye{Subject: luxNamed(m.ID, m.Tag, m.Name), Height: q.Metre(m.Place.Height.Metres() + sitEye)}
		w.look(facts, e, []geom.Point{m.Place.At}, beams[e.ID])
	}
	for _, walk := range w.walks {
		w.look(facts, check.LuxEye{Subject: walk.Subject, Walk: true, Height: walkEye}, walk.at, nil)
	}
}

// look enters what is seen from places at one height.
func (w *luxWorker) look(facts *check.LuxFacts, e check.LuxEye, at []geom.Point, without map[string]bool) {
	for i := range w.n.Lamps {
		if without[string(w.n.Lamps[i].ID)] {
			continue
		}
		var best q.Candela
		var far float64
		from := w.sc.Lamp(i).At
		for _, p := range at {
			eye := vec(p, float64(e.Height))
			if !looksAt(eye, from) {
				continue
			}
			if cd, d := w.sc.Seen(i, eye); cd > best {
				best, far = cd, d
			}
		}
		if best >= faintGlance {
			e.From = append(e.From, check.LuxGlance{Subject: w.lamp(i), Toward: best, Distance: q.Metre(far)})
		}
	}
	slices.SortStableFunc(e.From, func(a, b check.LuxGlance) int { return cmp.Compare(b.Toward, a.Toward) })
	e.From = e.From[:min(glances, len(e.From))]
	if len(e.From) > 0 {
		facts.Eyes = append(facts.Eyes, e)
	}
}

// looksAt reports whether a lamp is within reach and within the angles at which
// it is looked at.
func looksAt(eye, lamp light.Vec) bool {
	v := lamp.Sub(eye)
	d := v.Len()
	if d == 0 || d > eyeReach {
		return false
	}
	up := math.Asin(v.Z / d)
	return up <= eyeAbove && up >= -eyeBelow
}
