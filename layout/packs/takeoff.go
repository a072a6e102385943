package packs

import (
	"slices"

	"duskwire/calc/check"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// entry is one cable that ends somewhere with its own sheath.
type entry struct {
	run   *doc.Run
	cable *network.Cable // nil when none is chosen
	end   *doc.End
	on    doc.Entity
	from  bool // the run starts here
}

// gland of one size and kind.
type gland struct {
	size, kind, thread string
	source             string
}

// takeoff counts what the drawing needs.
type takeoff struct {
	glands   map[gland]int // of armoured ends
	unsized  int           // armoured ends whose size the tables do not give
	round    int           // ends of round cable without armour at boxes, gear and sources
	tags     int           // earth tags or nuts
	untagged int           // ends drawn without one
	links    int           // wires between armours in plastic boxes
	blanks   int
	blue     int // sleeves
	green    int
	clips    map[clipKey]int
	tree     q.Metre         // legs in trees
	straps   map[clipKey]int // fixings of these
	unheld   q.Metre         // of these, of cables that the table of spacings does not know
	duct     q.Metre         // legs in duct, those in one trench once
	sleeve   q.Metre         // legs in a sleeve of their own
	ways     map[int]int
	noWays   int // boxes whose connectors are not known: no circuit reaches them
	holes    int
	entries  map[doc.ID][]entry // by entity
}

type clipKey struct {
	diameter q.Metre
	armoured bool
	along    q.Metre
	upright  q.Metre
	source   string
}

func takeoffOf(b *book) *takeoff {
	t := &takeoff{glands: map[gland]int{}, clips: map[clipKey]int{}, straps: map[clipKey]int{}, ways: map[int]int{}, entries: map[doc.ID][]entry{}}
	for i, r := range b.scheme.Runs.All() {
		t.legs(b, i, r)
		if r.With != "" {
			continue // its cores are in the cable of another run
		}
		c := b.cableOf(r)
		for k, e := range [2]*doc.End{&r.From, &r.To} {
			on, _ := doc.Find(b.scheme, e.On)
			if on == nil {
				continue
			}
			x := entry{run: r, cable: c, end: e, on: on, from: k == 0}
			t.entries[e.On] = append(t.entries[e.On], x)
			t.finish(b, x)
		}
	}
	t.duct += q.Metre(b.trench.sums().duct)
	for _, box := range b.scheme.Boxes.All() {
		t.box(b, box)
	}
	return t
}

// finish counts what one end of a cable needs.
func (t *takeoff) finish(b *book, e entry) {
	if e.cable == nil {
		return
	}
	for _, c := range coresOf(e.cable, b.mains(e.run), false) {
		switch c.sleeve {
		case "blue":
			t.blue++
		case greenYellow:
			t.green++
		}
	}
	box, isBox := e.on.(*doc.Box)
	var item doc.BoxStock
	if isBox {
		item, _ = b.stock.Box(box.Stock)
	}
	if item.Buried {
		return // cast in compound, with seals of its own
	}
	if e.cable.ArmourArea <= 0 {
		_, lamp := e.on.(*doc.Lamp)
		_, supply := e.on.(*doc.Supply)
		if !lamp && !supply {
			t.round++
		}
		return
	}
	g, ok := b.glandOf(e)
	if !ok {
		t.unsized++
	} else {
		t.glands[g]++
	}
	t.tags++
	if e.end.Untagged {
		t.untagged++
	}
}

// glandOf returns the gland of an armoured end.
func (b *book) glandOf(e entry) (gland, bool) {
	row, ok := b.Rules.GlandFor(e.cable)
	kind := e.end.Gland
	if kind == "" {
		kind = network.Sealed
	}
	return gland{row.Size, kind, row.Thread, row.Source.String()}, ok
}

// box counts what a box needs beside its entries.
func (t *takeoff) box(b *book, box *doc.Box) {
	item, _ := b.stock.Box(box.Stock)
	in := t.entries[box.ID]
	if item.Entries > len(in) {
		t.blanks += item.Entries - len(in)
	}
	t.links += linksIn(item, in)
	list := b.connectors(box.ID)
	if len(list) == 0 && len(in) > 0 {
		t.noWays++
	}
	for _, c := range list {
		t.ways[c.ways]++
	}
}

// linksIn returns how many wires join the armours in a box: one less than there
// are armours. Metal joins them itself.
func linksIn(item doc.BoxStock, in []entry) int {
	n := 0
	for _, e := range in {
		if e.cable != nil && e.cable.ArmourArea > 0 {
			n++
		}
	}
	if item.Metal || item.Buried {
		return 0
	}
	return max(n-1, 0)
}

// legs counts what the way of a run needs.
func (t *takeoff) legs(b *book, i int, r *doc.Run) {
	if r.With != "" {
		return
	}
	legs := b.Frame.Circuits.Legs(i)
	for k := range legs {
		l := &legs[k]
		switch {
		case l.Support == network.InTree:
			t.tree += l.Length
		case l.Support == network.InDuct && !l.Dug():
			t.duct += l.Length
		}
		if l.Sleeve {
			t.sleeve += l.Length
		}
		if l.Hole != "" {
			t.holes++
		}
	}
	c := b.cableOf(r)
	if c == nil {
		return
	}
	hung, rise := b.hung(r)
	if rise > 0 { // the rises of a run are one leg, as on a wall
		legs = slices.Clone(legs)
		for k := range legs {
			if legs[k].Rise {
				legs[k].Length = max(legs[k].Length-rise, 0)
			}
		}
	}
	if n, row, ok := b.Rules.ClipsFor(c, legs); ok {
		t.clips[keyOf(c, row)] += n
	}
	if len(hung) == 0 {
		return
	}
	t.tree += rise
	n, row, ok := b.Rules.ClipsFor(c, hung)
	if !ok {
		for k := range hung {
			t.unheld += hung[k].Length
		}
		return
	}
	t.straps[keyOf(c, row)] += n
}

func keyOf(c *network.Cable, row check.SupportRow) clipKey {
	return clipKey{c.Diameter, c.ArmourArea > 0, row.Along, row.Upright, row.Source.String()}
}

// hung returns what of a run hangs in trees, as legs that are fixed as on a wall,
// for no table gives a spacing in a tree (common practice, no source), and how
// much of it rises: a step at either end of a leg in a tree goes up its trunk.
func (b *book) hung(r *doc.Run) (legs []network.Leg, rise q.Metre) {
	if !slices.ContainsFunc(r.Legs, func(l doc.Leg) bool { return l.Support == network.InTree }) {
		return nil, 0
	}
	p, ok := derive.Unroll(b.scheme, r.ID, nil)
	if !ok {
		return nil, 0
	}
	add := func(length geom.Length, up bool) {
		if length < 0 {
			length = -length
		}
		if length == 0 {
			return
		}
		m := q.Metre(length.Metres())
		legs = append(legs, network.Leg{Support: network.Clipped, Length: m, Rise: up})
		if up {
			rise += m
		}
	}
	level, known := p.Ends[0].Level, p.Ends[0].On != nil
	before := false // the leg before is in a tree
	for i := range p.Legs {
		l := &p.Legs[i]
		in := l.Support == network.InTree
		if known && (in || before) {
			add(max(l.Level, 0)-max(level, 0), true) // below ground nothing is fixed
		}
		if in {
			add(l.To-l.From, false)
		}
		level, known, before = l.Level, true, in
	}
	if before && p.Ends[1].On != nil {
		add(max(p.Ends[1].Level, 0)-max(level, 0), true)
	}
	return legs, rise
}
