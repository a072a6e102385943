package tool

import (
	"fmt"

	"duskwire/layout/geom"
)

const rectangleHint = "Let go to end the rectangle; Shift makes it square, Alt lets go of the grid, Esc cancels"

// dragsRectangle reports whether the first corner of an area is being dragged
// away from, which draws a rectangle.
func (t tracing) dragsRectangle(e Event) bool {
	return t.what.area && t.held && len(t.corners) == 1 && t.typed == "" && geom.Distance(t.down, e.At) > 2*e.Reach
}

// rectangle returns the ring from the first corner to the one across from it,
// and where the pointer was pulled.
func (t tracing) rectangle(e Event, w *World) ([]geom.Point, snapped) {
	from := t.corners[0]
	to := snapTo(e, w, snap{})
	if e.Mods.Shift {
		to = snapped{at: squared(from, to.at), rank: geom.RankAngle}
	}
	return []geom.Point{from, {X: to.at.X, Y: from.Y}, to.at, {X: from.X, Y: to.at.Y}}, to
}

// squared moves a corner so that both sides from another are the longer one.
func squared(from, to geom.Point) geom.Point {
	v := to.Sub(from)
	side := max(v.X, -v.X, v.Y, -v.Y)
	by := geom.Point{X: side, Y: side}
	if v.X < 0 {
		by.X = -side
	}
	if v.Y < 0 {
		by.Y = -side
	}
	return from.Add(by)
}

func (t tracing) showRectangle(e Event, w *World, v Verdict) Verdict {
	ring, to := t.rectangle(e, w)
	size := geom.Around(ring...)
	v.Hint = rectangleHint
	v.Overlay = Overlay{
		Snap: to.mark(), NoteAt: to.at, Lines: [][]geom.Point{append(ring, ring[0])},
		Note: fmt.Sprintf("%.2f × %.2f m, %s", size.Width().Metres(), size.Height().Metres(), squareMetres(ring)),
	}
	return v
}

// endRectangle adds the rectangle; one without width or height is refused and
// its first corner stays.
func (t tracing) endRectangle(e Event, w *World) Verdict {
	ring, _ := t.rectangle(e, w)
	if ringSize(ring) == 0 {
		return t.refuse(e, w, "A rectangle needs a width and a height")
	}
	t.corners = ring
	return t.finish(e, w)
}
