package layout

import (
	"sort"

	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// feed is the start of the finding's voltage system and how its load lies.
type feed struct {
	start  int         // node it is fed from: the output of a source, or the supply point
	source *doc.Source // nil on the mains
	mains  *doc.Run    // run that feeds the source
	weight []float64   // rated current at and beyond each node of the system
}

// feed works out the load of the system; ok is false when it has none, or when
// it holds a ring, in which a source has no one middle.
func (b *bench) feed() (f feed, ok bool) {
	if b.node < 0 {
		return f, false
	}
	sys := b.system()
	for _, c := range b.result.Tree.Closed {
		if b.net.Nodes[b.net.Branches[c].From].System == sys {
			return f, false
		}
	}
	f.weight = make([]float64, len(b.net.Nodes))
	order := b.result.Tree.Order
	f.start = -1
	for k := len(order) - 1; k >= 0; k-- {
		i := order[k]
		if b.net.Nodes[i].System != sys {
			continue
		}
		for _, l := range b.net.Nodes[i].Loads {
			f.weight[i] += float64(l.Rated())
		}
		br := b.result.Tree.Parent[i]
		switch {
		case br < 0:
		case b.net.Branches[br].Converter != nil:
			f.start = i
		case b.net.Nodes[i].Kind == network.SupplyNode:
			f.start = i
		default:
			f.weight[b.result.Tree.Up(b.net, i)] += f.weight[i]
		}
	}
	if f.start < 0 || f.weight[f.start] <= 0 {
		return f, false
	}
	if sys == 0 {
		return f, true
	}
	id := doc.ID(b.net.Nodes[f.start].ID)
	f.source, ok = b.frame.Scheme.Sources.Get(id)
	if !ok {
		return f, false
	}
	if br := b.result.Tree.Parent[b.circuit.Node[id]]; br >= 0 {
		f.mains, _ = b.frame.Scheme.Runs.Get(doc.ID(b.net.Branches[br].ID))
	}
	return f, true
}

// centre walks towards the heavier side while more than half of the load lies
// there, and returns the node where it stops: the load centre of the system.
func (b *bench) centre(f feed) int {
	at := f.start
	for {
		next := b.heavierKid(f, at)
		if next < 0 || f.weight[next] <= f.weight[f.start]/2 {
			return at
		}
		at = next
	}
}

// heavierKid is the node beyond at with the most load, -1 when nothing is.
func (b *bench) heavierKid(f feed, at int) int {
	best := -1
	for _, br := range b.result.Tree.Kids[at] {
		r := &b.net.Branches[br]
		if to := r.To; r.ID != "" && r.Converter == nil && (best < 0 || f.weight[to] > f.weight[best]) {
			best = to
		}
	}
	return best
}

// middles returns the runs that have the load centre at one of their ends, the
// one towards the load first.
func (b *bench) middles(f feed) []int {
	at := b.centre(f)
	var out []int
	if kid := b.heavierKid(f, at); kid >= 0 {
		out = append(out, b.result.Tree.Parent[kid])
	}
	if at != f.start {
		out = append(out, b.result.Tree.Parent[at])
	}
	return out
}

// outward returns the run of a branch, its way away from the supply, and the
// ends towards the supply and away from it.
func (b *bench) outward(br int) (r *doc.Run, w way, near, far doc.End, ok bool) {
	id := doc.ID(b.net.Branches[br].ID)
	if r, ok = b.frame.Scheme.Runs.Get(id); !ok {
		return nil, way{}, near, far, false
	}
	start := r.From.On == doc.ID(b.net.Nodes[b.net.Branches[br].From].ID)
	near, far = r.From, r.To
	if !start {
		near, far = far, near
	}
	return r, wayOf(b.frame.Scheme, r, start), near, far, true
}

// wayTo joins the ways of the runs from the start of the system to a node.
func (b *bench) wayTo(node int) (w way, runs []int, ok bool) {
	for _, br := range b.trail(node) {
		_, part, _, _, found := b.outward(br)
		if !found {
			if b.net.Branches[br].ID == "" {
				continue // the indoor leg
			}
			return way{}, nil, false
		}
		w = w.then(part)
		runs = append(runs, br)
	}
	return w, runs, true
}

// best keeps the best of several cures of one kind.
func (b *bench) best(cs []Cure) {
	if len(cs) == 0 {
		return
	}
	sort.SliceStable(cs, func(i, j int) bool {
		if cs[i].Holds != cs[j].Holds {
			return cs[i].Holds
		}
		if (cs[i].worse > 0) != (cs[j].worse > 0) {
			return cs[i].worse == 0
		}
		return cs[i].use < cs[j].use
	})
	b.keep(cs[0])
}

// moveSource takes the source to the load centre of its lamps: the mains cable
// goes on along the way that the low-voltage cable took, and the first run
// becomes the half of the run that the source now stands in.
func (b *bench) moveSource() {
	f, ok := b.feed()
	if !ok || f.source == nil || f.mains == nil {
		return
	}
	text := "move " + f.source.Tag + " to the middle of its lamps"
	var cs []Cure
	for _, br := range b.middles(f) {
		_, w, _, _, ok := b.outward(br)
		if !ok {
			continue
		}
		op := b.moved(f, br, w.length()/2, text)
		if op == nil {
			continue
		}
		if c := b.laid(orderMove, text, op, f.mains.ID, true); c.Text != "" {
			cs = append(cs, c)
		}
	}
	b.best(cs)
}

// laid tries an operation that gives a run another way; when its cable does not
// suit that, flex in the ground for one, then with cables that may lie so too.
func (b *bench) laid(order int, text string, op edit.Operation, id doc.ID, mains bool) Cure {
	c, _ := b.try(order, text, op)
	s, err := op.Apply(b.frame.Scheme)
	if c.Text == "" || c.worse == 0 || err != nil {
		return c
	}
	r, _ := s.Runs.Get(id)
	now, ok := b.frame.Stock.Cable(r.Cable)
	if !ok {
		return c
	}
	for _, cb := range b.suiting(mains, r.Legs, now.Size) {
		if cb.Family == now.Family {
			continue
		}
		how := text + ", with " + cb.Name + " for " + r.Tag
		with, _ := b.try(order, how, edit.Batch{Label: capital(text), Ops: []edit.Operation{op, edit.SetCable{Runs: []doc.ID{id}, Cable: cb.Key}}})
		if with.Holds && with.worse == 0 {
			return with
		}
	}
	return c
}

// moved is the operation that puts the source into a run, at a distance from
// the end of the run that is nearer the supply.
func (b *bench) moved(f feed, br int, at geom.Length, text string) edit.Operation {
	e, ew, near, far, _ := b.outward(br)
	w, runs, ok := b.wayTo(b.net.Branches[br].From)
	if !ok || len(ew.legs) == 0 {
		return nil
	}
	ea, eb := ew.cut(at)
	along := w.then(ea)
	batch := edit.Batch{Label: capital(text)}
	moved := *f.source
	moved.Place.At = along.end()
	batch.Ops = append(batch.Ops, edit.SetSource{Source: &moved}, edit.SetRun{Run: b.longer(f.mains, f.source.ID, along)})
	own := map[doc.ID]bool{f.mains.ID: true, e.ID: true}
	if len(runs) == 0 {
		batch.Ops = append(batch.Ops, edit.SetRun{Run: lay(e, eb, near, far)})
	} else {
		first, _, feedEnd, _, _ := b.outward(runs[0])
		feedEnd.Side = doc.Secondary
		own[first.ID] = true
		half := *e
		half.ID, half.Tag = first.ID, first.Tag
		batch.Ops = append(batch.Ops, edit.SetRun{Run: lay(e, ea, near, feedEnd)}, edit.SetRun{Run: lay(&half, eb, feedEnd, far)})
	}
	for _, r := range doc.RunsAt(b.frame.Scheme, f.source.ID) {
		if !own[r.ID] {
			batch.Ops = append(batch.Ops, edit.SetRun{Run: b.longer(r, f.source.ID, along)})
		}
	}
	return batch
}

// longer lengthens a run at its end on the entity, along a way that starts
// there.
func (b *bench) longer(r *doc.Run, at doc.ID, along way) *doc.Run {
	s := b.frame.Scheme
	if r.To.On == at {
		return lay(r, wayOf(s, r, true).then(along), r.From, r.To)
	}
	return lay(r, along.reversed().then(wayOf(s, r, true)), r.From, r.To)
}

// centreFeed leaves the source where it is and takes its first run to the
// middle lamp: along the present way, or straight when that is much shorter.
func (b *bench) centreFeed() {
	f, ok := b.feed()
	if !ok || f.source == nil {
		return
	}
	mid := b.centre(f)
	w, runs, ok := b.wayTo(mid)
	if !ok || len(runs) < 2 || b.net.Nodes[mid].ID == "" {
		return
	}
	first, _, near, _, _ := b.outward(runs[0])
	_, _, _, far, _ := b.outward(runs[len(runs)-1])
	label := b.net.Nodes[mid].Label
	try := func(w way, how string) (cs []Cure) {
		c := b.laid(orderCentre, "take "+first.Tag+" from "+f.source.Tag+how+" to "+label+" in the middle", edit.SetRun{Run: lay(first, w, near, far)}, first.ID, false)
		if c.Text == "" {
			return nil
		}
		return []Cure{c}
	}
	cs := try(w, " along the present way")
	if s := straight(w.pts[0], w.end(), first.Legs[0]); float64(s.length()) < 0.7*float64(w.length()) && !barred(b.frame.Scheme, w.pts[0], w.end()) {
		cs = append(cs, try(s, " straight")...)
	}
	b.best(cs)
}

// splitFeed feeds the far half of the lamps by a run of its own from the start
// of the system, along the same way.
func (b *bench) splitFeed() {
	f, ok := b.feed()
	if !ok {
		return
	}
	var cs []Cure
	for _, br := range b.middles(f) {
		e, ew, near, far, ok := b.outward(br)
		if !ok || b.net.Branches[br].From == f.start {
			continue
		}
		w, runs, ok := b.wayTo(b.net.Branches[br].From)
		if !ok || len(runs) == 0 {
			continue
		}
		_, _, feedEnd, _, ok := b.outward(runs[0])
		if !ok {
			continue
		}
		first := b.net.Nodes[b.net.Branches[br].To].Label
		text := "feed " + first + " and what lies beyond by a run of its own from " + b.net.Nodes[f.start].Label
		near.On, near.Side = feedEnd.On, doc.AnySide
		if f.source != nil {
			near.Side = doc.Secondary
		}
		c := b.laid(orderSplit, text, edit.Batch{Label: capital(text), Ops: []edit.Operation{
			edit.SetRun{Run: lay(e, w.then(ew), near, far)}}}, e.ID, f.source == nil)
		if c.Text != "" {
			cs = append(cs, c)
		}
	}
	b.best(cs)
}

// secondSource gives the far half of the lamps a source of their own, in the
// middle of the run that led to them.
func (b *bench) secondSource() {
	if b.fd.Code == "SRC-01" {
		out, ok := b.circuit.Output[doc.ID(b.fd.Subject.ID)]
		if !ok {
			return
		}
		b.node = out
	}
	f, ok := b.feed()
	if !ok || f.source == nil || f.mains == nil {
		return
	}
	var cs []Cure
	for _, br := range b.middles(f) {
		if c := b.second(f, br); c.Text != "" {
			cs = append(cs, c)
		}
	}
	b.best(cs)
}

func (b *bench) second(f feed, br int) Cure {
	e, ew, near, far, ok := b.outward(br)
	w, _, found := b.wayTo(b.net.Branches[br].From)
	if !ok || !found || b.net.Branches[br].From == f.start && len(b.result.Tree.Kids[f.start]) < 2 {
		return Cure{}
	}
	ea, eb := ew.cut(ew.length() / 2)
	along := w.then(ea)
	other := *f.source
	other.ID, other.Tag = doc.NewID(), doc.FreeTag(b.frame.Scheme, doc.SourceKind)
	other.Place.At = along.end()
	end := f.mains.To
	if f.mains.From.On == f.source.ID {
		end = f.mains.From
	}
	end.Side = doc.Primary
	to := end
	to.On = other.ID
	near.On, near.Side = other.ID, doc.Secondary
	supply := *f.mains
	supply.ID, supply.Tag, supply.Slack = doc.NewID(), "", 0
	first := b.net.Nodes[b.net.Branches[br].To].Label
	text := "give " + first + " and what lies beyond a second source like " + f.source.Tag
	return b.laid(orderSecond, text, edit.Batch{Label: capital(text), Ops: []edit.Operation{
		edit.Place{Entity: &other},
		edit.AddRun{Run: lay(&supply, along, end, to)},
		edit.SetRun{Run: lay(e, eb, near, far)},
	}}, supply.ID, true)
}
