package layout

import (
	"math"
	"slices"

	"duskwire/calc/light"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// stem is what a tree stands on as shadows and standing view have it: its height,
// the middle of its crown, whose lower half hides the top. said is false where
// nobody gave the height of the crown.
func stem(m *doc.Mark) (top float64, said bool) {
	r := orElse(m.Crown, usualCrownWide)
	if m.CrownTop <= 0 {
		return clearStem + r, false
	}
	high := m.CrownTop.Metres()
	return (orElse(m.CrownBase, crownBase*high) + high) / 2, true
}

// trunk returns the trunk of a tree whose radius was said.
func trunk(m *doc.Mark, gaps *gaps) (light.Blocker, bool) {
	if m.Radius <= 0 {
		return light.Blocker{}, false
	}
	top, said := stem(m)
	if !said {
		gaps.add("height of the trunk not known, taken from the usual clear stem and the crown", m.Tag)
	}
	return pillar(m.Place.At, math.Max(m.Radius.Metres(), trunkLeast), top), true
}

// posts returns the posts of a pergola, one a corner of its path.
func posts(l *doc.Line) (out []light.Blocker) {
	for i, p := range l.Path {
		if !slices.Contains(l.Path[:i], p) {
			out = append(out, pillar(p, postWide/2, orElse(l.Height, pergolaHigh)))
		}
	}
	return out
}

// pillar is an upright post that throws a shadow, of the outline that round draws.
func pillar(at geom.Point, r, top float64) light.Blocker {
	return light.Blocker{Outline: roundOutline(at, r), Closed: true, Slim: true, Top: top}
}

// roundOutline is the outline of a post.
func roundOutline(at geom.Point, r float64) []light.Spot {
	out := make([]light.Spot, roundCorners)
	for i := range out {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / roundCorners)
		out[i] = light.Spot{X: at.X.Metres() + r*cos, Y: at.Y.Metres() + r*sin}
	}
	return out
}
