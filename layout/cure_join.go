package layout

import (
	"math"
	"sort"

	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

const nearestTried = 3 // points that a run is joined to on trial

// remove is the option to delete what the finding is about.
func (b *bench) remove() option {
	return option{"delete " + b.fd.Subject.Label, edit.Delete{IDs: []doc.ID{b.subject()}}}
}

// joinLoose draws a run to what nothing feeds, from the nearest points of its
// voltage, with the cable that goes there.
func (b *bench) joinLoose() {
	e, kind := doc.Find(b.frame.Scheme, b.subject())
	p, ok := doc.PlaceOf(e)
	if !ok {
		return
	}
	to := doc.End{On: b.subject()}
	if kind == doc.SourceKind {
		to.Side = doc.Primary
	}
	near := b.nearest(p.At, nearestTried, func(o doc.Entity) (doc.Side, bool) {
		end := doc.End{On: o.Key()}
		if doc.KindOfEntity(o) == doc.SourceKind {
			end.Side = doc.Secondary
		}
		sys, fed := b.systemAt(end)
		return end.Side, fed && o.Key() != b.subject() && b.takes(e, sys)
	})
	var options []option
	for _, n := range near {
		cable, leg := b.asThere(n.end)
		if cable == "" {
			continue
		}
		run := &doc.Run{ID: doc.NewID(), Cable: cable, From: n.end, To: to, Legs: []doc.Leg{leg}}
		options = append(options, step("draw a run to "+b.fd.Subject.Label+" from "+n.label+", "+away(n.far), edit.AddRun{Run: run}))
	}
	b.pick(orderRun, 2, options...)
	b.pick(orderLast, 1, b.remove())
}

// takes reports whether an entity may stand on a voltage.
func (b *bench) takes(e doc.Entity, s network.System) bool {
	switch e := e.(type) {
	case *doc.Lamp:
		item, ok := b.frame.Stock.Lamp(e.Stock)
		return ok && fitsLamp(item, s)
	case *doc.Source:
		item, ok := b.frame.Stock.Converter(e.Stock)
		return ok && item.Input == s.Nominal && s.Current == network.AC
	case *doc.Gear:
		return s.Current == network.AC && s.Nominal > 50
	}
	return true
}

func fitsLamp(item doc.LampStock, s network.System) bool {
	if item.Load.Drive > 0 || s.Drive > 0 {
		return item.Load.Drive == s.Drive
	}
	return item.Load.Nominal == s.Nominal && (item.AnyCurrent || item.Current == s.Current)
}

// asThere returns the cable that goes on from an end and how it is carried, as
// the runs that are joined there.
func (b *bench) asThere(e doc.End) (cable string, leg doc.Leg) {
	sys, _ := b.systemAt(e)
	for _, r := range doc.RunsAt(b.frame.Scheme, e.On) {
		own, other, l := r.From, r.To, r.Legs[0]
		if own.On != e.On {
			own, other, l = r.To, r.From, r.Legs[len(r.Legs)-1]
		}
		if own.Side != e.Side || r.Cable == "" {
			continue
		}
		if at, fed := b.systemAt(other); fed && at.Nominal != sys.Nominal && own.Side == doc.AnySide {
			continue
		}
		return r.Cable, doc.Leg{Support: l.Support, Depth: l.Depth, Height: l.Height}
	}
	leg = doc.Leg{Support: network.Clipped}
	if list := b.suiting(sys.Nominal > 50, []doc.Leg{leg}, 0); len(list) > 0 {
		cable = list[0].Key
	}
	return cable, leg
}

// openEnd joins the end in the air to the nearest thing that is fed where the
// run is not, or the other way round.
func (b *bench) openEnd() {
	r, ok := b.frame.Scheme.Runs.Get(b.subject())
	if !ok {
		return
	}
	open, held, from := r.To, r.From, false
	if r.From.On == "" {
		open, held, from = r.From, r.To, true
	}
	sys, fed := b.systemAt(held)
	near := b.nearest(open.At, nearestTried, func(e doc.Entity) (doc.Side, bool) {
		if e.Key() == held.On {
			return 0, false
		}
		src := doc.KindOfEntity(e) == doc.SourceKind
		if !fed {
			end := doc.End{On: e.Key()}
			if src {
				end.Side = doc.Secondary
			}
			at, there := b.systemAt(end)
			return end.Side, there && (held.On == "" || b.takes(b.entity(held.On), at))
		}
		_, _, there := b.fed(e.Key(), false)
		side := doc.AnySide
		if src {
			side = doc.Primary
		}
		return side, !there && b.takes(e, sys)
	})
	var options []option
	for _, n := range near {
		n.end.Tail = open.Tail
		options = append(options, step("join the open end of "+r.Tag+" to "+n.label+", "+away(n.far), edit.SetEnd{Run: r.ID, From: from, End: n.end}))
	}
	b.pick(orderMove, 2, options...)
	b.pick(orderLast, 1, b.remove())
}

func (b *bench) entity(id doc.ID) doc.Entity {
	e, _ := doc.Find(b.frame.Scheme, id)
	return e
}

// openLoop takes out the run that closes a loop, or the longest of the others.
func (b *bench) openLoop() {
	b.pick(orderMove, 1, b.remove())
	r, ok := b.frame.Scheme.Runs.Get(b.subject())
	if !ok {
		return
	}
	x, okX := b.circuit.Node[r.From.On]
	y, okY := b.circuit.Node[r.To.On]
	if !okX || !okY {
		return
	}
	up := map[int]bool{}
	for i := x; i >= 0; i = b.result.Tree.Up(b.net, i) {
		up[i] = true
	}
	top := y
	for top >= 0 && !up[top] {
		top = b.result.Tree.Up(b.net, top)
	}
	longest := -1
	for _, i := range []int{x, y} {
		for ; i >= 0 && i != top; i = b.result.Tree.Up(b.net, i) {
			br := b.result.Tree.Parent[i]
			if run := &b.net.Branches[br]; run.ID != "" && run.Cable != nil && (longest < 0 || run.Length > b.net.Branches[longest].Length) {
				longest = br
			}
		}
	}
	if longest >= 0 {
		run := &b.net.Branches[longest]
		b.pick(orderCentre, 1, option{"delete " + run.Label + ", the longest of the loop", edit.Delete{IDs: []doc.ID{doc.ID(run.ID)}}})
	}
}

// partSupplies takes out a run that joins two supply points: the one named, or
// the one by which the other supply point reaches this.
func (b *bench) partSupplies() {
	b.pick(orderMove, 1, b.remove())
	for i := range b.frame.Findings {
		if f := &b.frame.Findings[i]; f.Code == b.fd.Code && f.Subject != b.fd.Subject {
			b.pick(orderMove, 1, option{"delete " + f.Subject.Label, edit.Delete{IDs: []doc.ID{doc.ID(f.Subject.ID)}}})
		}
	}
}

// chooseCable gives a run without a cable that of the runs it goes on from, or
// what the stock book has for its voltage and its way.
func (b *bench) chooseCable() {
	r, ok := b.frame.Scheme.Runs.Get(b.subject())
	if !ok {
		return
	}
	var options []option
	add := func(key, name string) {
		options = append(options, option{"use " + name + " for " + r.Tag, edit.SetCable{Runs: []doc.ID{r.ID}, Cable: key}})
	}
	for _, e := range []doc.End{r.From, r.To} {
		sys, fed := b.systemAt(e)
		if !fed {
			continue
		}
		if key, _ := b.asThere(e); key != "" {
			if cb, ok := b.frame.Stock.Cable(key); ok {
				add(key, cb.Name)
			}
		}
		for _, cb := range b.suiting(sys.Nominal > 50, r.Legs, 0) {
			add(cb.Key, cb.Name)
		}
	}
	b.pick(orderRun, 2, options...)
}

// rightVoltage tries another lamp or cable for what stands on a voltage that it
// is not made for, and turns a source that was joined the wrong way round.
func (b *bench) rightVoltage() {
	switch e := b.entity(b.subject()).(type) {
	case *doc.Run:
		b.earthedCables()
	case *doc.Lamp:
		sys, ok := b.systemAt(doc.End{On: e.ID})
		if ok {
			b.pick(orderDevice, 2, b.otherLamps([]doc.ID{e.ID}, func(item doc.LampStock) bool { return fitsLamp(item, sys) })...)
		}
	case *doc.Source:
		var ops []edit.Operation
		for _, r := range doc.RunsAt(b.frame.Scheme, e.ID) {
			c := *r
			turn(&c.From, e.ID)
			turn(&c.To, e.ID)
			ops = append(ops, edit.SetRun{Run: &c})
		}
		b.pick(orderMove, 1, step("join "+e.Tag+" the other way round", ops...))
	}
}

func turn(e *doc.End, source doc.ID) {
	switch {
	case e.On != source:
	case e.Side == doc.Secondary:
		e.Side = doc.Primary
	default:
		e.Side = doc.Secondary
	}
}

// otherLamps returns options that give some lamps another fitting that fits, the
// same for all: of the same make-up first, then nearest in power.
func (b *bench) otherLamps(ids []doc.ID, fits func(doc.LampStock) bool) []option {
	if len(ids) == 0 {
		return nil
	}
	first, _ := b.frame.Scheme.Lamps.Get(ids[0])
	now, ok := b.frame.Stock.Lamp(first.Stock)
	if !ok {
		return nil
	}
	var list []doc.LampStock
	for _, item := range b.frame.Stock.Lamps {
		if item.Key != now.Key && fits(item) && (item.Length > 0) == (now.Length > 0) {
			list = append(list, item)
		}
	}
	apart := func(item doc.LampStock) float64 {
		d := math.Abs(math.Log(math.Max(float64(item.Load.Power), 0.1) / math.Max(float64(now.Load.Power), 0.1)))
		if item.Kind != now.Kind {
			d += 10
		}
		return d
	}
	sort.SliceStable(list, func(i, j int) bool { return apart(list[i]) < apart(list[j]) })
	var out []option
	for _, item := range list[:min(len(list), mostSizes)] {
		var ops []edit.Operation
		for _, id := range ids {
			l, _ := b.frame.Scheme.Lamps.Get(id)
			c := *l
			c.Stock = item.Key
			ops = append(ops, edit.SetLamp{Lamp: &c})
		}
		text := "use for " + first.Tag
		if len(ids) > 1 {
			text += " and the others named"
		}
		out = append(out, step(text+": "+item.Name, ops...))
	}
	return out
}

// shift moves one entity.
func shift(id doc.ID, by geom.Point) edit.Operation {
	return edit.MovePoints{IDs: []doc.ID{id}, By: by}
}
