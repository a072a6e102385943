package edit

import (
	"math"
	"strconv"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// Rotate turns entities about a point by degrees, anticlockwise when positive,
// with the runs that lie between them and the aim of the lamps. Quarter turns
// are exact; others are rounded to the micrometre.
type Rotate struct {
	IDs     []doc.ID
	About   geom.Point
	Degrees float64
}

// RotateHere turns the selection about its middle.
func RotateHere(s *doc.Scheme, ids []doc.ID, degrees float64) Rotate {
	return Rotate{ids, middle(s, ids), degrees}
}

// Name implements Operation.
func (o Rotate) Name() string { return "Rotate" + o.by() }

func (o Rotate) by() string {
	size := strconv.FormatFloat(math.Abs(o.Degrees), 'f', -1, 64) + "°"
	if o.Degrees < 0 {
		return " " + size + " clockwise"
	}
	return " " + size + " anticlockwise"
}

func (o Rotate) title(s *doc.Scheme) string { return "Rotate " + counted(s, o.IDs) + o.by() }

// Apply implements Operation.
func (o Rotate) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	if !(math.Abs(o.Degrees) <= 360) {
		return nil, refuse("found a turn of %g°, expected at most 360°", o.Degrees)
	}
	c := change{point: o.image, turn: func(l *doc.Lamp) {
		if l.Aim != 0 || l.Tilt != 0 {
			l.Aim = aimed(l.Aim-o.Degrees, l.Tilt)
		}
	}}
	c.swap = math.Mod(math.Abs(o.Degrees), 180) == 90
	return reshape(s, Together(s, o.IDs), "rotate", func(doc.ID) change { return c })
}

func (o Rotate) image(p geom.Point) geom.Point {
	v := p.Sub(o.About)
	switch math.Mod(o.Degrees+720, 360) {
	case 0:
		return p
	case 90:
		v = geom.Point{X: -v.Y, Y: v.X}
	case 180:
		v = geom.Point{X: -v.X, Y: -v.Y}
	case 270:
		v = geom.Point{X: v.Y, Y: -v.X}
	default:
		sin, cos := math.Sincos(o.Degrees * math.Pi / 180)
		x, y := float64(v.X), float64(v.Y)
		v = geom.Point{X: geom.Length(math.Round(x*cos - y*sin)), Y: geom.Length(math.Round(x*sin + y*cos))}
	}
	return o.About.Add(v)
}
