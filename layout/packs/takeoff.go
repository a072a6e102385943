package packs

import (
	"math"
	"slices"
	"strings"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
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
	clipped  q.Metre
	tree     q.Metre // legs in trees
	duct     q.Metre // legs in duct
	sleeve   q.Metre // legs in a sleeve of their own
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
	t := &takeoff{glands: map[gland]int{}, clips: map[clipKey]int{}, ways: map[int]int{}, entries: map[doc.ID][]entry{}}
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
		case l.Support == network.InDuct:
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
	n, row, ok := b.Rules.ClipsFor(c, legs)
	if !ok {
		return
	}
	t.clips[clipKey{c.Diameter, c.ArmourArea > 0, row.Along, row.Upright, row.Source.String()}] += n
}

// connector joins the cores of one function in a box.
type connector struct {
	name string
	ways int
	mark string // of the circuit, where several meet
}

// connectors lists the connectors of a box, one a function and circuit, with as
// many ways as conductors meet. Trade habit: common practice, no source.
func (b *book) connectors(id doc.ID) (out []connector) {
	circuits := b.Frame.Circuits.Circuits
	for i := range circuits {
		n, ok := circuits[i].Node[id]
		if !ok {
			continue
		}
		list := connectorsAt(circuits[i].Input.Net, n)
		for k := range list {
			if len(circuits) > 1 {
				list[k].mark = circuits[i].Input.Net.Label
			}
		}
		out = append(out, list...)
	}
	return out
}

func connectorsAt(net *network.Net, node int) (out []connector) {
	live, earth, armour := 0, 0, 0
	for k := range net.Branches {
		br := &net.Branches[k]
		if br.From != node && br.To != node || br.Cable == nil {
			continue
		}
		live++
		if br.Cable.Earth == network.EarthCore {
			earth++
		}
		if br.Armoured() && !br.EndAt(node).Shared {
			armour++
		}
	}
	n := &net.Nodes[node]
	names := [2]string{"L", "N"}
	if n.System != 0 {
		names, earth = [2]string{"first core", "second core"}, 0
		if net.Systems[n.System].Current == network.DC {
			names = [2]string{"+", "−"}
		}
	}
	add := func(name string, ways int) {
		if ways > 0 {
			out = append(out, connector{name: name, ways: ways})
		}
	}
	add(names[0], live)
	add(names[1], live)
	add("Protective conductor", earth)
	if n.Box == nil || !n.Box.Metal {
		add("Armour link", armour)
	}
	return out
}

// item is one line of the list of materials.
type item struct {
	group, name string
	amount      float64
	places      int // decimals
	unit, note  string
}

// materials lists everything to be bought.
func (b *book) materials() (out []item) {
	add := func(group, name string, amount float64, places int, unit, note string) {
		if amount > 0 {
			out = append(out, item{group, name, amount, places, unit, note})
		}
	}
	b.stockItems(add)
	b.cables(add)
	b.ends(add)
	b.way(add)
	return out
}

type adder func(group, name string, amount float64, places int, unit, note string)

// stockItems counts what stands in the garden by its name.
func (b *book) stockItems(add adder) {
	for _, k := range []doc.Kind{doc.LampKind, doc.SourceKind, doc.GearKind, doc.BoxKind} {
		var names []string
		tags := map[string][]string{}
		doc.Each(b.scheme, func(e doc.Entity, kind doc.Kind) {
			if kind != k {
				return
			}
			name := b.whatIs(e)
			if tags[name] == nil {
				names = append(names, name)
			}
			tags[name] = append(tags[name], e.Label())
		})
		group := map[doc.Kind]string{doc.LampKind: "Lamps", doc.SourceKind: "Sources", doc.GearKind: "Gear", doc.BoxKind: "Boxes"}[k]
		for _, n := range names {
			add(group, n, float64(len(tags[n])), 0, "", runsOf(tags[n]))
		}
	}
	for _, s := range b.scheme.Supplies.All() {
		if d, ok := b.stock.Device(s.Fuse); ok && s.Spur {
			add("Gear", "Fused connection unit with "+d.Name, 1, 0, "", s.Tag+"; two-pole switch")
		}
	}
}

// runsOf writes a list of tags, "L1 to L4, L7".
func runsOf(tags []string) string {
	sorted := slices.Clone(tags)
	slices.SortStableFunc(sorted, func(a, b string) int {
		switch {
		case finding.LessLabel(a, b):
			return -1
		case finding.LessLabel(b, a):
			return 1
		}
		return 0
	})
	var parts []string
	for i := 0; i < len(sorted); {
		j := i
		for j+1 < len(sorted) && follows(sorted[j], sorted[j+1]) {
			j++
		}
		switch {
		case j-i >= 2:
			parts = append(parts, sorted[i]+" to "+sorted[j])
		default:
			parts = append(parts, sorted[i:j+1]...)
		}
		i = j + 1
	}
	return strings.Join(parts, ", ")
}

// follows reports whether b is a with the next number.
func follows(a, b string) bool {
	letters := strings.TrimRight(a, "0123456789")
	if letters != strings.TrimRight(b, "0123456789") {
		return false
	}
	n := 0
	for _, c := range a[len(letters):] {
		n = n*10 + int(c-'0')
	}
	return b == letters+whole(n+1)
}

// cables sums the cut list up.
func (b *book) cables(add adder) {
	var order []string
	sums, pieces := map[string]q.Metre{}, map[string]int{}
	for i := range b.Frame.Circuits.Lengths {
		l := b.length(i)
		if l.Cut <= 0 || l.Cable == "" {
			continue
		}
		name := l.Name
		if name == "" {
			name = l.Cable
		}
		if pieces[name] == 0 {
			order = append(order, name)
		}
		pieces[name]++
		sums[name] += l.Cut
	}
	for _, n := range order {
		note := plural(pieces[n], "piece", "pieces") + " of the cut list"
		for i := range b.Frame.Drums {
			if p := &b.Frame.Drums[i]; p.Name == n && len(p.Drums) > 0 {
				note += "; to buy: " + bought(p)
			}
		}
		add("Cable", n, float64(sums[n]), 1, "m", note)
	}
}

// ends counts what finishes the cables.
func (b *book) ends(add adder) {
	t := b.counts
	var glands []gland
	for g := range t.glands {
		glands = append(glands, g)
	}
	slices.SortFunc(glands, func(a, b gland) int {
		return strings.Compare(a.size+a.kind+a.thread+a.source, b.size+b.kind+b.thread+b.source)
	})
	for _, g := range glands {
		name := "Gland " + g.kind + ", size " + g.size
		if g.thread != "" {
			name += ", thread " + g.thread
		}
		n := t.glands[g]
		add("Ends of cables", name, float64(n), 0, "", plural((n+1)/2, "pack", "packs")+" of two, with locknut, tag and shroud; size by "+g.source+": measure the cable")
	}
	add("Ends of cables", "Gland for armour, size not in the tables", float64(t.unsized), 0, "", "measure the cable")
	add("Ends of cables", "Gland M20 for round cable without armour", float64(t.round), 0, "", "at boxes, gear and sources; range by the diameter of the cable")
	note := "one an armoured end"
	if t.untagged > 0 {
		note += "; " + whole(t.untagged) + " of the ends are drawn without one: see the findings"
	}
	add("Ends of cables", "Earth tag or earthing nut", float64(t.tags), 0, "", note)
	add("Ends of cables", "Armour link, wire with two eyes", float64(t.links), 0, "", "between the tags in boxes of plastic")
	add("Ends of cables", "Sleeve blue, for one core", float64(t.blue), 0, "", "for cores black and grey: see the box sheets")
	add("Ends of cables", "Sleeve green-yellow, for one core", float64(t.green), 0, "", "the same")
	add("Ends of cables", "Blanking plug", float64(t.blanks), 0, "", "entries of boxes that no cable uses")
	var ways []int
	for w := range t.ways {
		ways = append(ways, w)
	}
	slices.Sort(ways)
	for _, w := range ways {
		add("Ends of cables", "Connector for "+plural(w, "conductor", "conductors"), float64(t.ways[w]), 0, "", "take the next size that is made")
	}
	add("Ends of cables", "Connectors of boxes that no circuit reaches", float64(t.noWays), 0, "boxes", "not counted: join them first")
	for _, fill := range []string{"gel", "resin"} {
		n := 0
		for _, x := range b.scheme.Boxes.All() {
			if x.Fill == fill {
				n++
			}
		}
		add("Ends of cables", upper(fill)+" to fill a box", float64(n), 0, "fills", "volume by the maker of the box, not known here")
	}
}

// way counts what the routes need.
func (b *book) way(add adder) {
	t := b.counts
	var clips []clipKey
	for k := range t.clips {
		clips = append(clips, k)
	}
	slices.SortFunc(clips, func(a, b clipKey) int {
		switch {
		case a.diameter != b.diameter:
			return int(math.Copysign(1, float64(a.diameter-b.diameter)))
		case a.armoured != b.armoured && b.armoured:
			return -1
		case a.armoured != b.armoured:
			return 1
		}
		return strings.Compare(a.source, b.source)
	})
	all := 0
	for _, k := range clips {
		name := "Clip or cleat for cable of " + digits(float64(k.diameter)*1000, 1) + " mm"
		if k.diameter <= 0 {
			name = "Clip or cleat, diameter of the cable not known"
		}
		n := t.clips[k]
		all += n
		add("Way of cables", name, float64(n), 0, "", "every "+digits(float64(k.along)*1000, 0)+" mm along, "+digits(float64(k.upright)*1000, 0)+" mm upright, two more at a bend: "+k.source)
	}
	boxes := b.scheme.Boxes.Len() + b.scheme.Gear.Len() + b.scheme.Sources.Len()
	add("Way of cables", "Screw with plug for a clip", float64(all), 0, "", "one a clip; leave out plugs in timber (common practice, no source)")
	add("Way of cables", "Screw with plug for boxes, gear and sources", float64(4*boxes), 0, "", "four each; seal the holes (common practice, no source)")
	add("Way of cables", "Stand-offs and straps in trees", float64(t.tree), 1, "m", "of cable; by the maker's spacing, no nails")
	add("Way of cables", "Duct with draw cord", math.Ceil(float64(t.duct)*2-1e-6)/2, 1, "m", "bore by the cables that lie in it")
	add("Way of cables", "Sleeve or conduit", math.Ceil(float64(t.sleeve)*2-1e-6)/2, 1, "m", "legs drawn with a sleeve of their own")
	d := b.trench.sums()
	note := "200 mm and the cable, 300 mm wide; about " + digits(d.sand*sandHeavy, 2) + " t at " + digits(sandHeavy, 1) + " t/m³"
	if d.unsaid > 0 {
		note += "; without " + plural(d.unsaid, "trench", "trenches") + " whose depth is not given"
	}
	add("Way of cables", "Marker tape", math.Ceil(d.tape), 0, "m", "1.02 m a metre of trench")
	add("Way of cables", "Soft sand", d.sand, 2, "m³", note)
	add("Labels", "Labels of this pack", float64(len(b.labels())), 0, "", "printed on the page Labels; outdoors behind clear film or engraved")
	add("Labels", "Tag for a cable end", float64(2*len(b.tagged())), 0, "", "two a run, printed on the page Labels")
	add("Sundries", "Silicone or sealing paste, ties, cloth", 1, 0, "lot", "not counted")
}
