package packs

import (
	"strings"

	"duskwire/layout/doc"
	"duskwire/layout/scene"
)

// client puts the client pack together.
func client(d *draft) string {
	d.cover([]string{
		"Plants grow and lamps move: their places are settled on a dark evening, before the last screw.",
		"Check the bar and the check dimension on the drawing before measuring: a print that was scaled shows there.",
	})
	d.inParts("Plan", d.clientPlan)
	d.nightPages()
	d.list("Fittings", false, d.fittings)
	d.list("Price", false, d.price)
	d.list("Running cost", false, d.runningCost)
	d.list("What will be dug, drilled and fixed", false, d.works)
	if d.Other != nil {
		other := newBook(*d.Other)
		d.list("Options side by side", false, func(f *flow) { d.options(f, other) })
		d.nightOptions(other)
	}
	return "Client pack"
}

// fittings is the schedule of the lamps.
func (b *book) fittings(f *flow) {
	t := &table{high: 6, columns: []column{{head: "Symbol", anchor: scene.Middle}, {head: "Lamp", grow: 1.4, least: 28}, {head: "Number", anchor: scene.Right}, {head: "Each", unit: "W", anchor: scene.Right}, {head: "Light", unit: "lm", anchor: scene.Right}, {head: "White", unit: "K", anchor: scene.Right}, {head: "Beam", unit: "°", anchor: scene.Right}, {head: "IP"}, {head: "Volts", unit: "V", anchor: scene.Right}, {head: "Where", grow: 1}, {head: "One costs", unit: b.scheme.List.Currency, anchor: scene.Right}, {head: "Finish", least: 20}}}
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
		cells, mark := []string{"", name, digits(amount, 0), "?", "?", "?", "?", "?", "?", note, "?", ""}, "lamp other"
		for i := range b.stock.Lamps {
			if l := &b.stock.Lamps[i]; l.Name == name {
				mark = scene.LampSymbol(l)
				cells = []string{"", name, digits(amount, 0), known(float64(l.Load.Power), 1), known(float64(l.Flux), 0), known(float64(l.Temperature), 0), known(l.Beam, 0), l.IP, known(float64(l.Load.Nominal), 0), note, b.lampPrice(l.Key), ""}
				break
			}
		}
		t.rows = append(t.rows, row{cells: cells, mark: mark})
	})
	if len(t.rows) == 0 {
		f.para("No lamp is drawn yet.")
	} else {
		f.table(t)
		f.small("? = not given in the stock book or the price list. Together: " + plural(b.Frame.Totals.Lamps, "lamp", "lamps") + ", " + b.Frame.Totals.Load.String() + ". Finish is agreed with you and written in.")
	}
	b.hidden(f)
	b.zoneTable(f)
}

// lampPrice is the band of one lamp by the price list.
func (b *book) lampPrice(key string) string {
	if band, ok := b.scheme.List.Of("lamp", key); ok {
		return strings.ReplaceAll(band.String(), " to ", " – ")
	}
	return "?"
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
	f.head("For you to settle")
	for _, s := range []string{"Access and days without power", "Who puts back lawn, beds and paving, and with what", "Permissions: building, trees, a protected house", "Neighbours who look onto the lamps"} {
		f.tick(s)
	}
}
