package tool

import (
	"fmt"
	"math"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

const dragHint = "Let go to place; Shift keeps to 45°, Alt lets go of the grid, Esc puts it back"

// dragging moves the selection. Every move is worked out from where things
// stood when the gesture began, so that snapping never drifts.
type dragging struct {
	set    *Defaults
	ids    []doc.ID
	leave  []doc.ID   // what goes along, with the runs that hang on it
	grab   geom.Point // where the pointer took hold
	anchor geom.Point // place of the thing that is aligned to grid and entities
	by     geom.Point
}

func newDragging(d *Defaults, w *World, grab geom.Point, h Hit) dragging {
	anchor := grab
	if p, ok := doc.PointOf(w.Scheme, h.ID); ok {
		anchor = p.At
	}
	ids := together(w.Scheme, w.Selection)
	return dragging{set: d, ids: ids, leave: withRuns(w.Scheme, ids), grab: grab, anchor: anchor}
}

// withRuns returns the ids with the runs that end on one of them.
func withRuns(s *doc.Scheme, ids []doc.ID) []doc.ID {
	in := make(map[doc.ID]bool, len(ids))
	for _, id := range ids {
		in[id] = true
	}
	out := append([]doc.ID(nil), ids...)
	for _, r := range s.Runs.All() {
		if !in[r.ID] && (in[r.From.On] || in[r.To.On]) {
			out = append(out, r.ID)
		}
	}
	return out
}

// Name implements Tool.
func (dragging) Name() string { return NameSelect }

// Handle implements Tool.
func (t dragging) Handle(e Event, w *World) Verdict {
	back := Verdict{Next: NewSelect(t.set), Hint: selectHint}
	switch e.Kind {
	case Move:
		return t.move(e, w)
	case Up:
		if e.Button != LeftButton {
			break
		}
		if t.by == (geom.Point{}) {
			back.Cancel = true
			return back
		}
		back.Commit = edit.MovePoints{IDs: t.ids, By: t.by}
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
	return Verdict{Hint: dragHint}
}

func (t dragging) move(e Event, w *World) Verdict {
	// The pointer may hold a lamp off its middle; it is the middle that snaps.
	e.At = t.anchor.Add(e.At.Sub(t.grab))
	s := snapTo(e, w, snap{from: &t.anchor, step: coarse, leave: t.leave})
	t.by = s.at.Sub(t.anchor)
	return Verdict{
		Preview: edit.MovePoints{IDs: t.ids, By: t.by},
		Next:    t,
		Hint:    dragHint,
		Overlay: Overlay{
			Snap: s.mark(), NoteAt: s.at,
			Note:  offsetNote(t.by),
			Lines: [][]geom.Point{{t.anchor, s.at}},
		},
	}
}

// together returns the ids with the runs that have both ends on one of them,
// so that a group moves with its cables.
func together(s *doc.Scheme, ids []doc.ID) []doc.ID {
	return edit.Together(s, ids)
}

func offsetNote(by geom.Point) string {
	return fmt.Sprintf("%.2f m  (%+.2f, %+.2f)", math.Hypot(by.X.Metres(), by.Y.Metres()), by.X.Metres(), by.Y.Metres())
}
