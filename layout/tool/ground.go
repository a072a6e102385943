package tool

import (
	"slices"
	"strings"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// Ground holds the patterns of the next area, line and mark drawn: kind, depth
// of digging, height, owner. Ids, tags and places are filled in.
type Ground struct {
	Area doc.Area
	Line doc.Line
	Mark doc.Mark
	// Round says that an area is drawn by its middle and radius.
	Round bool
}

// NewGround returns the patterns that a new window starts with.
func NewGround() Ground {
	return Ground{Area: doc.UsualArea("lawn"), Line: doc.UsualLine("wall"), Mark: doc.UsualMark("tree")}
}

// Choose makes the kind the next one drawn, with its usual figures, and returns
// the name of the tool that draws it; "" when there is no such kind.
func (g *Ground) Choose(kind string) (name string) {
	switch {
	case slices.Contains(doc.AreaKinds, kind):
		g.Area, name = doc.UsualArea(kind), NameArea
	case slices.Contains(doc.LineKinds, kind):
		g.Line, name = doc.UsualLine(kind), NameLine
	case slices.Contains(doc.MarkKinds, kind):
		g.Mark, name = doc.UsualMark(kind), NameMark
	}
	return name
}

// capital returns a word with its first letter in upper case.
func capital(word string) string {
	if word == "" {
		return ""
	}
	return strings.ToUpper(word[:1]) + word[1:]
}

// NewArea returns the tool that draws areas of the chosen kind, by corners or
// as a rectangle by dragging, or round ones when the defaults say so.
func NewArea(d *Defaults) Tool {
	if d.Ground.Round {
		return rounding{set: d}
	}
	return tracing{set: d, what: areaShape}
}

// NewLine returns the tool that draws walls, fences and the other lines.
func NewLine(d *Defaults) Tool { return tracing{set: d, what: lineShape} }

// NewMark returns the tool that places trees, windows and the other marks.
func NewMark(d *Defaults) Tool {
	return placing{set: d, kind: kind{NameMark, markHint(d), makeMark}}
}

// shape is what a tracing draws.
type shape struct {
	name  string
	noun  func(*Defaults) string // "lawn"
	least int                    // corners it needs
	area  bool                   // its last corner joins the first
	// add returns the operation that adds it with its corners.
	add func(d *Defaults, s *doc.Scheme, id doc.ID, corners []geom.Point) edit.Operation
}

var areaShape = &shape{
	name: NameArea, noun: func(d *Defaults) string { return d.Ground.Area.Kind }, least: 3, area: true,
	add: func(d *Defaults, s *doc.Scheme, id doc.ID, corners []geom.Point) edit.Operation {
		a := d.Ground.Area
		a.ID, a.Tag, a.Ring = id, doc.FreeTag(s, doc.AreaKind), corners
		return edit.AddArea{Area: &a}
	},
}

var lineShape = &shape{
	name: NameLine, noun: func(d *Defaults) string { return d.Ground.Line.Kind }, least: 2,
	add: func(d *Defaults, s *doc.Scheme, id doc.ID, corners []geom.Point) edit.Operation {
		l := d.Ground.Line
		l.ID, l.Tag, l.Path = id, doc.FreeTag(s, doc.LineKind), corners
		return edit.AddLine{Line: &l}
	},
}

func makeMark(d *Defaults, w *World, id doc.ID, at geom.Point) (doc.Entity, string) {
	m := d.Ground.Mark
	for _, other := range w.Scheme.Marks.All() {
		if other.Place.At == at && other.Kind == m.Kind {
			return nil, other.Tag + " stands there already"
		}
	}
	m.ID, m.Tag, m.Place.At = id, doc.FreeTag(w.Scheme, doc.MarkKind), at
	return &m, ""
}
