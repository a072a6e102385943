package derive

import (
	"slices"

	"duskwire/layout/doc"
)

// step is one node met on the way out from a supply point.
type step struct {
	from   int // step nearer the supply, -1 for the supply itself
	run    *doc.Run
	length *measured
	entity doc.Entity // nil at an open end
	// output marks the secondary side of a source; it is reached from the
	// step of its primary side and has no run.
	output bool
	// backward says that a run reached a source at its output side.
	backward bool
}

// crossing is a run that could not become a branch.
type crossing struct {
	run   *doc.Run
	from  int        // step it was met from
	other doc.Entity // what stands at its other end
}

// walk is the order in which a circuit is met, breadth first in run order.
// Everything in it is a pointer into the scheme, so two walks are equal when
// nothing that the circuit is made of has changed.
type walk struct {
	steps  []step
	loops  []crossing // both ends already met
	joined []crossing // leads to another supply point
	bare   []crossing // no cable chosen
}

func (w *walk) equal(o *walk) bool {
	return o != nil && slices.Equal(w.steps, o.steps) && slices.Equal(w.loops, o.loops) &&
		slices.Equal(w.joined, o.joined) && slices.Equal(w.bare, o.bare)
}

// terminal is a place a run can be joined to.
type terminal struct {
	id     doc.ID
	output bool
}

// walker is the state of one walk.
type walker struct {
	d    *deriver
	met  map[terminal]bool
	used map[doc.ID]bool // runs
	walk *walk
}

// walkFrom collects everything reached from a supply point.
func (d *deriver) walkFrom(s *doc.Supply) *walk {
	w := &walker{d: d, met: map[terminal]bool{{s.ID, false}: true}, used: map[doc.ID]bool{}, walk: &walk{}}
	w.walk.steps = append(w.walk.steps, step{from: -1, entity: s})
	for at := 0; at < len(w.walk.steps); at++ {
		w.expand(at)
	}
	return w.walk
}

// expand follows every run that leaves a step.
func (w *walker) expand(at int) {
	here := w.walk.steps[at]
	if here.entity == nil || here.backward {
		return
	}
	if src, ok := here.entity.(*doc.Source); ok && !here.output {
		w.met[terminal{src.ID, true}] = true
		w.walk.steps = append(w.walk.steps, step{from: at, entity: src, output: true})
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
	next := step{from: at, run: r, length: w.d.measured[r.ID], entity: there}
	if there == nil {
		w.walk.steps = append(w.walk.steps, next)
		return
	}
	if _, ok := there.(*doc.Supply); ok && !w.met[terminal{far.On, false}] {
		w.walk.joined = append(w.walk.joined, c)
		return
	}
	_, source := there.(*doc.Source)
	t := terminal{far.On, source && far.Side == doc.Secondary}
	if w.met[t] || (source && w.met[terminal{far.On, !t.output}]) {
		w.walk.loops = append(w.walk.loops, c)
		return
	}
	next.backward = t.output
	w.met[t] = true
	w.walk.steps = append(w.walk.steps, next)
}
