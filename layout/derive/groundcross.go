package derive

import (
	"cmp"
	"reflect"
	"slices"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// laid is what is known about the way of one run, kept while the run, what
// stands at its ends are the same values and the ground around it has not
// changed.
type laid struct {
	route *route
	alone *network.Route // without other runs
	met   []meeting      // other runs crossed in the ground
	facts *network.Route
	by    *deriver // that made it and may still change it
}

// own returns what is known about the way of a run as a value that may be
// changed: a copy when it was made for the scheme before.
func (d *deriver) own(run int) *laid {
	l := d.laid[run]
	if l.by != d {
		own := *l
		own.met, own.by = slices.Clip(own.met), d // what is added goes elsewhere
		l = &own
		d.laid[run] = l
	}
	return l
}

// meeting is a crossing with another run in the ground.
type meeting struct {
	other *route
	leg   int
	along float64 // parameter along the leg
	under int     // leg of the other run
}

// lay collects the facts about the way of one run without the other runs, taking
// over what still holds.
func (d *deriver) lay(i int, r *route, before int) {
	old := d.laidBefore(before)
	if old != nil && old.route == r && !d.changed.way(r.around) {
		d.laid[i] = old
		return
	}
	l := &laid{route: r, alone: d.way(r), by: d}
	if old != nil && reflect.DeepEqual(old.alone, l.alone) {
		l.alone = old.alone
	}
	if old != nil && old.route == r {
		l.met = slices.Clip(old.met)
	}
	d.laid[i] = l
}

// laidBefore is what was known about the run of a number of the scheme before,
// nil for -1.
func (d *deriver) laidBefore(run int) *laid {
	if run < 0 {
		return nil
	}
	return d.before.laid[run]
}

// layAll joins the ways of all runs with the other runs that they meet. Facts
// that come out as before are the same pointer.
func (d *deriver) layAll(routes []*route, olds []int) {
	var fresh []int
	for i, r := range routes {
		if old := d.laidBefore(olds[i]); old == nil || old.route != r {
			fresh = append(fresh, i)
		}
	}
	d.forget()
	d.meet(routes, fresh)
	for i := range routes {
		d.settle(i, d.laidBefore(olds[i]))
	}
	for _, l := range d.laid {
		if l.by == d {
			l.by = nil // from now on it is kept and not changed
		}
	}
}

// wayOf returns what is known about the way of a run, nil when there is none.
func (d *deriver) wayOf(r *doc.Run) *laid {
	if i, ok := d.scheme.Runs.Index(r.ID); ok {
		return d.laid[i]
	}
	return nil
}

// forget drops meetings with routes that are gone. What is kept from the scheme
// before is never changed.
func (d *deriver) forget() {
	gone := func(m meeting) bool {
		l := d.wayOf(m.other.run)
		return l == nil || l.route != m.other
	}
	for i, l := range d.laid {
		if slices.ContainsFunc(l.met, gone) {
			d.own(i).met = slices.DeleteFunc(slices.Clone(l.met), gone)
		}
	}
}

// meet finds the meetings of the routes that are new with all others. The
// routes are swept from left to right when many are new.
func (d *deriver) meet(routes []*route, fresh []int) {
	const few = 16
	if len(fresh) > few {
		d.sweep(routes, fresh)
		return
	}
	for at, i := range fresh {
		a := routes[i]
		for j, b := range routes {
			if j != i && a.dug.Overlaps(b.dug) && !slices.Contains(fresh[:at], j) {
				d.meetings(i, j, a, b)
			}
		}
	}
}

// sweep compares every route with those whose left edge lies before its right
// one; of two old routes nothing has to be found.
func (d *deriver) sweep(routes []*route, fresh []int) {
	isFresh := make([]bool, len(routes))
	for _, i := range fresh {
		isFresh[i] = true
	}
	order := make([]int, 0, len(routes))
	for i, r := range routes {
		if !r.dug.Empty() {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(routes[i].dug.Min.X, routes[j].dug.Min.X) })
	for at, i := range order {
		a := routes[i]
		for _, j := range order[at+1:] {
			b := routes[j]
			if b.dug.Min.X > a.dug.Max.X {
				break
			}
			if (isFresh[i] || isFresh[j]) && a.dug.Overlaps(b.dug) {
				d.meetings(i, j, a, b)
			}
		}
	}
}

// meetings adds the places where two routes cross in the ground to both.
func (d *deriver) meetings(ia, ib int, a, b *route) {
	for i := range a.run.Legs {
		if !dug(a.run.Legs[i]) {
			continue
		}
		box := geom.Around(a.path[i], a.path[i+1])
		if !box.Overlaps(b.dug) {
			continue
		}
		for j := range b.run.Legs {
			if outside(box, b.path[j], b.path[j+1]) || !dug(b.run.Legs[j]) {
				continue
			}
			t, ok := geom.Cross(a.path[i], a.path[i+1], b.path[j], b.path[j+1])
			if !ok {
				continue
			}
			u, _ := geom.Cross(b.path[j], b.path[j+1], a.path[i], a.path[i+1])
			d.addMeeting(ia, meeting{b, i, t, j})
			d.addMeeting(ib, meeting{a, j, u, i})
		}
	}
}

// outside reports whether a segment lies wholly on one side of a box.
func outside(box geom.Rect, c, e geom.Point) bool {
	return c.X < box.Min.X && e.X < box.Min.X || c.X > box.Max.X && e.X > box.Max.X ||
		c.Y < box.Min.Y && e.Y < box.Min.Y || c.Y > box.Max.Y && e.Y > box.Max.Y
}

func (d *deriver) addMeeting(run int, m meeting) {
	own := d.own(run)
	own.met = append(own.met, m)
	if len(own.met) == 1 {
		return
	}
	slices.SortStableFunc(own.met, func(x, y meeting) int {
		return cmp.Or(cmp.Compare(x.leg, y.leg), cmp.Compare(x.along, y.along), cmp.Compare(x.other.run.ID, y.other.run.ID), cmp.Compare(x.under, y.under))
	})
}

// settle joins the facts of the way of a run: those of the ground and its
// meetings. old is what was known before, nil for nothing.
func (d *deriver) settle(run int, old *laid) {
	l := d.laid[run]
	if l.facts != nil && old == l {
		return
	}
	facts := l.alone
	if len(l.met) > 0 {
		own := *l.alone
		own.Crossings = slices.Clone(own.Crossings)
		for _, m := range l.met {
			own.Crossings = append(own.Crossings, d.crossed(m))
		}
		facts = &own
	}
	if old != nil && old.facts != nil && reflect.DeepEqual(old.facts, facts) {
		facts = old.facts
	}
	d.own(run).facts = facts
}

func (d *deriver) crossed(m meeting) network.Crossing {
	r := m.other.run
	c := network.Crossing{Kind: network.CrossRun, Leg: m.leg, Subject: finding.Subject{ID: string(r.ID), Label: r.Tag},
		Depth: metres(r.Legs[m.under].Depth)}
	if cb, ok := d.cable(r.Cable); ok {
		c.Mains = cb.Mains
	}
	return c
}
