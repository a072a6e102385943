package board

import (
	"math"

	"fyne.io/fyne/v2"

	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

// unitsPerMM is how many of Fyne's units show one millimetre of the drawing,
// so that the smallest capitals of 1.8 mm are 9 units high. How many device
// pixels a unit has is the window's affair.
const unitsPerMM = 5

// Scales at the ends of the zoom: 1:2 shows a lamp base as wide as the
// window, 1:5000 a village.
const (
	largest  = 2
	smallest = 5000
)

// view maps the plan to the widget.
type view struct {
	origin geom.Point // plan point at the widget's upper left corner
	k      float64    // micrometres per unit
}

// viewAt returns the view at a scale, 50 for 1:50, with the plan point c in
// the middle of the size.
func viewAt(c geom.Point, denominator float64, size fyne.Size) view {
	v := view{k: denominator * float64(geom.Millimetre) / unitsPerMM}
	v.origin = c
	return v.panned(float64(size.Width)/2, float64(size.Height)/2)
}

// denominator returns the scale, 50 for 1:50.
func (v view) denominator() float64 { return v.k * unitsPerMM / float64(geom.Millimetre) }

// plan returns the plan point at a place of the widget.
func (v view) plan(p fyne.Position) geom.Point {
	return geom.Point{
		X: v.origin.X + geom.Length(math.Round(float64(p.X)*v.k)),
		Y: v.origin.Y - geom.Length(math.Round(float64(p.Y)*v.k)),
	}
}

// at returns the place of a plan point in the widget.
func (v view) at(p geom.Point) fyne.Position {
	return fyne.NewPos(float32(float64(p.X-v.origin.X)/v.k), float32(float64(v.origin.Y-p.Y)/v.k))
}

// length returns the plan length of a number of units.
func (v view) length(units float32) geom.Length {
	return geom.Length(math.Round(float64(units) * v.k))
}

// panned returns the view with what it shows moved right and down.
func (v view) panned(dx, dy float64) view {
	v.origin.X -= geom.Length(math.Round(dx * v.k))
	v.origin.Y += geom.Length(math.Round(dy * v.k))
	return v
}

// zoomed returns the view enlarged by a factor, within the ends of the zoom,
// with the plan point under the place kept there.
func (v view) zoomed(at fyne.Position, factor float64) view {
	fixed := v.plan(at)
	d := math.Min(smallest, math.Max(largest, v.denominator()/factor))
	out := view{origin: fixed, k: d * float64(geom.Millimetre) / unitsPerMM}
	return out.panned(float64(at.X), float64(at.Y))
}

// area returns the plan rectangle that a size shows.
func (v view) area(size fyne.Size) geom.Rect {
	return geom.Around(v.origin, v.plan(fyne.NewPos(size.Width, size.Height)))
}

// fitting returns the view that shows the whole rectangle with room around it
// for labels; of a single point it keeps the scale.
func (v view) fitting(r geom.Rect, size fyne.Size) view {
	return v.fittingIn(r, size, ample)
}

// scene returns the view as the display list knows it.
func (v view) scene() scene.View {
	return scene.View{Denominator: v.denominator(), Origin: v.origin}
}
