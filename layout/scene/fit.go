package scene

import (
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// Scales are the drawing scales used on paper, largest picture first.
var Scales = []int{20, 25, 50, 100, 200, 500, 1000}

// margin is the room left around the plan for labels, mm on paper.
const margin = 8

// Extent returns the rectangle that holds everything drawn; empty for an
// empty scheme.
func Extent(s *doc.Scheme) geom.Rect {
	var r geom.Rect
	for _, a := range s.Areas.All() {
		r = r.Union(geom.Around(a.Ring...))
	}
	for _, l := range s.Lines.All() {
		r = r.Union(geom.Around(l.Path...))
	}
	for _, m := range s.Marks.All() {
		r = r.Union(geom.Around(m.Place.At).Grow(max(m.Radius, m.Crown)))
	}
	for _, u := range s.Runs.All() {
		for _, e := range [2]doc.End{u.From, u.To} {
			if e.On == "" {
				r = r.With(e.At)
			}
		}
		for i, l := range u.Legs {
			if i < len(u.Legs)-1 {
				r = r.With(l.To)
			}
		}
	}
	for _, d := range s.Dimensions.All() {
		r = r.Union(doc.BoundsOf(s, d))
	}
	return r.Union(pointExtent(s))
}

func pointExtent(s *doc.Scheme) geom.Rect {
	var r geom.Rect
	for _, e := range s.Supplies.All() {
		r = r.With(e.Place.At)
	}
	for _, e := range s.Boxes.All() {
		r = r.With(e.Place.At)
	}
	for _, e := range s.Lamps.All() {
		r = r.With(e.Place.At)
	}
	for _, e := range s.Gear.All() {
		r = r.With(e.Place.At)
	}
	for _, e := range s.Sources.All() {
		r = r.With(e.Place.At)
	}
	return r
}

// ScaleFor returns the denominator of the largest of Scales at which the
// scheme fits width by height millimetres with room for labels around it, and
// whether it fits at all; when nothing fits it returns the smallest picture.
func ScaleFor(s *doc.Scheme, width, height float64) (denominator int, fits bool) {
	r := Extent(s)
	if r.Empty() {
		return 50, true
	}
	for _, d := range Scales {
		if Fits(r, d, width, height) {
			return d, true
		}
	}
	return Scales[len(Scales)-1], false
}

// Fits reports whether a rectangle of the plan with room for labels fits the
// paper at a scale.
func Fits(r geom.Rect, denominator int, width, height float64) bool {
	k := 1 / float64(denominator)
	return r.Width().Millimetres()*k+2*margin <= width && r.Height().Millimetres()*k+2*margin <= height
}

// Centred returns the view at a scale with the scheme in the middle of the
// paper.
func Centred(s *doc.Scheme, denominator, width, height float64) View {
	c := Extent(s).Centre()
	k := denominator * float64(geom.Millimetre)
	return View{Denominator: denominator,
		Origin: geom.Point{X: c.X - geom.Length(width/2*k), Y: c.Y + geom.Length(height/2*k)}}
}

// Fit returns the view at the scale of ScaleFor with the scheme in the middle.
func Fit(s *doc.Scheme, width, height float64) View {
	d, _ := ScaleFor(s, width, height)
	return Centred(s, float64(d), width, height)
}
