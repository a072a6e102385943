package layout

import (
	"fmt"
	"math"

	"duskwire/calc/light"
	"duskwire/layout/doc"
)

const (
	// Taken for a crown of which it is not said (common practice, no source): the
	// part of the light that comes through leaves, and where the crown begins, as a
	// part of the height of its top.
	crownPass, crownBase = 0.3, 1.0 / 3
	// crownCorners is how many corners stand for the round of a crown.
	crownCorners = 16
)

// crown returns what stands in the way of light for a tree: an upright prism of
// the area of its crown, which takes its part once, however long the way through
// the leaves. Without the radius or the top of the crown there is none.
func crown(m *doc.Mark, gaps *gaps) (light.Blocker, bool) {
	if m.Crown <= 0 || m.CrownTop <= 0 {
		gaps.add("crown not known, throws no shadow", m.Tag)
		return light.Blocker{}, false
	}
	top := m.CrownTop.Metres()
	base := m.CrownBase.Metres()
	if base == 0 {
		base = crownBase * top
		gaps.add("where the crown begins is not known, taken as a third of its height", m.Tag)
	}
	if !m.CrownPass.Known {
		gaps.add(fmt.Sprintf("how much light passes the crown is not known, taken as %g %%", 100*crownPass), m.Tag)
	}
	b := light.Blocker{Closed: true, Base: base, Top: top, Pass: float64(m.CrownPass.Or(crownPass))}
	// The corners lie a little outside, so that the areas are the same.
	const step = 2 * math.Pi / crownCorners
	r := m.Crown.Metres() * math.Sqrt(step/math.Sin(step))
	for k := range crownCorners {
		s, c := math.Sincos(float64(k) * step)
		b.Outline = append(b.Outline, light.Spot{X: m.Place.At.X.Metres() + r*c, Y: m.Place.At.Y.Metres() + r*s})
	}
	return b, true
}
