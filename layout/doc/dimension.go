package doc

import (
	"fmt"
	"math"
	"strconv"

	"duskwire/layout/geom"
)

// Dimension is a dimension line that measures the plan as it is. What it reads
// is never kept: it follows from where its two anchors stand.
type Dimension struct {
	ID       ID
	Tag      string
	Kind     string // one of DimensionKinds
	From, To Anchor
	// Offset is how far the dimension line stands off what it measures: to the
	// left of the way from From to To when aligned, above From when horizontal,
	// right of From when vertical; negative on the other side.
	Offset geom.Length
	Lock   bool // see Locked
}

// Key and Label make a dimension an Entity.

func (e *Dimension) Key() ID       { return e.ID }
func (e *Dimension) Label() string { return e.Tag }

// What a dimension measures: the straight distance, or the part of it that runs
// across or up the sheet.
const (
	Aligned    = "aligned"
	Horizontal = "horizontal"
	Vertical   = "vertical"
)

// DimensionKinds are what a dimension may measure.
var DimensionKinds = []string{Aligned, Horizontal, Vertical}

// Anchor is one end of what a dimension measures: it follows a point entity or
// a corner of a run, area or line, or stands at a point of its own.
type Anchor struct {
	On ID
	// Corner counts from 0 along the run's path (see RunPath), ring or path of
	// On; 0 on a point entity.
	Corner int
	At     geom.Point // when On is ""
}

// Corners returns the points that an anchor may follow on an entity: the place
// of a point entity, the corners of a run, ring or path; none for the rest.
func Corners(s *Scheme, e Entity) []geom.Point {
	switch e := e.(type) {
	case *Run:
		return RunPath(s, e)
	case *Area:
		return e.Ring
	case *Line:
		return e.Path
	}
	if p, ok := PlaceOf(e); ok {
		return []geom.Point{p.At}
	}
	return nil
}

// AnchorPoint returns where an anchor stands. One on nothing, or past the last
// corner, which Check reports, stands at its At.
func AnchorPoint(s *Scheme, a Anchor) geom.Point {
	if a.On == "" {
		return a.At
	}
	e, _ := Find(s, a.On)
	if r, ok := e.(*Run); ok { // without making the whole path
		switch n := len(r.Legs); {
		case a.Corner == 0:
			return EndPoint(s, r.From)
		case a.Corner > 0 && a.Corner < n:
			return r.Legs[a.Corner-1].To
		case a.Corner == n:
			return EndPoint(s, r.To)
		}
		return a.At
	}
	if ps := Corners(s, e); a.Corner >= 0 && a.Corner < len(ps) {
		return ps[a.Corner]
	}
	return a.At
}

// DimensionShape is a dimension as drawn: what it measures between, the ends of
// its dimension line, and what it reads.
type DimensionShape struct {
	From, To geom.Point
	A, B     geom.Point // ends of the dimension line, at From's side and at To's
	Measured geom.Length
}

// ShapeOf returns the dimension as drawn on the scheme. Measured is the
// distance from From to To, |Δx| when horizontal, |Δy| when vertical.
func ShapeOf(s *Scheme, d *Dimension) DimensionShape {
	f, t := AnchorPoint(s, d.From), AnchorPoint(s, d.To)
	sh := DimensionShape{From: f, To: t}
	switch d.Kind {
	case Horizontal:
		sh.A, sh.B = geom.Point{X: f.X, Y: f.Y + d.Offset}, geom.Point{X: t.X, Y: f.Y + d.Offset}
	case Vertical:
		sh.A, sh.B = geom.Point{X: f.X + d.Offset, Y: f.Y}, geom.Point{X: f.X + d.Offset, Y: t.Y}
	default:
		sh.A, sh.B = f, t
		if r, ok := (geom.Ruler{A: f, B: t}).Beside(d.Offset); ok {
			sh.A, sh.B = r.A, r.B
		}
	}
	sh.Measured = geom.Distance(sh.A, sh.B)
	if d.Kind == Aligned {
		sh.Measured = geom.Distance(f, t)
	}
	return sh
}

// OffsetAt returns the offset of a dimension of the kind between two points
// whose dimension line passes through p.
func OffsetAt(kind string, from, to, p geom.Point) geom.Length {
	v := p.Sub(from)
	switch kind {
	case Horizontal:
		return v.Y
	case Vertical:
		return v.X
	}
	dx, dy := float64(to.X-from.X), float64(to.Y-from.Y)
	n := math.Hypot(dx, dy)
	if n == 0 {
		return 0
	}
	return geom.Length(math.Round((float64(v.Y)*dx - float64(v.X)*dy) / n))
}

// Read returns the measured length as it is lettered: metres to the millimetre.
func (sh DimensionShape) Read() string { return fmt.Sprintf("%.3f m", sh.Measured.Metres()) }

func (r *report) dimension(e *Dimension) {
	r.oneOf("kind", e.Kind, DimensionKinds)
	r.anchor("from", e.From)
	r.anchor("to", e.To)
	if e.From.On != "" && e.From == e.To {
		r.add("to", "the place of from", "another place than it measures from")
	}
	r.span("offset", e.Offset, -Far, Far)
}

func (r *report) anchor(field string, a Anchor) {
	if a.On == "" {
		r.point(field+".at", a.At)
		if a.Corner != 0 {
			r.add(field+".corner", strconv.Itoa(a.Corner+1), "none: it is on nothing")
		}
		return
	}
	e, _ := Find(r.s, a.On)
	n := len(Corners(r.s, e))
	if n == 0 {
		r.add(field+".on", strconv.Quote(string(a.On)), "the id of something with a place or corners")
		return
	}
	if a.Corner < 0 || a.Corner >= n {
		r.add(field+".corner", strconv.Itoa(a.Corner+1), fmt.Sprintf("a corner from 1 to %d", n))
	}
}
