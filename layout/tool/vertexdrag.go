package tool

import (
	"slices"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

const bendHint = "Let go to place the corner; Shift keeps to 15°, Alt lets go of the grid, Esc puts it back"

// vertexDrag moves one corner: a bend of a run, an end of it that hangs in
// the air, a new bend pulled out of the middle of a leg, or a corner of an
// area or line.
type vertexDrag struct {
	set    *Defaults
	id     doc.ID
	run    *doc.Run     // nil for an area or line
	path   []geom.Point // as it was when the gesture began, new bend included
	vertex int          // in path
	fresh  bool         // the bend is new
	moved  edit.Operation
}

func newVertexDrag(d *Defaults, s *doc.Scheme, h Hit) vertexDrag {
	t := vertexDrag{set: d, id: h.ID, vertex: h.Vertex}
	e, _ := doc.Find(s, h.ID)
	switch e := e.(type) {
	case *doc.Run:
		t.run, t.path = e, doc.RunPath(s, e)
	case *doc.Line:
		t.path = e.Path
	case *doc.Area:
		t.path = e.Ring
	}
	if h.Vertex == NoVertex {
		t.vertex, t.fresh = h.Leg+1, true
		t.path = slices.Insert(slices.Clone(t.path), t.vertex, t.path[h.Leg])
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
	before := t.path[1]
	if t.vertex > 0 {
		before = t.path[t.vertex-1]
	}
	s := snapTo(e, w, snap{from: &before, step: fine, points: start || end, leave: []doc.ID{t.id}})
	v := Verdict{Hint: bendHint, Overlay: Overlay{Snap: s.mark(), NoteAt: s.at, Note: measure(before, s.at)}}
	switch {
	case start || end:
		other := t.run.To
		if end {
			other = t.run.From
		}
		if s.rank == geom.RankPoint && other.On == s.on {
			v.Refused = "A run cannot end where it starts"
			v.Next = t
			return v
		}
		t.moved = edit.SetEnd{Run: t.id, From: start, End: endOn(w, s, other)}
	case t.fresh:
		t.moved = edit.InsertVertex{ID: t.id, Index: t.vertex, At: s.at}
	default:
		t.moved = edit.MoveVertex{ID: t.id, Index: t.vertex, To: s.at}
	}
	v.Preview, v.Next = t.moved, t
	v.Overlay.Lines = [][]geom.Point{t.around(s.at)}
	return v
}

// around returns the path beside the vertex with the vertex at a place.
func (t vertexDrag) around(at geom.Point) []geom.Point {
	var out []geom.Point
	if t.vertex > 0 {
		out = append(out, t.path[t.vertex-1])
	}
	out = append(out, at)
	if t.vertex+1 < len(t.path) {
		out = append(out, t.path[t.vertex+1])
	}
	return out
}
