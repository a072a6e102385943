package derive

import (
	"fmt"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	"duskwire/layout/doc"
)

// circuitFaults lists what is wrong with one circuit as drawn.
func (d *deriver) circuitFaults(n *network.Net, w *walk) {
	add := func(k network.FaultKind, s finding.Subject, detail string, also ...finding.Subject) {
		n.Faults = append(n.Faults, network.Fault{Kind: k, Subject: s, Also: also, Detail: detail})
	}
	for i := range w.steps {
		st := &w.steps[i]
		if b := &n.Branches[i]; st.run != nil && b.Cable != nil && n.Nodes[i+1].System == 0 && !b.Cable.Mains {
			add(network.WrongVoltage, subject(st.run), fmt.Sprintf("%s of run %s is not made for %v mains", b.Cable.Name, st.run.Tag, n.Supply.Nominal))
		}
		switch e := st.entity.(type) {
		case nil:
			add(network.OpenEnd, subject(st.run), "run "+st.run.Tag+" ends in the air", subject(w.steps[st.from].entity))
		case *doc.Lamp:
			if st.strip && st.run == nil {
				continue // the other end was looked at
			}
			sys := n.Systems[n.Nodes[i+1].System]
			item, _ := d.lampItem(e.Stock)
			if why := misfit(item.LampStock, sys); why != "" && !astray(item.LampStock, sys) {
				add(network.WrongVoltage, subject(e), why+"; its load is left out of the figures")
			}
		case *doc.Source:
			d.sourceFault(n, i, st, e, add)
		}
	}
	for _, c := range w.loops {
		why := "run " + c.run.Tag + " closes a loop; it is left out of the figures"
		if n.Systems[n.Nodes[c.from+1].System].Drive > 0 {
			why += ": the way back of a constant-current string is the second core of its cables, not a run of its own"
		}
		add(network.LoopClosed, subject(c.run), why, subject(w.steps[c.from].entity), subject(c.other))
	}
	for _, c := range w.joined {
		add(network.SecondSupply, subject(c.run), "run "+c.run.Tag+" joins two supply points",
			subject(w.steps[0].entity), subject(c.other))
	}
	for _, c := range w.bare {
		add(network.NoCable, subject(c.run), "no cable is chosen for run "+c.run.Tag+"; what lies beyond it is not computed",
			subject(c.other))
	}
	d.idle(n, w, add)
}

// sourceFault reports a source on a voltage it is not made for, or joined the
// wrong way round.
func (d *deriver) sourceFault(n *network.Net, i int, st *step, e *doc.Source,
	add func(network.FaultKind, finding.Subject, string, ...finding.Subject)) {
	if st.output {
		return
	}
	sys := n.Systems[n.Nodes[i+1].System]
	item, _ := d.stock.Converter(e.Stock)
	switch {
	case st.backward:
		add(network.WrongVoltage, subject(e), "run "+st.run.Tag+" from the supply is joined to the output side", subject(st.run))
	case item.Input != sys.Nominal || sys.Current != network.AC:
		add(network.WrongVoltage, subject(e), fmt.Sprintf("source for %v AC on a %v %v system", item.Input, sys.Nominal, sys.Current))
	}
}

// idle reports boxes, gear and sources that feed no lamp; only the one
// nearest the supply is named of a dead branch.
func (d *deriver) idle(n *network.Net, w *walk, add func(network.FaultKind, finding.Subject, string, ...finding.Subject)) {
	feeds := make([]bool, len(w.steps))
	for i := len(w.steps) - 1; i >= 0; i-- {
		st := &w.steps[i]
		if _, lamp := st.entity.(*doc.Lamp); lamp || st.entity == nil {
			feeds[i] = true // an open end is reported as such
		}
		if feeds[i] && st.from >= 0 {
			feeds[st.from] = true
		}
	}
	for _, c := range w.rings {
		for _, at := range []int{c.from, c.to} {
			for ; feeds[w.steps[c.from].feed] && at >= 0; at = w.steps[at].from {
				feeds[at] = true // part of a ring that has lamps
			}
		}
	}
	for i := range w.steps {
		st := &w.steps[i]
		if !feeds[i] && st.from >= 0 && !st.output && feeds[st.from] {
			add(network.NothingBeyond, subject(st.entity), st.entity.Label()+" feeds no lamp")
		}
	}
}

// behindBare marks everything that is joined to the circuit only through a
// run without a cable: it is not loose, it is waiting for that cable.
func (d *deriver) behindBare(w *walk, seen reached) {
	var queue []int
	push := func(n int) {
		if n >= 0 && !seen.points[n] {
			seen.points[n] = true
			queue = append(queue, n)
		}
	}
	for _, c := range w.bare {
		if c.other != nil {
			push(d.number(c.other.Key()))
		}
	}
	for len(queue) > 0 {
		n := queue[0]
		queue = queue[1:]
		for _, r := range d.joined[n] {
			seen.runs[r] = true
			push(d.ends[r][0])
			push(d.ends[r][1])
		}
	}
}

// loose lists the flaws that belong to no circuit.
func (d *deriver) loose(seen reached) []network.Fault {
	var out []network.Fault
	add := func(k network.FaultKind, e doc.Entity, detail string) {
		out = append(out, network.Fault{Kind: k, Subject: subject(e), Detail: detail})
	}
	s := d.scheme
	points := s.Boxes.Len() + s.Lamps.Len() + s.Gear.Len() + s.Sources.Len() + s.Runs.Len()
	if s.Supplies.Len() == 0 && points > 0 {
		out = append(out, network.Fault{Kind: network.NoSupply, Detail: "the drawing has no supply point, so nothing can be proved"})
	}
	for n, e := range d.all[:d.from[supplies]] {
		switch {
		case seen.points[n]:
		case n < d.from[boxes]:
			add(network.LooseLamp, e, e.Label()+" is joined to no supply point")
		default:
			add(network.LooseOther, e, e.Label()+" is joined to no supply point")
		}
	}
	for i, r := range s.Runs.All() {
		if !seen.runs[i] && (d.ends[i][0] < 0 || d.ends[i][1] < 0) {
			add(network.OpenEnd, r, "run "+r.Tag+" ends in the air")
		}
	}
	return out
}

// doubt marks what is fed through a flaw that leaves its volts no answer: all
// beyond a source on the wrong voltage or joined backwards, and the whole
// circuit when a run that closes a loop had to be left out.
func doubt(n *network.Net, w *walk) {
	flawed := map[string]bool{}
	all := false
	for _, f := range n.Faults {
		all = all || f.Kind == network.LoopClosed
		if f.Kind == network.WrongVoltage {
			flawed[f.Subject.ID] = true
		}
	}
	for i := range w.steps {
		st := &w.steps[i]
		_, source := st.entity.(*doc.Source)
		node := &n.Nodes[i+1]
		node.Doubtful = all || (source && flawed[node.ID]) || (st.from >= 0 && n.Nodes[st.from+1].Doubtful)
	}
}
