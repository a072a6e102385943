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
	sheath []*doc.Run  // that share a cable with one of the steps
}

func (w *walk) equal(o *walk) bool {
	return o != nil && slices.Equal(w.steps, o.steps) && slices.Equal(w.loops, o.loops) &&
		slices.Equal(w.rings, o.rings) && slices.Equal(w.joined, o.joined) && slices.Equal(w.bare, o.bare) &&
		slices.Equal(w.zones, o.zones) && slices.Equal(w.sheath, o.sheath)
}

// terminal is a place a run can be joined to.
type terminal struct {
	id     doc.ID
	output bool
}

// walker is the state of one walk.
type walker struct {
	d    *deriver
	met  map[terminal]int // step that stands there
	used map[doc.ID]bool  // runs
	walk *walk
}

// walkFrom collects everything reached from a supply point.
func (d *deriver) walkFrom(s *doc.Supply) *walk {
	w := &walker{d: d, met: map[terminal]int{{s.ID, false}: 0}, used: map[doc.ID]bool{}, walk: &walk{}}
	w.walk.steps = append(w.walk.steps, step{from: -1, feed: -1, entity: s})
	for at := 0; at < len(w.walk.steps); at++ {
		w.expand(at)
	}
	w.walk.zones, w.walk.sheath = d.zonesOf(w.walk), d.sheathsOf(w.walk)
	return w.walk
}

// expand follows every run that leaves a step.
func (w *walker) expand(at int) {
	here := w.walk.steps[at]
	if here.entity == nil || here.backward {
		return
	}
	if src, ok := here.entity.(*doc.Source); ok && !here.output {
		out := len(w.walk.steps)
		w.met[terminal{src.ID, true}] = out
		w.walk.steps = append(w.walk.steps, step{from: at, feed: out, entity: src, output: true})
	}
	for _, r := range w.d.joined[here.entity.Key()] {
		if w.used[r.ID] {
			continue
		}
		near, far := r.From, r.To
		if near.On != here.entity.Key() {
			near, far = far, near
		}
		if _, ok := here.entity.(*doc.Source); ok && (near.Side == doc.Primary) == here.output {
			continue // joined to the other side of the source
		}
		if here.strip && (near.Side == doc.FarEnd) != here.output {
			continue // joined to the other end of the strip
		}
		w.used[r.ID] = true
		w.follow(at, r, far)
	}
}

// follow takes a run to its far end.
func (w *walker) follow(at int, r *doc.Run, far doc.End) {
	there := w.d.at[far.On] // nil in the air
	c := crossing{run: r, from: at, other: there}
	if _, known := w.d.stock.Cable(r.Cable); !known {
		w.walk.bare = append(w.walk.bare, c)
		return
	}
	next := step{from: at, run: r, length: w.d.measured[r.ID], entity: there, feed: w.walk.steps[at].feed}
	if there == nil {
		w.walk.steps = append(w.walk.steps, next)
		return
	}
	if _, ok := there.(*doc.Supply); ok && !w.has(terminal{far.On, false}) {
		w.walk.joined = append(w.walk.joined, c)
		return
	}
	_, source := there.(*doc.Source)
	next.strip = w.splits(there, next.feed)
	t := terminal{far.On, source && far.Side == doc.Secondary || next.strip && far.Side == doc.FarEnd}
	if to, met := w.met[t]; met || (source && w.has(terminal{far.On, !t.output})) {
		w.close(c, to, met)
		return
	}
	next.backward, next.output = source && t.output, next.strip && t.output
	w.met[t] = len(w.walk.steps)
	w.walk.steps = append(w.walk.steps, next)
	if next.strip {
		t.output = !t.output
		w.met[t] = len(w.walk.steps)
		w.walk.steps = append(w.walk.steps, step{from: w.met[terminal{t.id, !t.output}], feed: next.feed, entity: there, output: t.output, strip: true})
	}
}

func (w *walker) has(t terminal) bool { _, ok := w.met[t]; return ok }

// close takes a run both ends of which were met: a ring within the output of
// one separated source, elsewhere a loop that is left out.
func (w *walker) close(c crossing, to int, met bool) {
	feed := w.walk.steps[c.from].feed
	if !met || to == c.from || feed < 0 || w.walk.steps[to].feed != feed || !w.separated(feed) {
		w.walk.loops = append(w.walk.loops, c)
		return
	}
	c.to, c.length = to, w.d.measured[c.run.ID]
	w.walk.rings = append(w.walk.rings, c)
}

// separated reports whether the source whose output is step feed makes a
// separated extra-low voltage.
func (w *walker) separated(feed int) bool {
	item, ok := w.d.stock.Converter(w.walk.steps[feed].entity.(*doc.Source).Stock)
	return ok && item.Converter.SELV
}

// splits reports whether a lamp behind the source's output of step feed is a
// strip that loses volts along its own tracks.
func (w *walker) splits(e doc.Entity, feed int) bool {
	l, ok := e.(*doc.Lamp)
	if !ok || feed < 0 || !w.separated(feed) {
		return false
	}
	item, ok := w.d.lampStock[l.Stock]
	src, _ := w.d.stock.Converter(w.walk.steps[feed].entity.(*doc.Source).Stock)
	cv := src.Converter
	return ok && item.Length > 0 && item.Tracks > 0 &&
		misfit(item, network.System{Nominal: cv.Nominal, Current: cv.Current}) == ""
}
