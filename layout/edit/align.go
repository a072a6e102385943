package edit

import (
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// Alignment says what is brought onto one line.
type Alignment int

const (
	AlignLeft    Alignment = iota // left edges, onto the leftmost
	AlignRight                    // right edges, onto the rightmost
	AlignTop                      // upper edges, onto the highest on the sheet
	AlignBottom                   // lower edges, onto the lowest
	AlignCentreX                  // middles, onto one upright line
	AlignCentreY                  // middles, onto one level line
	AlignLine                     // middles, onto the line from the first to the last
)

// Alignments are all of them with the words of the menu.
var Alignments = []string{"left", "right", "to the top", "to the bottom", "on an upright line", "on a level line", "between first and last"}

// Align brings things onto one line. Edges are those of the rectangle around
// an area or line; a point entity counts with its place. The line of a
// centre alignment goes through the middle of the rectangle around all of
// them. Runs follow.
type Align struct {
	IDs []doc.ID
	How Alignment
}

// Name implements Operation.
func (o Align) Name() string { return "Align " + Alignments[o.How] }

func (o Align) title(s *doc.Scheme) string {
	return "Align " + countedThings(s, o.IDs) + " " + Alignments[o.How]
}

// Apply implements Operation.
func (o Align) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	least := 2
	if o.How == AlignLine {
		least = 3
	}
	ts, err := things(s, o.IDs, least, "align")
	if err != nil {
		return nil, err
	}
	var all geom.Rect
	for _, t := range ts {
		all = all.Union(t.box)
	}
	first, last := ts[0].box.Centre(), ts[len(ts)-1].box.Centre()
	if o.How == AlignLine && first == last {
		return nil, refuse("%s and %s stand at one place, which gives no line", doc.TagOf(s, ts[0].id), doc.TagOf(s, ts[len(ts)-1].id))
	}
	by := map[doc.ID]geom.Point{}
	for _, t := range ts {
		c := t.box.Centre()
		switch o.How {
		case AlignLeft:
			by[t.id] = geom.Point{X: all.Min.X - t.box.Min.X}
		case AlignRight:
			by[t.id] = geom.Point{X: all.Max.X - t.box.Max.X}
		case AlignTop:
			by[t.id] = geom.Point{Y: all.Max.Y - t.box.Max.Y}
		case AlignBottom:
			by[t.id] = geom.Point{Y: all.Min.Y - t.box.Min.Y}
		case AlignCentreX:
			by[t.id] = geom.Point{X: all.Centre().X - c.X}
		case AlignCentreY:
			by[t.id] = geom.Point{Y: all.Centre().Y - c.Y}
		case AlignLine:
			by[t.id] = foot(c, first, last).Sub(c)
		}
	}
	return shiftEach(s, movers(ts, by), "align", by)
}

// movers leaves out what stays where it is, so that a locked thing may be what
// the others are aligned with.
func movers(ts []thing, by map[doc.ID]geom.Point) []thing {
	var out []thing
	for _, t := range ts {
		if by[t.id] != (geom.Point{}) {
			out = append(out, t)
		}
	}
	if len(out) == 0 {
		return ts[:1] // it moves by nothing
	}
	return out
}

// foot returns the nearest point to p on the endless line through a and b.
// t = (p-a)·(b-a) / |b-a|².
func foot(p, a, b geom.Point) geom.Point {
	dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
	t := (float64(p.X-a.X)*dx + float64(p.Y-a.Y)*dy) / (dx*dx + dy*dy)
	return between(a, b, t)
}
