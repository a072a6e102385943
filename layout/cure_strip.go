package layout

import (
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// feedFarEnd feeds a strip at its far end too, by a run of its own from the
// source along the present way and then along the strip, whose length it gets as
// slack: the plan has a strip as one point.
func (b *bench) feedFarEnd() {
	id := doc.ID(b.fd.Subject.ID)
	lamp, ok := b.frame.Scheme.Lamps.Get(id)
	if _, strip := b.circuit.Output[id]; !ok || !strip {
		return
	}
	f, ok := b.feed()
	if !ok || f.source == nil {
		return
	}
	w, runs, ok := b.wayTo(b.circuit.Node[id])
	if !ok || len(runs) == 0 {
		return
	}
	_, _, start, _, ok := b.outward(runs[0])
	last, _, _, _, found := b.outward(runs[len(runs)-1])
	if !ok || !found {
		return
	}
	run := lay(last, w, doc.End{On: start.On, Side: doc.Secondary}, doc.End{On: id, Side: doc.FarEnd})
	run.ID, run.Tag, run.With, run.Lock = doc.NewID(), "", "", false
	run.Slack += b.stripLength(lamp)
	text := "feed the far end of " + lamp.Tag + " from " + f.source.Tag + " as well, along the strip"
	b.keep(b.laid(orderSplit, text, edit.Batch{Label: capital(text), Ops: []edit.Operation{edit.AddRun{Run: run}}}, run.ID, false))
}

// stripLength is what a strip is cut to.
func (b *bench) stripLength(l *doc.Lamp) q.Metre {
	if l.Length.Known {
		return l.Length.Value
	}
	item, _ := b.frame.Stock.Lamp(l.Stock)
	return item.Length
}
