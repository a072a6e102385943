package tool

import (
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// SplitAt returns the operation that splits the run under the pointer where it
// is nearest, with the box chosen in the tray; refused says why there is none.
func SplitAt(s *doc.Scheme, stock *doc.Stock, d *Defaults, h Hit, at geom.Point) (op edit.SplitRun, refused string) {
	r, ok := s.Runs.Get(h.ID)
	if !ok {
		return op, "Point at the run that is to be split first"
	}
	path := doc.RunPath(s, r)
	leg := h.Leg
	switch {
	case h.Vertex != NoVertex: // on a corner: where the leg after it starts
		leg = min(h.Vertex, len(r.Legs)-1)
		at = path[h.Vertex]
	case leg == NoVertex || leg >= len(r.Legs):
		return op, "Point at the leg that is to be split first"
	default:
		at, _ = geom.Nearest(at, path[leg], path[leg+1])
	}
	if why := taken(s, at); why != "" {
		return op, why
	}
	box, why := makeBox(d, &World{Scheme: s, Stock: stock}, d.id(), at)
	if why != "" {
		return op, why
	}
	return edit.SplitRun{Run: r.ID, Leg: leg, At: at, Box: box.(*doc.Box), New: d.id()}, ""
}
