package edit

import (
	"math"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// Mirror reflects entities about the line through two points, with the runs
// that lie between them; tags stay. The aim of a lamp is mirrored too, and its
// spin. About an upright or level line it is exact, and twice is as it was; about
// another line places are rounded to the micrometre.
type Mirror struct {
	IDs  []doc.ID
	A, B geom.Point
}

// MirrorUpright mirrors left and right about the middle of the selection, and
// MirrorLevel up and down.
func MirrorUpright(s *doc.Scheme, ids []doc.ID) Mirror {
	c := middle(s, ids)
	return Mirror{ids, c, c.Add(geom.Point{Y: geom.Metre})}
}

// MirrorLevel mirrors up and down about the middle of the selection.
func MirrorLevel(s *doc.Scheme, ids []doc.ID) Mirror {
	c := middle(s, ids)
	return Mirror{ids, c, c.Add(geom.Point{X: geom.Metre})}
}

// middle returns the middle of what the ids are drawn as.
func middle(s *doc.Scheme, ids []doc.ID) geom.Point {
	var all geom.Rect
	for _, id := range ids {
		e, k := doc.Find(s, id)
		if p, ok := doc.PlaceOf(e); ok {
			all = all.With(p.At)
		} else if k != doc.NoKind {
			all = all.Union(doc.BoundsOf(s, e))
		}
	}
	return all.Centre()
}

// Name implements Operation.
func (o Mirror) Name() string {
	switch {
	case o.A.X == o.B.X:
		return "Mirror left and right"
	case o.A.Y == o.B.Y:
		return "Mirror up and down"
	}
	return "Mirror about a line"
}

func (o Mirror) title(s *doc.Scheme) string {
	return "Mirror " + counted(s, o.IDs) + o.Name()[len("Mirror"):]
}

// Apply implements Operation.
func (o Mirror) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	if o.A == o.B {
		return nil, refuse("the mirror line has no length")
	}
	// Directions of the plan are anticlockwise from right, aims clockwise from up.
	axis := 90 - geom.Direction(o.A, o.B)
	c := change{point: o.image, turn: func(l *doc.Lamp) {
		l.Spin = -l.Spin + 0 // no minus zero
		if l.Aim != 0 || l.Tilt != 0 {
			l.Aim = aimed(2*axis-l.Aim, l.Tilt)
		}
	}}
	ids := Together(s, o.IDs)
	return reshape(s, ids, "mirror", func(doc.ID) change { return c })
}

func (o Mirror) image(p geom.Point) geom.Point {
	switch {
	case o.A.X == o.B.X:
		return geom.Point{X: 2*o.A.X - p.X, Y: p.Y}
	case o.A.Y == o.B.Y:
		return geom.Point{X: p.X, Y: 2*o.A.Y - p.Y}
	}
	dx, dy := float64(o.B.X-o.A.X), float64(o.B.Y-o.A.Y)
	px, py := float64(p.X-o.A.X), float64(p.Y-o.A.Y)
	// p' = a + 2·d·(p·d)/|d|² - p, seen from a.
	t := 2 * (px*dx + py*dy) / (dx*dx + dy*dy)
	return geom.Point{
		X: o.A.X + geom.Length(math.Round(t*dx-px)),
		Y: o.A.Y + geom.Length(math.Round(t*dy-py)),
	}
}

// aimed brings an aim into a full turn. A level beam that points straight up
// the sheet is written as 360 degrees, since aim and tilt both 0 mean a lamp
// that nobody has aimed. Rounding to a billionth of a degree keeps an angle that
// was typed what it was after two turns.
func aimed(degrees, tilt float64) float64 {
	a := math.Round(degrees*1e9) / 1e9
	a = math.Round(math.Mod(math.Mod(a, 360)+360, 360)*1e9) / 1e9
	if a == 360 {
		a = 0
	}
	if a == 0 && tilt == 0 {
		return 360
	}
	return a
}
