package packs

import (
	"math"
	"strings"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

func overruled(f *finding.Finding) bool { return f.Overruled != nil }

func ceilHalf(m float64) float64 { return math.Ceil(m*2-1e-6) / 2 }

func absf(v float64) float64 { return math.Abs(v) }

// signed writes a difference with its sign.
func signed(v float64) string {
	if v > 0 {
		return "+" + digits(v, 2)
	}
	return digits(v, 2)
}

// offsets are the distances of a spot from the fixed points.
func (b *book) offsets(s spot) []string {
	return []string{long(geom.Distance(b.fixed.at[0], s.at)), long(geom.Distance(b.fixed.at[1], s.at))}
}

// legsText says how a run is carried, neighbours alike told once.
func legsText(r *doc.Run) string {
	var parts []string
	for _, l := range r.Legs {
		s := supportName(l.Support)
		switch {
		case dug(l) && l.Depth > 0:
			s += " " + doc.Written(l.Depth) + " deep"
		case dug(l):
			s += ", depth not given"
		case l.Support != network.Indoors:
			s += " at " + doc.Written(l.Height)
		}
		if len(parts) == 0 || parts[len(parts)-1] != s {
			parts = append(parts, s)
		}
	}
	return strings.Join(parts, "; ")
}

// userNotes are for the people who live there.
func (b *book) userNotes(f *flow) {
	f.para("For the people who live here. Keep these notes with the as-built drawing.")
	f.head("Switching off")
	for i := range b.Frame.Circuits.Circuits {
		c := &b.Frame.Circuits.Circuits[i]
		s, ok := b.scheme.Supplies.Get(c.Supply)
		if !ok {
			continue
		}
		where := "at the supply point " + s.Tag
		if g := b.isolators(c.Input.Net); g != "" {
			where += ", or at " + g
		}
		f.item("Circuit " + c.Input.Net.Label + ": " + where + ". It is fed from: " + b.deviceName(s) + ".")
	}
	f.item("Before a lamp is opened or a lead is cut free: switch off, and have it proved dead by someone who can.")
	f.head("Twice a year")
	f.item("Press the test button of the residual current device. It has to switch off; switch it on again. When it does not switch off, have it seen to and leave the garden off.")
	f.item("Wipe the glasses, cut plants back from the lamps, turn lamps back that were moved.")
	if b.counts.tree > 0 {
		f.item("Let out the straps in trees: trees grow. Next time: ____________")
	}
	f.head("When it trips in the rain")
	f.item("Leave the garden off until it has been looked at when it trips again at once.")
	if zones := b.zoneOrder(); zones != "" {
		f.item("Switch the zones off, the device on, then the zones on one after the other: " + zones + ". The one that trips it stays off.")
	}
	if len(b.trench.stretches) > 0 {
		f.head("Where not to dig")
		b.whereNot(f)
	}
	b.spares(f)
	f.head("Who to call")
	f.para("Installed by: ________________________________     Telephone: ______________________")
	f.para("Next inspection due: ______________________     Warranty of lamps until: ______________________")
	f.findings("Known differences from the usual rules", b.about(overruled))
}

// isolators names the gear of a circuit that isolates.
func (b *book) isolators(net *network.Net) string {
	var tags []string
	for i := range net.Nodes {
		if n := &net.Nodes[i]; n.Kind == network.GearNode && n.Gear != nil && n.Gear.Kind == network.Isolator {
			tags = append(tags, n.Label)
		}
	}
	return strings.Join(tags, ", ")
}

// zoneOrder lists the zones, those at or below ground first: water gets in there.
func (b *book) zoneOrder() string {
	type low struct {
		name string
		at   geom.Length
	}
	var list []low
	for _, z := range b.scheme.Zones.All() {
		l := low{name: z.Name, at: geom.Length(math.MaxInt64)}
		if l.name == "" {
			l.name = z.Tag
		}
		for _, lamp := range b.scheme.Lamps.All() {
			if lamp.Zone == z.ID {
				l.at = min(l.at, lamp.Place.Height)
			}
		}
		list = append(list, l)
	}
	sortBy(list, func(a, b low) bool { return a.at > b.at })
	var names []string
	for _, l := range list {
		names = append(names, l.name)
	}
	return strings.Join(names, ", ")
}

// whereNot lists the ground that cables lie in, with the least depth.
func (b *book) whereNot(f *flow) {
	t := &table{columns: []column{{head: "Ground", grow: 1}, {head: "Runs", grow: 1}, {head: "Least depth", unit: "mm", anchor: scene.Right, least: 20}}}
	type lies struct {
		runs []string
		deep geom.Length
		open bool
	}
	at := map[string]*lies{}
	var order []string
	for i := range b.trench.stretches {
		s := &b.trench.stretches[i]
		name := areaName(s.area)
		l := at[name]
		if l == nil {
			l = &lies{deep: geom.Length(math.MaxInt64)}
			at[name] = l
			order = append(order, name)
		}
		for _, r := range s.runs {
			l.runs = append(l.runs, r.Tag)
			for _, leg := range r.Legs {
				if dug(leg) {
					l.deep, l.open = min(l.deep, leg.Depth), l.open || leg.Depth == 0
				}
			}
		}
	}
	for _, name := range order {
		l := at[name]
		deep := millis(l.deep)
		if l.open {
			deep = "not given"
		}
		t.add(name, runsOf(unique(l.runs)), deep)
	}
	f.table(t)
}

func unique(list []string) (out []string) {
	seen := map[string]bool{}
	for _, s := range list {
		if !seen[s] {
			seen[s] = true
			out = append(out, s)
		}
	}
	return out
}

// spares lists the lamps, for buying another.
func (b *book) spares(f *flow) {
	t := &table{columns: []column{{head: "Lamp", grow: 1}, {head: "Number", anchor: scene.Right}, {head: "Where", grow: 1}, {head: "Supplier, batch, date", least: 48}}}
	b.stockItems(func(group, name string, amount float64, _ int, _, note string) {
		if group == "Lamps" {
			t.add(name, digits(amount, 0), note, "")
		}
	})
	if len(t.rows) > 0 {
		f.head("Lamps")
		f.table(t)
	}
}

// client puts the client pack together.
func client(d *draft) string {
	d.cover([]string{
		"Plants grow and lamps move: their places are settled on a dark evening, before the last screw.",
		"Check the bar and the check dimension on the drawing before measuring: a print that was scaled shows there.",
	})
	d.drawing("Plan", d.clientPlan)
	d.list("Fittings", false, d.fittings)
	d.list("What will be dug, drilled and fixed", false, d.works)
	return "Client pack"
}

// fittings is the schedule of the lamps.
func (b *book) fittings(f *flow) {
	t := &table{columns: []column{{head: "Lamp", grow: 1.4}, {head: "Number", anchor: scene.Right}, {head: "Each", unit: "W", anchor: scene.Right}, {head: "Light", unit: "lm", anchor: scene.Right}, {head: "White", unit: "K", anchor: scene.Right}, {head: "Beam", unit: "°", anchor: scene.Right}, {head: "IP"}, {head: "Volts", unit: "V", anchor: scene.Right}, {head: "Where", grow: 1}, {head: "Finish", least: 24}}}
	known := func(v float64, unit int) string {
		if v <= 0 {
			return "?"
		}
		return digits(v, unit)
	}
	b.stockItems(func(group, name string, amount float64, _ int, _, note string) {
		if group != "Lamps" {
			return
		}
		cells := []string{name, digits(amount, 0), "?", "?", "?", "?", "?", "?", note, ""}
		for _, l := range b.stock.Lamps {
			if l.Name == name {
				cells = []string{name, digits(amount, 0), known(float64(l.Load.Power), 1), known(float64(l.Flux), 0), known(float64(l.Temperature), 0), known(l.Beam, 0), l.IP, known(float64(l.Load.Nominal), 0), note, ""}
				break
			}
		}
		t.add(cells...)
	})
	if len(t.rows) == 0 {
		f.para("No lamp is drawn yet.")
	} else {
		f.table(t)
		f.small("? = not given in the stock book. Together: " + plural(b.Frame.Totals.Lamps, "lamp", "lamps") + ", " + b.Frame.Totals.Load.String() + ". Finish and price are agreed with you and written in.")
	}
	b.hidden(f)
	b.zoneTable(f)
}

// hidden lists what belongs to the lights and is not seen.
func (b *book) hidden(f *flow) {
	t := &table{columns: []column{{head: "Part", grow: 1}, {head: "Number", anchor: scene.Right}, {head: "Where", grow: 1}}}
	b.stockItems(func(group, name string, amount float64, _ int, _, note string) {
		if group != "Lamps" {
			t.add(name, digits(amount, 0), note)
		}
	})
	if len(t.rows) > 0 {
		f.head("Parts that belong to it")
		f.table(t)
	}
}

// zoneTable says what is switched together.
func (b *book) zoneTable(f *flow) {
	if b.scheme.Zones.Len() == 0 {
		return
	}
	f.head("What is switched together")
	t := &table{columns: []column{{head: "Zone"}, {head: "Name", grow: 1}, {head: "Lamps", grow: 1}, {head: "Switched by", grow: 0.8}}}
	for _, z := range b.scheme.Zones.All() {
		var tags []string
		for _, l := range b.scheme.Lamps.All() {
			if l.Zone == z.ID {
				tags = append(tags, l.Tag)
			}
		}
		by := "not yet settled"
		if z.Control != "" {
			by = doc.TagOf(b.scheme, z.Control)
		}
		t.add(z.Tag, z.Name, runsOf(tags), by)
	}
	f.table(t)
}

// works says what is done to the garden.
func (b *book) works(f *flow) {
	sum := b.trench.sums()
	f.head("Dug")
	if sum.length > 0 {
		at := map[string]float64{}
		var order []string
		for i := range b.trench.stretches {
			name := areaName(b.trench.stretches[i].area)
			if _, ok := at[name]; !ok {
				order = append(order, name)
			}
			at[name] += b.trench.stretches[i].length
		}
		t := &table{columns: []column{{head: "Ground", grow: 1}, {head: "Trench", unit: "m", anchor: scene.Right}, {head: "Made good by", least: 60}}}
		for _, n := range order {
			t.add(n, digits(at[n], 1), "")
		}
		t.sum("Together", digits(sum.length, 1), "")
		f.table(t)
		if sum.byHand > 0 {
			f.para("Of it " + digits(sum.byHand, 1) + " m by hand among roots, which takes longer.")
		}
	} else {
		f.para("Nothing.")
	}
	f.head("Drilled and fixed")
	clips := 0
	for _, n := range b.counts.clips {
		clips += n
	}
	f.para("Cable clipped in sight on walls and timber with about " + whole(clips) + " clips. " + plural(b.scheme.Boxes.Len(), "box", "boxes") + ", " + plural(b.scheme.Lamps.Len(), "lamp", "lamps") + " fixed or set.")
	if b.counts.tree > 0 {
		f.para("In trees " + digits(float64(b.counts.tree), 1) + " m of cable on stand-offs and straps that are let out every year; no nails.")
	}
	f.head("Not in this pack")
	f.para("Running cost, price and the night picture are handed over apart.")
	f.head("For you to settle")
	for _, s := range []string{"Access and days without power", "Who puts back lawn, beds and paving, and with what", "Permissions: building, trees, a protected house", "Neighbours who look onto the lamps"} {
		f.tick(s)
	}
}
