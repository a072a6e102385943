package tool

import (
	"slices"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

const joinHint = "Let go on a thing to join the end to it, elsewhere to leave it in the air; Shift keeps to 15°, Alt lets go of the grid, Esc puts it back"

const bendHint = "Let go to place the corner; Shift keeps to 15°, Alt lets go of the grid, Esc puts it back"

// vertexDrag moves one corner: a bend of a run, an end of it, a new bend pulled
// out of a leg, a corner of an area or line, or a new one pulled out of the middle
// of an edge.
type vertexDrag struct {
	set    *Defaults
	id     doc.ID
	run    *doc.Run     // nil for an area or line
	closed bool         // the last corner joins the first
	path   []geom.Point // as it was when the gesture began, new bend included
	vertex int          // in path
	fresh  bool         // the bend is new
	moved  edit.Operation
}

func newVertexDrag(d *Defaults, s *doc.Scheme, h Hit) vertexDrag {
	t := vertexDrag{set: d, id: h.ID, vertex: h.Vertex}
	t.run, _ = s.Runs.Get(h.ID)
	t.path, t.closed = cornersOf(s, h.ID)
	if h.Vertex == NoVertex {
		edge := h.Leg
		if h.Middle > 0 {
			edge = h.Middle - 1
		}
		t.vertex, t.fresh = edge+1, true
		t.path = slices.Insert(slices.Clone(t.path), t.vertex, t.path[edge])
	}
	return t
}

// Name implements Tool.
func (vertexDrag) Name() string { return NameSelect }

// Handle implements Tool.
func (t vertexDrag) Handle(e Event, w *World) Verdict {
	back := Verdict{Next: NewSelect(t.set), Hint: selectHint}
	switch e.Kind {
	case Move:
		return t.move(e, w)
	case Up:
		if e.Button != LeftButton {
			break
		}
		back.Commit, back.Cancel = t.moved, t.moved == nil
		if o, ok := t.moved.(edit.SetEnd); ok && (o.End == t.run.From && o.From || o.End == t.run.To && !o.From) {
			back.Commit, back.Cancel = nil, true // it was put back
		}
		return back
	case Cancel:
		back.Cancel = true
		return back
	case Key:
		if e.Key == KeyEscape {
			back.Cancel = true
			return back
		}
	}
	return Verdict{Hint: bendHint}
}

func (t vertexDrag) move(e Event, w *World) Verdict {
	start := t.run != nil && t.vertex == 0
	end := t.run != nil && t.vertex == len(t.path)-1
	before, ok := t.beside(-1)
	if !ok {
		before, _ = t.beside(1)
	}
	s := snapTo(e, w, snap{from: &before, step: fine, points: start || end, leave: []doc.ID{t.id}})
	v := Verdict{Hint: bendHint, Overlay: Overlay{Snap: s.mark(), NoteAt: s.at, Note: measure(before, s.at)}}
	switch {
	case start || end:
		v.Hint = joinHint
		e, refused := endTo(w, t.run, start, s)
		if refused != "" {
			t.moved = nil
			v.Refused, v.Cancel, v.Next = refused, true, t
			return v
		}
		t.moved = edit.SetEnd{Run: t.id, From: start, End: e}
		if s.rank == geom.RankPoint {
			v.Overlay.Hover = s.on
		}
	case t.fresh:
		t.moved = edit.InsertVertex{ID: t.id, Index: t.vertex, At: s.at}
	default:
		t.moved = edit.MoveVertex{ID: t.id, Index: t.vertex, To: s.at}
	}
	v.Preview, v.Next = t.moved, t
	v.Overlay.Lines = [][]geom.Point{t.around(s.at)}
	return v
}

// beside returns the corner before (-1) or after (1) the one that moves.
func (t vertexDrag) beside(by int) (geom.Point, bool) {
	n, i := len(t.path), t.vertex+by
	if t.closed {
		i = (i + n) % n
	}
	if i < 0 || i >= n {
		return geom.Point{}, false
	}
	return t.path[i], true
}

// around returns the path beside the vertex with the vertex at a place.
func (t vertexDrag) around(at geom.Point) []geom.Point {
	var out []geom.Point
	if p, ok := t.beside(-1); ok {
		out = append(out, p)
	}
	out = append(out, at)
	if p, ok := t.beside(1); ok {
		out = append(out, p)
	}
	return out
}
