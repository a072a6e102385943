package derive

import (
	"slices"

	"duskwire/calc/network"
	"duskwire/layout/doc"
)

// step is one node met on the way out from a supply point.
type step struct {
	from   int // step nearer the supply, -1 for the supply itself
	run    *doc.Run
	length *measured
	way    *network.Route // of the run
	place  *network.Place // of the entity
	entity doc.Entity     // nil at an open end
	// output marks the secondary side of a source, which is reached from the
	// step of its primary side and has no run, or the far end of a strip.
	output bool
	// strip marks both ends of a strip that is a branch of its own; the end
	// that was reached second has no run.
	strip bool
	// feed is the step of the source's output that this one is fed from, -1 on
	// the mains.
	feed int
	// backward says that a run reached a source at its output side.
	backward bool
}

// crossing is a run whose far end was met already, or that leads nowhere we
// can follow. Only rings become branches.
type crossing struct {
	run    *doc.Run
	length *measured // of a ring
	way    *network.Route
	from   int        // step it was met from
	to     int        // of a ring: step at its other end
	other  doc.Entity // what stands at its other end
}

// walk is the order in which a circuit is met, breadth first in run order.
// Everything in it is a pointer into the scheme, so two walks are equal when
// nothing that the circuit is made of has changed.
type walk struct {
	steps  []step
	loops  []crossing  // both ends already met, where no ring is allowed
	rings  []crossing  // both ends already met, within one separated source's output
	joined []crossing  // leads to another supply point
	bare   []crossing  // no cable chosen
	zones  []*doc.Zone // of the lamps
	apart  []bool      // of the zones: has lamps elsewhere too
	sheath []*doc.Run  // that share a cable with one of the steps

	// Numbers, which are those of one scheme and no part of what is compared.
	points []int // per step: the entity, -1 at an open end
	used   []int // runs met
}

// add appends a step at a point.
func (w *walk) add(st step, point int) {
	w.steps = append(w.steps, st)
	w.points = append(w.points, point)
}

// shaped reports whether both walks meet the same ids in the same order.
func (w *walk) shaped(o *walk) bool {
	if o == nil || len(w.steps) != len(o.steps) || len(w.rings) != len(o.rings) {
		return false
	}
	for i := range w.steps {
		a, b := &w.steps[i], &o.steps[i]
		if a.output != b.output || !sameKey(a.entity, b.entity) || !sameRun(a.run, b.run) {
			return false
		}
	}
	for i := range w.rings {
		if !sameRun(w.rings[i].run, o.rings[i].run) {
			return false
		}
	}
	return true
}

func sameKey(a, b doc.Entity) bool {
	return a == b || a != nil && b != nil && a.Key() == b.Key()
}

func sameRun(a, b *doc.Run) bool {
	return a == b || a != nil && b != nil && a.ID == b.ID
}

func (w *walk) equal(o *walk) bool {
	return o != nil && slices.Equal(w.steps, o.steps) && slices.Equal(w.loops, o.loops) &&
		slices.Equal(w.rings, o.rings) && slices.Equal(w.joined, o.joined) && slices.Equal(w.bare, o.bare) &&
		slices.Equal(w.zones, o.zones) && slices.Equal(w.apart, o.apart) && slices.Equal(w.sheath, o.sheath)
}

// terminal is a place a run can be joined to: twice the number of a point, plus
// one for its output.
func terminal(point int, output bool) int {
	if output {
		return 2*point + 1
	}
	return 2 * point
}

// walker is the state of one walk.
type walker struct {
	d    *deriver
	met  []int  // per terminal: the step that stands there, -1 for none
	used []bool // runs
	walk *walk
}

// walkFrom collects everything reached from a supply point.
func (d *deriver) walkFrom(number int, s *doc.Supply) *walk {
	w := &walker{d: d, met: make([]int, 2*len(d.all)), used: make([]bool, len(d.ends)), walk: &walk{}}
	for i := range w.met {
		w.met[i] = -1
	}
	if d.before != nil {
		if old, _ := reuse(d.before, s.ID, w.walk); old != nil { // likely as large as it was
			w.walk.steps = make([]step, 0, len(old.walk.steps)+8)
			w.walk.points = make([]int, 0, len(old.walk.steps)+8)
			w.walk.used = make([]int, 0, len(old.walk.used)+8)
		}
	}
	if w.walk.steps == nil { // every supply point is likely to feed its share
		n := len(d.all)/d.scheme.Supplies.Len() + 8
		w.walk.steps = make([]step, 0, n)
		w.walk.points = make([]int, 0, n)
		w.walk.used = make([]int, 0, n)
	}
	w.met[terminal(number, false)] = 0
	w.walk.add(step{from: -1, feed: -1, entity: s}, number)
	for at := 0; at < len(w.walk.steps); at++ {
		w.expand(at)
	}
	w.walk.zones, w.walk.apart = d.zonesOf(w.walk)
	w.walk.sheath = d.sheathsOf(w.walk)
	return w.walk
}

// expand follows every run that leaves a step.
func (w *walker) expand(at int) {
	here, number := w.walk.steps[at], w.walk.points[at]
	if here.entity == nil || here.backward {
		return
	}
	src, source := here.entity.(*doc.Source)
	if source && !here.output {
		out := len(w.walk.steps)
		w.met[terminal(number, true)] = out
		w.walk.add(step{from: at, feed: out, entity: src, output: true}, number)
	}
	runs := w.d.scheme.Runs.All()
	for _, i := range w.d.joined[number] {
		if w.used[i] {
			continue
		}
		r, far := runs[i], w.d.ends[i][1]
		near, end := &r.From, &r.To
		// A run from one end of a strip to the other has both on this point.
		other := here.strip && w.d.ends[i][1] == number && (near.Side == doc.FarEnd) != here.output
		if w.d.ends[i][0] != number || other {
			near, end, far = end, near, w.d.ends[i][0]
		}
		if source && (near.Side == doc.Primary) == here.output {
			continue // joined to the other side of the source
		}
		if here.strip && (near.Side == doc.FarEnd) != here.output {
			continue // joined to the other end of the strip
		}
		w.used[i] = true
		w.walk.used = append(w.walk.used, i)
		w.follow(at, i, r, far, end.Side)
	}
}

// follow takes a run to its far end.
func (w *walker) follow(at, run int, r *doc.Run, far int, side doc.Side) {
	there := w.d.point(far) // nil in the air
	c := crossing{run: r, from: at, other: there}
	if _, known := w.d.cable(r.Cable); !known {
		w.walk.bare = append(w.walk.bare, c)
		return
	}
	next := step{from: at, run: r, length: w.d.measured[run], way: w.d.laid[run].facts, entity: there, feed: w.walk.steps[at].feed}
	if there == nil {
		w.walk.add(next, -1)
		return
	}
	if _, ok := there.(*doc.Supply); ok && w.met[terminal(far, false)] < 0 {
		w.walk.joined = append(w.walk.joined, c)
		return
	}
	_, source := there.(*doc.Source)
	next.strip = w.splits(there, next.feed)
	output := source && side == doc.Secondary || next.strip && side == doc.FarEnd
	to := w.met[terminal(far, output)]
	if to >= 0 || source && w.met[terminal(far, !output)] >= 0 {
		w.close(c, run, to)
		return
	}
	next.backward, next.output = source && output, next.strip && output
	first := len(w.walk.steps)
	w.met[terminal(far, output)] = first
	w.walk.add(next, far)
	if next.strip {
		w.met[terminal(far, !output)] = first + 1
		w.walk.add(step{from: first, feed: next.feed, entity: there, output: !output, strip: true}, far)
	}
}

// close takes a run both ends of which were met: a ring within the output of
// one separated source, elsewhere a loop that is left out.
func (w *walker) close(c crossing, run, to int) {
	feed := w.walk.steps[c.from].feed
	if to < 0 || to == c.from || feed < 0 || w.walk.steps[to].feed != feed || !w.separated(feed) {
		w.walk.loops = append(w.walk.loops, c)
		return
	}
	c.to, c.length, c.way = to, w.d.measured[run], w.d.laid[run].facts
	w.walk.rings = append(w.walk.rings, c)
}

// separated reports whether the source whose output is step feed makes a
// separated extra-low voltage. A constant-current source does not count: its
// string has its way back in the second core, and a run back is one too many.
func (w *walker) separated(feed int) bool {
	item, ok := w.d.stock.Converter(w.walk.steps[feed].entity.(*doc.Source).Stock)
	return ok && item.Converter.SELV && item.Converter.Drive == 0
}

// splits reports whether a lamp behind the source's output of step feed is a
// strip that loses volts along its own tracks.
func (w *walker) splits(e doc.Entity, feed int) bool {
	l, ok := e.(*doc.Lamp)
	if !ok || feed < 0 || !w.separated(feed) {
		return false
	}
	item, ok := w.d.lampItem(l.Stock)
	src, _ := w.d.stock.Converter(w.walk.steps[feed].entity.(*doc.Source).Stock)
	cv := src.Converter
	return ok && item.Length > 0 && item.Tracks > 0 &&
		misfit(item.LampStock, network.System{Nominal: cv.Nominal, Current: cv.Current}) == ""
}
