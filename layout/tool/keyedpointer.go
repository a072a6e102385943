package tool

import (
	"cmp"
	"slices"

	"duskwire/layout/geom"
)

const (
	// fineStep is how far an arrow with Shift moves the pointer.
	fineStep = geom.Centimetre
	// jumpReach is how far a jump goes, in reaches.
	jumpReach = 4
	// onLine is how near a line that catches must be to a pointer moved by keys: one
	// step would nearly always find some line otherwise.
	onLine = geom.Millimetre
)

// Stepped returns where an arrow key takes the pointer, and the step: to the next
// place of the grid, with fine of a centimetre. It moves along one axis and leaves
// the other as it is, so that it can follow a wall; a fresh pointer, which the
// mouse has left somewhere, is brought onto the steps both ways. ok is false for
// any other key.
func Stepped(at geom.Point, key string, grid geom.Length, fine, fresh bool) (to geom.Point, step geom.Length, ok bool) {
	if step = grid; fine || step <= 0 {
		step = fineStep
	}
	to = at.Add(map[string]geom.Point{KeyUp: {Y: step}, KeyDown: {Y: -step}, KeyLeft: {X: -step}, KeyRight: {X: step}}[key])
	round := geom.ToGrid(to, step)
	switch {
	case to == at:
		return at, 0, false
	case fresh:
		to = round
	case to.X != at.X:
		to.X = round.X
	default:
		to.Y = round.Y
	}
	return to, step, true
}

// spotReach is how near a thing or corner must be to catch the pointer. By keys that
// is less than a step, so that each can be left again and each can be come to: no
// place is further than 0.71 of a step from the nearest on the steps.
func spotReach(e Event) geom.Length {
	if e.Keyed {
		return max(e.Step*3/4, onLine)
	}
	return e.Reach
}

// rulerReach is how near a line must be to catch the pointer.
func rulerReach(e Event) geom.Length {
	if e.Keyed {
		return onLine
	}
	return e.Reach
}

// onGrid reports whether keys have put the pointer on the grid.
func (f *finder) onGrid() bool {
	grid := f.w.Scheme.Plan.Grid
	return f.e.Keyed && grid > 0 && !f.w.Snaps.NoGrid && f.e.At == geom.ToGrid(f.e.At, grid)
}

// question is what a tool asked snapTo for.
type question struct {
	e   Event
	how snap
}

// Jumps returns the places near the pointer that would catch it where the tool in
// hand is now, the nearest first: things, corners, the nearest of every edge and
// guide, where lines cross and where they are square to. Empty when the tool places
// nothing or nothing catches. A key takes the pointer from one to the next, so that
// all of them can be had without a mouse.
func (s *Session) Jumps() []geom.Point {
	a := s.world.asked
	if a == nil {
		return nil
	}
	f := newFinder(a.e, &s.world, a.how)
	if f.free {
		return nil
	}
	f.e.Keyed = true // lines close to each other are told apart by their words
	far := jumpReach * f.e.Reach
	f.spots, f.rulers = far, far
	f.collect(f.e.At, false)
	for _, l := range f.lines {
		f.found = append(f.found, candidate{snapped: snapped{at: l.foot, rank: l.rank}})
	}
	if c := a.how.closing; c != nil {
		f.found = append(f.found, candidate{snapped: snapped{at: *c, rank: geom.RankVertex}})
	}
	slices.SortStableFunc(f.found, func(a, b candidate) int {
		return cmp.Compare(geom.Distance(f.e.At, a.at), geom.Distance(f.e.At, b.at))
	})
	var out []geom.Point
	for _, c := range f.found {
		d := geom.Distance(f.e.At, c.at)
		same := func(p geom.Point) bool { return geom.Distance(p, c.at) <= onLine }
		if d > onLine && d <= far && !slices.ContainsFunc(out, same) {
			out = append(out, c.at)
		}
	}
	return out
}

// Refuse says why nothing was done, of something that no tool is asked for.
func (s *Session) Refuse(why string) { s.verdict.Refused = why }
