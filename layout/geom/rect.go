package geom

// Rect is an axis-parallel rectangle with Min at the lower left. The zero
// Rect is empty.
type Rect struct {
	Min, Max Point
	set      bool
}

// Around returns the smallest rectangle that holds the points.
func Around(ps ...Point) Rect {
	var r Rect
	for _, p := range ps {
		r = r.With(p)
	}
	return r
}

// Empty reports whether the rectangle holds no point at all.
func (r Rect) Empty() bool { return !r.set }

// With returns the rectangle grown to hold p.
func (r Rect) With(p Point) Rect {
	if !r.set {
		return Rect{p, p, true}
	}
	r.Min.X, r.Min.Y = min(r.Min.X, p.X), min(r.Min.Y, p.Y)
	r.Max.X, r.Max.Y = max(r.Max.X, p.X), max(r.Max.Y, p.Y)
	return r
}

// Union returns the smallest rectangle that holds both.
func (r Rect) Union(o Rect) Rect {
	if !o.set {
		return r
	}
	return r.With(o.Min).With(o.Max)
}

// Grow returns the rectangle grown by d on every side; empty stays empty.
func (r Rect) Grow(d Length) Rect {
	if !r.set {
		return r
	}
	r.Min.X, r.Min.Y, r.Max.X, r.Max.Y = r.Min.X-d, r.Min.Y-d, r.Max.X+d, r.Max.Y+d
	return r
}

// Contains reports whether p lies in the rectangle, edges included.
func (r Rect) Contains(p Point) bool {
	return r.set && p.X >= r.Min.X && p.X <= r.Max.X && p.Y >= r.Min.Y && p.Y <= r.Max.Y
}

// Width returns the extent in x.
func (r Rect) Width() Length { return r.Max.X - r.Min.X }

// Height returns the extent in y.
func (r Rect) Height() Length { return r.Max.Y - r.Min.Y }

// Centre returns the middle of the rectangle.
func (r Rect) Centre() Point {
	return Point{(r.Min.X + r.Max.X) / 2, (r.Min.Y + r.Max.Y) / 2}
}
