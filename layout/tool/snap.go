package tool

import (
	"slices"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// coarse and fine are the steps of direction, in degrees, that Shift holds a
// dragged thing and a new leg to.
const (
	coarse = 45
	fine   = 15
)

// Snaps says what catches the pointer while snapping is on; the zero value is
// everything, beside walls at 50 mm.
type Snaps struct {
	NoGrid, NoCorner, NoEdge, NoFoot, NoExtension, NoAlong, NoTrack bool
	// Beside is the distance from walls at which a line catches the pointer;
	// 0 for the usual one.
	Beside geom.Length
}

// besideWall is the usual distance of a line beside a wall: a cable clear of
// the foot of the wall. Common practice, no source.
const besideWall = 50 * geom.Millimetre

// Off returns the distance of the line beside walls.
func (s Snaps) Off() geom.Length {
	if s.Beside > 0 {
		return s.Beside
	}
	return besideWall
}

// snap says how one gesture snaps.
type snap struct {
	// from is the place that the next leg starts from: Shift measures directions
	// from it, and what is square to it or level with it catches. nil for none.
	from *geom.Point
	// before is the vertex before from; the line through both goes on.
	before *geom.Point
	step   float64
	// points lets the pointer be caught by point entities.
	points bool
	// leave are entities that must not catch it, such as the ones dragged.
	leave []doc.ID
	// closing is the corner that closes what is drawn; nil for none.
	closing *geom.Point
}

// snapped is where the pointer was pulled to.
type snapped struct {
	at     geom.Point
	rank   geom.Rank
	on     doc.ID // entity that caught it, "" for none
	corner int    // of on, or the number of its edge
}

// Caught is how the pointer was caught: the place, the kind, the lines that led
// there, and a word for the status bar.
type Caught struct {
	At     geom.Point
	Rank   geom.Rank
	Guides []geom.Ruler
	Word   string
}

// mark returns the place of the snap mark, nil when the pointer is free.
func (s snapped) mark() *geom.Point {
	if s.rank == geom.RankFree {
		return nil
	}
	at := s.at
	return &at
}

// anchor returns the anchor of a dimension at a snapped place: on the entity
// or corner that caught it, else in the air.
func (s snapped) anchor() doc.Anchor {
	if s.rank == geom.RankPoint || s.rank == geom.RankVertex && s.on != "" {
		return doc.Anchor{On: s.on, Corner: s.corner}
	}
	return doc.Anchor{At: s.at}
}

// snapTo pulls the pointer of an event: to spots, which are point entities,
// corners, feet and crossings, else to lines, which are edges, lines beside
// walls and guides, else to the grid. With Shift only the ray of a round
// direction is a line. Among spots, and among lines, the nearest wins, with the
// weights of geom.Magnet. Alt lets go of all but the direction.
//
// What spots and lines have caught stays where it is when it is snapped again.
// A grid point is given up for a spot or line in reach of it. A pointer moved by
// keys stays where they have put it: see Event.Keyed.
func snapTo(e Event, w *World, how snap) snapped {
	f := newFinder(e, w, how)
	w.asked = &question{e, how}
	s := f.find()
	w.caught = f.caught(s)
	if (s.rank == geom.RankPoint || s.rank == geom.RankVertex) && e.Kind == Move {
		at := s.at
		w.visited = &at
	}
	return s
}

// finder is one snap while it is worked out.
type finder struct {
	e     Event
	w     *World
	how   snap
	free  bool
	grid  geom.Length
	leave map[doc.ID]bool
	// How near spots and lines catch.
	spots, rulers geom.Length

	lines  []line
	chosen line // that has caught the pointer, when a line has
	found  []candidate
}

// candidate is a spot that may catch the pointer.
type candidate struct {
	snapped
	guides []line // that lead there
}

// line is an edge, or a guide made from one.
type line struct {
	geom.Ruler
	rank  geom.Rank
	on    doc.ID
	edge  int
	off   geom.Length // from the pointer
	foot  geom.Point  // nearest to the pointer
	word  string      // of a guide
	start geom.Point  // where the guide is drawn from
}

func newFinder(e Event, w *World, how snap) *finder {
	f := &finder{e: e, w: w, how: how, free: !w.Snap || e.Mods.Alt, leave: make(map[doc.ID]bool, len(how.leave)),
		spots: spotReach(e), rulers: rulerReach(e)}
	for _, id := range how.leave {
		f.leave[id] = true
	}
	if !f.free && !w.Snaps.NoGrid && !e.Keyed {
		f.grid = w.Scheme.Plan.Grid
	}
	return f
}

func (f *finder) find() snapped {
	turned := f.e.Mods.Shift && f.how.from != nil && !f.e.Keyed
	if f.free {
		if turned {
			return snapped{at: geom.ToAngle(*f.how.from, f.e.At, f.how.step, 0), rank: geom.RankAngle}
		}
		return snapped{at: f.e.At, rank: geom.RankFree}
	}
	if s, ok := f.spot(f.e.At, turned); ok {
		return s
	}
	if turned {
		return snapped{at: geom.ToAngle(*f.how.from, f.e.At, f.how.step, f.grid), rank: geom.RankAngle}
	}
	if s, ok := f.onLine(); ok {
		return s
	}
	if f.grid > 0 || f.onGrid() {
		return snapped{at: geom.ToGrid(f.e.At, f.grid), rank: geom.RankGrid}
	}
	return snapped{at: f.e.At, rank: geom.RankFree}
}

// spot returns the spot that catches the pointer at a place.
func (f *finder) spot(at geom.Point, turned bool) (snapped, bool) {
	f.collect(at, turned)
	m := geom.NewMagnet(at, f.spots)
	for i, c := range f.found {
		if f.e.Keyed && geom.Distance(at, c.at) > f.spots {
			continue // a thing is taken from further off only by hand
		}
		m.Offer(c.at, c.rank, i)
	}
	if _, _, key := m.Caught(); key >= 0 {
		f.lines = f.found[key].guides
		return f.found[key].snapped, true
	}
	return snapped{}, false
}

// onLine returns the place on the line that catches the pointer: where it
// passes the grid, unless a spot or another line would take that away, else
// the nearest.
func (f *finder) onLine() (snapped, bool) {
	s, ok := f.along(f.e.At)
	// Lines that are a micrometre apart may hand the place on once.
	for range 3 {
		if !ok || s.rank < geom.RankEdge {
			break
		}
		next, still := f.along(s.at)
		if !still || next.at == s.at {
			break
		}
		s = next
	}
	return s, ok
}

// along is onLine for a place whose lines have been collected.
func (f *finder) along(at geom.Point) (snapped, bool) {
	l, ok := f.nearest(at)
	if !ok {
		return snapped{}, false
	}
	q := l.Slide(l.foot, f.grid)
	_, taken := f.spot(q, false)
	if o, ok := f.nearest(q); taken || !ok || o.Slide(o.foot, f.grid) != q {
		q = l.foot
		if s, taken := f.spot(q, false); taken {
			return s, true
		}
	}
	f.chosen = l
	return snapped{at: q, rank: l.rank, on: l.on, corner: l.edge}, true
}

// nearest returns which of the lines collected last catches a place.
func (f *finder) nearest(at geom.Point) (line, bool) {
	m := geom.NewMagnet(at, f.rulers)
	for i, l := range f.lines {
		m.Offer(l.foot, l.rank, i)
	}
	if _, _, key := m.Caught(); key >= 0 {
		return f.lines[key], true
	}
	return line{}, false
}

// caught returns what the overlay and the status bar say of the place.
func (f *finder) caught(s snapped) Caught {
	c := Caught{At: s.at, Rank: s.rank}
	tag := doc.TagOf(f.w.Scheme, s.on)
	switch s.rank {
	case geom.RankPoint:
		c.Word = "On " + tag
	case geom.RankVertex:
		c.Word = "Corner of " + tag
		if _, point := doc.PointOf(f.w.Scheme, s.on); point {
			c.Word = "On " + tag
		}
	case geom.RankAngle:
		c.Word = "Round angle"
	case geom.RankGrid:
		c.Word = "Grid"
	case geom.RankFoot:
		c.Word = "Square to " + tag
		c.Guides = f.drawn(s.at)
	case geom.RankCross:
		a, b := f.name(f.lines[0]), f.name(f.lines[1])
		c.Word = "Crossing of " + a + " and " + b
		if a == b {
			c.Word = "Corner " + a
		}
		c.Guides = f.drawn(s.at)
	case geom.RankEdge, geom.RankAlong, geom.RankExtension, geom.RankTrack:
		f.lines = []line{f.chosen}
		c.Word = upper(f.name(f.chosen))
		if s.rank == geom.RankEdge {
			c.Word = "On " + c.Word
		}
		c.Guides = f.drawn(s.at)
	}
	return c
}

// name says what a line is: "N1", "50 mm beside N1", "in line with A1".
func (f *finder) name(l line) string {
	if l.word != "" {
		return l.word
	}
	tag := doc.TagOf(f.w.Scheme, l.on)
	switch l.rank {
	case geom.RankAlong:
		return doc.Written(f.w.Snaps.Off()) + " beside " + tag
	case geom.RankExtension:
		return "in line with " + tag
	}
	return tag
}

func upper(s string) string {
	if s != "" && s[0] >= 'a' && s[0] <= 'z' {
		return string(s[0]-'a'+'A') + s[1:]
	}
	return s
}

// drawn returns the guides to show for a place. An edge is on the plan already.
func (f *finder) drawn(at geom.Point) (out []geom.Ruler) {
	for _, l := range f.lines {
		switch l.rank {
		case geom.RankEdge:
		case geom.RankAlong:
			out = append(out, l.Ruler)
		default:
			out = append(out, geom.Ruler{A: l.start, B: at})
		}
	}
	return out
}

func holds(ids []doc.ID, id doc.ID) bool { return slices.Contains(ids, id) }
