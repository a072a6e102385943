package tool

import (
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// PictureMark is the handle that turns the picture under the plan.
type PictureMark struct {
	Foot   geom.Point // of the stem
	Handle geom.Point // drag it to turn the picture
	Middle geom.Point // that it turns about
	// Held says that it is being dragged.
	Held bool
}

// Lengths about the handle in pick radii: of its stem, how far it stays off the
// edge of what is seen, and how near the middle it would turn too fast.
const stemReaches, viewReaches, middleReaches = 3, 2, 8

// newPictureMark returns the handle on its stem beyond the middle of the upper edge
// of the picture, or, where that is not seen, at the edge of the view.
func newPictureMark(u doc.Underlay, view geom.Rect, reach geom.Length) PictureMark {
	m := PictureMark{Middle: u.Middle()}
	edge := u.Place(doc.Spot{X: float64(u.Width) / 2})
	m.Handle = geom.Toward(edge, u.Turn, stemReaches*reach)
	in := view.Grow(-viewReaches * reach)
	if in.Width() > 0 && in.Height() > 0 && !in.Contains(m.Handle) && view.Overlaps(u.Bounds()) {
		m.Handle = within(in, m.Handle)
		if geom.Distance(m.Handle, m.Middle) < middleReaches*reach {
			for _, c := range []geom.Point{in.Min, in.Max, {X: in.Min.X, Y: in.Max.Y}, {X: in.Max.X, Y: in.Min.Y}} {
				if geom.Distance(c, m.Middle) > geom.Distance(m.Handle, m.Middle) {
					m.Handle = c
				}
			}
		}
	}
	m.Foot = geom.Toward(m.Handle, u.Turn+180, stemReaches*reach)
	return m
}

// within returns the point of a rectangle that is nearest to a point.
func within(r geom.Rect, p geom.Point) geom.Point {
	return geom.Point{X: min(max(p.X, r.Min.X), r.Max.X), Y: min(max(p.Y, r.Min.Y), r.Max.Y)}
}

// PictureMark returns the handle that turns the picture, of a scheme that is shown:
// with the tool for pictures in hand wherever the picture lies, and with Select
// while nothing is selected, which is when the panel has the picture; then at its
// edge only, so that it is not in the way of who draws over the picture. ok is
// false for none: nor has a locked picture one.
func (s *Session) PictureMark(shown *doc.Scheme, view geom.Rect, reach geom.Length) (PictureMark, bool) {
	u := shown.Plan.Underlay
	if !u.Present() || u.Lock {
		return PictureMark{}, false
	}
	switch t := s.tool.(type) {
	case turning:
		m := newPictureMark(t.was, view, reach)
		m.Held = true
		m.Handle = geom.Toward(m.Middle, geom.Bearing(m.Middle, t.from)+t.angle-t.was.Turn, geom.Distance(m.Middle, t.from))
		m.Foot = geom.Toward(m.Handle, t.angle+180, stemReaches*reach)
		return m, true
	case shifting:
		return newPictureMark(u, view, reach), !t.held
	case selecting, pointing:
		if turnable(&s.world) {
			return newPictureMark(u, geom.Rect{}, reach), true
		}
	}
	return PictureMark{}, false
}

// turnable reports whether the picture has its handle while Select is in hand.
func turnable(w *World) bool {
	u := w.Scheme.Plan.Underlay
	return len(w.Selection) == 0 && u.Present() && !u.Lock && u.Fade < 1 && !w.NoPicture
}

// onPictureMark reports whether the pointer is on the handle of the picture.
func onPictureMark(u doc.Underlay, e Event) bool {
	return geom.Distance(e.At, newPictureMark(u, e.View, e.Reach).Handle) <= e.Reach
}

// pickTurn returns the hit on the handle of the picture while Select is in hand.
func pickTurn(w *World, e Event) (Hit, bool) {
	e.View = geom.Rect{}
	if !turnable(w) || !onPictureMark(w.Scheme.Plan.Underlay, e) {
		return Hit{}, false
	}
	return Hit{Vertex: NoVertex, Leg: NoVertex, Turn: true}, true
}
