package doc

import "duskwire/layout/geom"

// PointOf returns where the point entity stands: a supply point, box, lamp,
// gear, source or mark. ok is false for anything else.
func PointOf(s *Scheme, id ID) (p Place, ok bool) {
	e, _ := Find(s, id)
	return PlaceOf(e)
}

// PlaceOf returns where e stands; ok is false when it is no point entity.
func PlaceOf(e Entity) (p Place, ok bool) {
	switch e := e.(type) {
	case *Supply:
		return e.Place, true
	case *Box:
		return e.Place, true
	case *Lamp:
		return e.Place, true
	case *Gear:
		return e.Place, true
	case *Source:
		return e.Place, true
	case *Mark:
		return e.Place, true
	}
	return Place{}, false
}

// Joinable reports whether a run may end on the kind.
func (k Kind) Joinable() bool {
	switch k {
	case SupplyKind, BoxKind, LampKind, GearKind, SourceKind:
		return true
	}
	return false
}

// EndPoint returns the place of a run's end on the plan.
func EndPoint(s *Scheme, e End) geom.Point {
	if e.On == "" {
		return e.At
	}
	p, _ := PointOf(s, e.On)
	return p.At
}

// RunPath returns the corners of the run on the plan: its start, the end of
// every leg but the last, and its end. It has one point more than legs.
func RunPath(s *Scheme, r *Run) []geom.Point {
	path := make([]geom.Point, 0, len(r.Legs)+1)
	path = append(path, EndPoint(s, r.From))
	for i := 0; i+1 < len(r.Legs); i++ {
		path = append(path, r.Legs[i].To)
	}
	return append(path, EndPoint(s, r.To))
}

// RunsAt returns the runs that end on the entity, in run order.
func RunsAt(s *Scheme, id ID) []*Run {
	var runs []*Run
	for _, r := range s.Runs.All() {
		if r.From.On == id || r.To.On == id {
			runs = append(runs, r)
		}
	}
	return runs
}

// BoundsOf returns the smallest rectangle around what is drawn of e; empty
// for a zone.
func BoundsOf(s *Scheme, e Entity) geom.Rect {
	switch e := e.(type) {
	case *Run:
		return geom.Around(RunPath(s, e)...)
	case *Area:
		return geom.Around(e.Ring...)
	case *Line:
		return geom.Around(e.Path...)
	case *Dimension:
		sh := ShapeOf(s, e)
		return geom.Around(sh.From, sh.To, sh.A, sh.B)
	case *Mark:
		return geom.Around(e.Place.At).Grow(max(e.Radius, e.Crown))
	}
	if p, ok := PlaceOf(e); ok {
		return geom.Around(p.At)
	}
	return geom.Rect{}
}

// Bounds returns the smallest rectangle around everything drawn; empty for an
// empty scheme.
func Bounds(s *Scheme) geom.Rect {
	var r geom.Rect
	Each(s, func(e Entity, _ Kind) { r = r.Union(BoundsOf(s, e)) })
	return r
}

// New returns an empty scheme under the rule set, at 1:50 on a half-metre grid.
func New(rules string) *Scheme {
	return &Scheme{
		Title: "New scheme",
		Rules: rules,
		Plan:  Plan{Scale: 50, Grid: 500 * geom.Millimetre},
	}
}

// StockOf returns the stock key of an entity, of a run its cable; "" for what
// is no stock item.
func StockOf(e Entity) string {
	switch e := e.(type) {
	case *Box:
		return e.Stock
	case *Lamp:
		return e.Stock
	case *Gear:
		return e.Stock
	case *Source:
		return e.Stock
	case *Run:
		return e.Cable
	}
	return ""
}
