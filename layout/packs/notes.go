package packs

import (
	"math"
	"strings"

	"duskwire/calc/network"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

// offsets are the distances of a spot from the fixed points.
func (b *book) offsets(s spot) []string {
	return []string{long(geom.Distance(b.fixed.at[0], s.at)), long(geom.Distance(b.fixed.at[1], s.at))}
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
	b.settings(f)
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

// settings are what switches the zones, with room for what it was set to.
func (b *book) settings(f *flow) {
	t := &table{high: 5.4, columns: []column{{head: "Zone", grow: 1}, {head: "Switched by", grow: 1}, {head: "Set to (times, brightness, app)", least: 76}}}
	for _, z := range b.scheme.Zones.All() {
		by := "not drawn"
		if g, ok := b.scheme.Gear.Get(z.Control); ok {
			by = g.Tag + ", " + b.whatIs(g)
		}
		if z.Dimmed {
			by += "; dimmed"
		}
		t.add(b.called(z.ID), by, "")
	}
	if len(t.rows) > 0 {
		f.head("Switching and settings")
		f.table(t)
	}
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

// zoneOrder lists the zones, the one with the lowest lamp last: water gets in
// there first.
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
