package doc

import (
	"math"

	"duskwire/calc/light"
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
	lies := l.Lies(item)
	v := lies.Out(light.Vec{X: lies.Opening.X / 2, Y: lies.Opening.Y / 2}) // one of them is 0
	return [3]float64{v.X, v.Y, v.Z}, true
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
