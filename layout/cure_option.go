package layout

import (
	"math"
	"sort"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// option is one change that may be a way out; op is nil for none.
type option struct {
	text string
	op   edit.Operation
}

// step makes an option of several operations.
func step(text string, ops ...edit.Operation) option {
	if len(ops) == 0 {
		return option{}
	}
	return option{text, edit.Batch{Label: capital(text), Ops: ops}}
}

// pick keeps of some options the first that hold and bring no new Stop, most of
// them; when there is none, the first that holds.
func (b *bench) pick(order, most int, options ...option) {
	var second *Cure
	kept := 0
	for _, o := range options {
		if o.op == nil || kept == most {
			continue
		}
		c, _ := b.try(order, o.text, o.op)
		switch {
		case !c.Holds:
		case c.worse == 0:
			b.keep(c)
			kept++
		case second == nil:
			second = &c
		}
	}
	if kept == 0 && second != nil {
		b.keep(*second)
	}
}

// subject is the id of what the finding is about.
func (b *bench) subject() doc.ID { return doc.ID(b.fd.Subject.ID) }

// named returns the ids of one kind that the finding names, its subject first.
func (b *bench) named(k doc.Kind) []doc.ID {
	var out []doc.ID
	seen := map[doc.ID]bool{}
	take := func(id doc.ID) {
		if !seen[id] && doc.KindOf(b.frame.Scheme, id) == k {
			seen[id] = true
			out = append(out, id)
		}
	}
	take(b.subject())
	for _, s := range b.fd.Also {
		take(doc.ID(s.ID))
	}
	return out
}

// each makes operations of changed copies of the runs that the finding names;
// change reports whether it changed anything.
func (b *bench) eachRun(change func(*doc.Run) bool) []edit.Operation {
	var out []edit.Operation
	for _, id := range b.named(doc.RunKind) {
		r, _ := b.frame.Scheme.Runs.Get(id)
		c := *r
		c.Legs = append([]doc.Leg(nil), r.Legs...)
		if change(&c) {
			out = append(out, edit.SetRun{Run: &c})
		}
	}
	return out
}

// eachLeg does the same leg by leg.
func (b *bench) eachLeg(change func(r *doc.Run, leg int) bool) []edit.Operation {
	return b.eachRun(func(r *doc.Run) bool {
		any := false
		for i := range r.Legs {
			any = change(r, i) || any
		}
		return any
	})
}

// fed returns the node that stands for an entity in some circuit; of a source
// its output when out is set.
func (b *bench) fed(id doc.ID, out bool) (net *network.Net, node int, ok bool) {
	for i := range b.frame.Circuits.Circuits {
		c := &b.frame.Circuits.Circuits[i]
		if node, ok = c.Node[id]; ok {
			if at, has := c.Output[id]; out && has {
				node = at
			}
			return c.Input.Net, node, true
		}
	}
	return nil, 0, false
}

// systemAt is the voltage system at one end of a run; ok is false where nothing
// feeds it.
func (b *bench) systemAt(e doc.End) (s network.System, ok bool) {
	net, node, ok := b.fed(e.On, e.Side == doc.Secondary)
	if !ok {
		return s, false
	}
	return net.Systems[net.Nodes[node].System], true
}

// spotNear is a point that a run may be joined to.
type spotNear struct {
	end   doc.End
	label string
	far   q.Metre
}

// nearest returns the points nearest to a place that fits accepts, at most most
// of them.
func (b *bench) nearest(at geom.Point, most int, fits func(doc.Entity) (doc.Side, bool)) []spotNear {
	var out []spotNear
	doc.Each(b.frame.Scheme, func(e doc.Entity, k doc.Kind) {
		if !k.Joinable() {
			return
		}
		side, ok := fits(e)
		p, _ := doc.PlaceOf(e)
		if ok {
			out = append(out, spotNear{doc.End{On: e.Key(), Side: side}, e.Label(), q.Metre(geom.Distance(at, p.At).Metres())})
		}
	})
	sort.SliceStable(out, func(i, j int) bool { return out[i].far < out[j].far })
	return out[:min(len(out), most)]
}

// away writes how far off something is.
func away(m q.Metre) string { return q.Metre(math.Round(float64(m)*10)/10).String() + " away" }

// suiting returns the cables of the stock book that may lie as the legs do, of
// each family the smallest not below a size: on the mains those with a
// protective conductor, a core before the armour; otherwise those made for
// extra-low voltage first.
func (b *bench) suiting(mains bool, legs []doc.Leg, least q.SquareMetre) []*network.Cable {
	buried := false
	for _, l := range legs {
		buried = buried || l.Support == network.Buried
	}
	var out []*network.Cable
	at := map[string]int{}
	for _, cb := range b.frame.Stock.Cables {
		if cb.Size < least || buried && !cb.Buriable || mains && (!cb.Mains || cb.Earth == network.NoEarth) {
			continue
		}
		i, seen := at[cb.Family]
		if !seen {
			at[cb.Family] = len(out)
			out = append(out, cb)
		} else if cb.Size < out[i].Size {
			out[i] = cb
		}
	}
	rank := func(cb *network.Cable) int {
		switch {
		case !mains && cb.Mains:
			return 2
		case mains && cb.Earth != network.EarthCore:
			return 1
		}
		return 0
	}
	sort.SliceStable(out, func(i, j int) bool {
		if rank(out[i]) != rank(out[j]) {
			return rank(out[i]) < rank(out[j])
		}
		if out[i].Size != out[j].Size {
			return out[i].Size < out[j].Size
		}
		return out[i].Cores < out[j].Cores
	})
	const enough = 6
	return out[:min(len(out), enough)]
}
