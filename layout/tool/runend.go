package tool

import (
	"cmp"
	"slices"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

const (
	endHint  = "J joins this end to the next thing, Shift+J to the one before; the arrows take it off into the air; , and . go to the next corner, Esc lets go"
	endHover = "Drag to join this end to another thing, or to leave it in the air; click it, then J or the arrows"
)

// isEnd reports whether a corner is an end of a run, and which.
func isEnd(s *doc.Scheme, c corner) (r *doc.Run, start, ok bool) {
	r, ok = s.Runs.Get(c.of)
	return r, c.index == 0, ok && (c.index == 0 || c.index == len(r.Legs))
}

// joinedEnd reports whether a hit is on the handle of an end that is joined.
func joinedEnd(s *doc.Scheme, h Hit) bool {
	r, _, ok := isEnd(s, corner{h.ID, h.Vertex})
	return ok && !OwnVertex(r, h.Vertex)
}

// EndHandles calls f for the handles that take the joined ends of a run to something
// else: on the first and the last leg, clear of the symbol that stands there. vertex
// is that of the path. A leg that is drawn very short has none; an end in the air is
// a corner like any other.
func EndHandles(s *doc.Scheme, id doc.ID, reach geom.Length, f func(vertex int, at geom.Point)) {
	r, ok := s.Runs.Get(id)
	if !ok {
		return
	}
	path := doc.RunPath(s, r)
	n := len(path) - 1
	for _, v := range [][2]int{{0, 1}, {n, n - 1}} {
		at, next := path[v[0]], path[v[1]]
		if long := geom.Distance(at, next); !OwnVertex(r, v[0]) && long > 4*reach {
			away := min(reach*5/2, long*2/5)
			f(v[0], straight(at, next, float64(away)/float64(long)))
		}
	}
}

// endTo returns the end of a run at another place, joined to what stands there as one
// that is newly drawn: nothing is kept of how it was terminated before. refused says
// why it cannot go there.
func endTo(w *World, r *doc.Run, start bool, to snapped) (end doc.End, refused string) {
	path := doc.RunPath(w.Scheme, r)
	was, other, next := r.To, r.From, path[len(path)-2]
	if start {
		was, other, next = r.From, r.To, path[1]
	}
	switch {
	case to.rank == geom.RankPoint && to.on == other.On:
		return end, "A run cannot end where it starts"
	case to.at == next:
		return end, "The end must lie away from the corner next to it"
	case to.rank == geom.RankPoint && to.on == was.On:
		return was, "" // it never left
	}
	return endOn(w, to, other, start), ""
}

// moveEnd moves the chosen end of a run by an arrow: off what it is joined to, and
// onto a thing that is nearer than the step.
func (t selecting) moveEnd(e Event, w *World, at geom.Point) Verdict {
	by := arrow(e, w)
	to := snapped{at: at.Add(by), rank: geom.RankFree}
	if c := nearestSpot(w, to.at, by, func(c *catcher) bool { return c.what == aThing }); c != nil {
		to = snapped{at: c.a, rank: geom.RankPoint, on: c.on}
	}
	t.from = nil
	return t.endAt(w, to)
}

// joinNext joins the chosen end of a run to the next thing, in the order of how far
// they are from where the first of such steps began.
func (t selecting) joinNext(w *World, at geom.Point, by int) Verdict {
	r, start, _ := isEnd(w.Scheme, t.corner)
	was, other := r.To, r.From
	if start {
		was, other = other, was
	}
	if t.from == nil {
		t.from = &at
	}
	next := spotAfter(w, *t.from, by, func(c *catcher) bool { return c.what == aThing && c.on != other.On },
		func(c *catcher) bool { return c.on == was.On })
	if next == nil {
		return t.refuse(w, "There is nothing else that this end could be joined to")
	}
	return t.endAt(w, snapped{at: next.a, rank: geom.RankPoint, on: next.on})
}

// endAt takes the chosen end of a run to a place.
func (t selecting) endAt(w *World, to snapped) Verdict {
	r, start, _ := isEnd(w.Scheme, t.corner)
	end, refused := endTo(w, r, start, to)
	if refused != "" {
		return t.refuse(w, refused)
	}
	v := Verdict{Next: t, Hint: endHint, Used: true, Overlay: Overlay{Corner: &to.at, NoteAt: to.at}}
	if to.rank == geom.RankPoint {
		v.Overlay.Note = doc.TagOf(w.Scheme, to.on)
	}
	v.Commit = edit.SetEnd{Run: r.ID, From: start, End: end}
	return v
}

// nearestSpot returns the thing or corner that an arrow key of so much puts something
// on, nil for none. A step with Shift does not reach further than one of the grid.
func nearestSpot(w *World, at, by geom.Point, fits func(*catcher) bool) *catcher {
	if !w.Snap {
		return nil
	}
	step := geom.Distance(geom.Point{}, by)
	if grid := w.Scheme.Plan.Grid; grid > 0 {
		step = min(step, grid)
	}
	var best *catcher
	list, near := placesOf(w), step*3/4+1
	list.cells.Near(geom.Around(at).Grow(near), func(i int) {
		c := &list.list[i]
		if d := geom.Distance(at, c.a); c.what != anEdge && d < near && fits(c) {
			best, near = c, d
		}
	})
	return best
}

// spotAfter returns the thing or corner that comes by places after the one that is
// held, in the order of how far they are from a place; nil for none but that.
func spotAfter(w *World, from geom.Point, by int, fits, held func(*catcher) bool) *catcher {
	var list []*catcher
	for i := range placesOf(w).list {
		if c := &placesOf(w).list[i]; c.what != anEdge && fits(c) {
			list = append(list, c)
		}
	}
	slices.SortStableFunc(list, func(a, b *catcher) int {
		return cmp.Compare(geom.Distance(from, a.a), geom.Distance(from, b.a))
	})
	n, at := len(list), slices.IndexFunc(list, held)
	switch {
	case n == 0 || n == 1 && at == 0:
		return nil
	case at < 0 && by < 0:
		at = 0
	}
	return list[((at+by)%n+n)%n]
}
