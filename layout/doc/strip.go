package doc

import (
	"math"

	"duskwire/layout/geom"
)

// StripEnd returns where the near end of a strip lies from its middle, metres to the
// right, up the sheet and up; its far end lies the other way. ok is false for what is
// no strip. A strip lies square to its aim, on the axis that stays level when it is
// tilted, its near end on the left as seen along the aim; Spin turns it about the
// beam, clockwise as seen from behind, so that 180 puts the near end on the right.
// One that is not aimed lies across the sheet, its near end on the left.
func (l *Lamp) StripEnd(item *LampStock) (near [3]float64, ok bool) {
	if item.Length <= 0 {
		return near, false
	}
	const degree = math.Pi / 180
	aim, tilt := l.Points(item)
	sa, ca := math.Sincos((90 - aim) * degree)
	st, ct := math.Sincos((90 + tilt) * degree)
	sp, cp := math.Sincos(-l.Spin * degree)
	half := l.StripLength(item) / 2
	x, y, z := -sp*ct, cp, -sp*st
	return [3]float64{half * (ca*x - sa*y), half * (sa*x + ca*y), half * z}, true
}

// longestStrip is the length that strips are drawn up to, metres.
const longestStrip = 100

// StripLength returns the length of a strip in metres as it is drawn and lit; 0 for
// what is none.
func (l *Lamp) StripLength(item *LampStock) float64 {
	if item.Length <= 0 {
		return 0
	}
	return math.Min(float64(l.Length.Or(item.Length)), longestStrip)
}

// StripEnds returns the ends of a strip on the plan, the near one first.
func (l *Lamp) StripEnds(item *LampStock) (near, far geom.Point, ok bool) {
	v, ok := l.StripEnd(item)
	by := geom.Point{X: geom.Metres(v[0]), Y: geom.Metres(v[1])}
	return l.Place.At.Add(by), l.Place.At.Sub(by), ok
}
