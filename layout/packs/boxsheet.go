package packs

import (
	"slices"
	"strings"

	"duskwire/calc/network"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

// boxSheets are the sheets for the boxes, one after the other.
func (b *book) boxSheets(f *flow) {
	if b.scheme.Boxes.Len() == 0 {
		f.para("The plan has no box: the cables are joined in the fittings.")
	}
	if b.threeCore() {
		f.para("Three-core armoured cable is made with cores brown, black and grey, or brown, blue and green-yellow. The sheets are for the first; with the second no core is sleeved. Bought:")
		f.tick("brown, black, grey")
		f.tick("brown, blue, green-yellow")
		f.gap(2)
	}
	for i, box := range b.scheme.Boxes.All() {
		if i > 0 {
			f.gap(3)
		}
		b.boxSheet(f, box)
	}
}

// threeCore reports whether armoured cable of three cores is used on the mains.
func (b *book) threeCore() bool {
	for _, r := range b.scheme.Runs.All() {
		if c := b.cableOf(r); c != nil && c.ArmourArea > 0 && c.Cores == 3 && b.mains(r) {
			return true
		}
	}
	return false
}

func (b *book) boxSheet(f *flow, box *doc.Box) {
	item, known := b.stock.Box(box.Stock)
	in := b.counts.entries[box.ID]
	f.room(min(60+12*float64(len(in)), 200))
	f.line(thick, f.x, f.y, f.x+f.width, f.y)
	f.gap(1.5)
	f.head(box.Tag + ": " + b.whatIs(box))
	f.para(b.boxFacts(box, item, known, len(in)))
	if b.fixed != nil {
		at := box.Place.At
		f.para("Place: " + long(geom.Distance(b.fixed.at[0], at)) + " m from F1, " + long(geom.Distance(b.fixed.at[1], at)) + " m from F2; its foot " + doc.Written(box.Place.Height) + " above ground.")
	} else {
		f.para("Its foot " + doc.Written(box.Place.Height) + " above ground.")
	}
	b.entryTable(f, box, in)
	b.connectorTable(f, box, item, in)
	f.small("Cables enter from below with a drip loop. Screws through the back are sealed. Photograph the open box before it is closed.")
	if list := b.about(on(box.ID)); len(list) > 0 {
		for _, x := range list {
			f.item(verdict(x))
		}
		f.gap(1)
	}
}

// boxFacts are the size, protection, entries and fill of a box in words.
func (b *book) boxFacts(box *doc.Box, item doc.BoxStock, known bool, used int) string {
	if !known {
		return "The stock item " + box.Stock + " is not known: size and entries are open. " + plural(used, "cable ends", "cables end") + " in it."
	}
	var parts []string
	if item.IP != "" {
		parts = append(parts, item.IP)
	}
	if item.Side > 0 {
		parts = append(parts, digits(float64(item.Side)*1000, 0)+" mm square")
	}
	kind := "plastic"
	if item.Metal {
		kind = "metal"
	}
	parts = append(parts, kind)
	if item.Entries > 0 {
		parts = append(parts, plural(item.Entries, "entry", "entries")+", "+whole(used)+" used, "+whole(max(item.Entries-used, 0))+" blanked")
	} else {
		parts = append(parts, plural(used, "entry used", "entries used"))
	}
	fill := "fill not said"
	switch box.Fill {
	case "none":
		fill = "not filled"
	case "gel", "resin":
		fill = "filled with " + box.Fill
	}
	parts = append(parts, fill)
	if box.Hidden {
		parts = append(parts, "lies hidden: mark its place on the as-built page")
	}
	if box.TopEntries > 0 {
		parts = append(parts, plural(box.TopEntries, "entry", "entries")+" in the top")
	}
	return strings.Join(parts, "; ") + "."
}

// entryTable lists the cables that end in a box.
func (b *book) entryTable(f *flow, box *doc.Box, in []entry) {
	if len(in) == 0 {
		f.para("No cable ends in it.")
		return
	}
	t := &table{columns: []column{{head: "Run"}, {head: "To"}, {head: "Way"}, {head: "Cable", grow: 1}, {head: "Cores", grow: 1.3}, {head: "Gland"}, {head: "Tail", unit: "m", anchor: scene.Right}, {head: "Done", least: 10}}}
	for _, e := range in {
		far, toward := e.run.To, b.next(e)
		if !e.from {
			far = e.run.From
		}
		other := "in the air"
		if far.On != "" {
			other = doc.TagOf(b.scheme, far.On)
		}
		name, cores := "no cable chosen", "not known"
		if e.cable != nil {
			name, cores = e.cable.Name, coreText(coresOf(e.cable, b.mains(e.run), b.direct(e.run)))
		}
		if with := b.sharing(e.run); with != "" {
			cores += "; further cores for " + with
		}
		t.rows = append(t.rows, row{tick: true, cells: []string{e.run.Tag, other, b.wayOf(e, box.Place, toward), name, cores, b.glandText(e, box), b.tail(e), ""}})
	}
	f.table(t)
}

// next is the first point of the way of a cable from the entity.
func (b *book) next(e entry) geom.Point {
	path := doc.RunPath(b.scheme, e.run)
	if e.from {
		return path[1]
	}
	return path[len(path)-2]
}

// wayOf says where a cable leaves to, how it is carried there and how the hole
// of that leg falls.
func (b *book) wayOf(e entry, at doc.Place, toward geom.Point) string {
	leg := e.run.Legs[len(e.run.Legs)-1]
	if e.from {
		leg = e.run.Legs[0]
	}
	level := leg.Height
	if dug(leg) {
		level = -leg.Depth
	}
	s := compass(at.At, toward, b.scheme.Plan.North)
	switch {
	case level < at.Height:
		s += " down"
	case level > at.Height:
		s += " up"
	}
	s = strings.TrimSpace(s + ", " + supportName(leg.Support))
	if dug(leg) && leg.Depth > 0 {
		s += " " + doc.Written(leg.Depth) + " deep"
	}
	switch leg.Hole {
	case "out":
		s += ", hole falls out"
	case "in":
		s += ", hole falls in"
	}
	return strings.TrimPrefix(s, ", ")
}

// direct reports whether a run carries direct current.
func (b *book) direct(r *doc.Run) bool {
	p, ok := b.branch[r.ID]
	if !ok {
		return false
	}
	net := b.net(p)
	return net.Systems[net.Nodes[net.Branches[p.at].To].System].Current == network.DC
}

// sharing names the runs that have their cores in the cable of r.
func (b *book) sharing(r *doc.Run) string {
	var tags []string
	for _, o := range b.scheme.Runs.All() {
		if o.With == r.ID {
			tags = append(tags, o.Tag)
		}
	}
	return strings.Join(tags, ", ")
}

// glandText names the gland of an entry.
func (b *book) glandText(e entry, box *doc.Box) string {
	item, _ := b.stock.Box(box.Stock)
	switch {
	case item.Buried:
		return "seal of the joint"
	case e.cable == nil:
		return "not known"
	case e.cable.ArmourArea <= 0:
		return "M20, round"
	}
	g, ok := b.glandOf(e)
	if !ok {
		return g.kind + ", size not known"
	}
	s := g.kind + " " + g.size
	if e.end.Untagged {
		return s + ", no tag drawn"
	}
	return s + ", tag"
}

// tail writes the tail left at one end.
func (b *book) tail(e entry) string { return metres(derive.Tail(*e.end, e.on)) }

// connectorRows is a table of connectors, with their circuit where a box may hold
// those of several: with one circuit in the scheme it says nothing.
func connectorRows(list []connector) *table {
	t := &table{narrow: true, columns: []column{{head: "Connector", least: 45}, {head: "Conductors", anchor: scene.Right}}}
	marked := slices.ContainsFunc(list, func(c connector) bool { return c.mark != "" })
	if marked {
		t.columns = append(t.columns, column{head: "Circuit", least: 30})
	}
	for _, c := range list {
		cells := []string{upper(c.name), whole(c.ways)}
		if marked && c.mark == "" {
			cells = append(cells, "–")
		} else if marked {
			cells = append(cells, c.mark)
		}
		t.add(cells...)
	}
	return t
}

// connectorTable lists the connectors and the armour links of a box.
func (b *book) connectorTable(f *flow, box *doc.Box, item doc.BoxStock, in []entry) {
	list := b.connectors(box.ID)
	if len(list) == 0 {
		if len(in) > 0 {
			f.para("Connectors: not known, for no supply reaches this box.")
		}
		return
	}
	f.table(connectorRows(list))
	armoured := 0
	for _, e := range in {
		if e.cable != nil && e.cable.ArmourArea > 0 {
			armoured++
		}
	}
	switch n := linksIn(item, in); {
	case armoured == 0:
	case box.Unlinked:
		f.para("Armours are drawn as not linked here: see the findings.")
	case item.Metal:
		f.para("The metal of the box links the armours; its earth terminal takes one way more.")
	case n > 0:
		f.para("Armour links: " + plural(n, "wire", "wires") + " between the " + whole(armoured) + " tags, and one to the protective conductor.")
	case !item.Buried:
		f.para("The tag of the one armour is joined to the protective conductor.")
	}
}
