package packs

import (
	"strings"

	"duskwire/layout/doc"
	"duskwire/layout/scene"
)

// price is the page of what the scheme costs by the user's own list.
func (b *book) price(f *flow) {
	p := b.quoteOf()
	if !p.priced() {
		f.note("No price is worked out: the price list of this scheme has none of what is drawn. That does not mean that it costs nothing.")
		b.without(f, p)
		b.moves(f, p)
		return
	}
	f.para("A band by the installer's own price list, from what is drawn: at least and at most. It is no offer until it is made one. Tax is as the list has it.")
	unit := b.scheme.List.Currency
	t := &table{columns: []column{{head: "Part", grow: 1}, {head: "Amount", anchor: scene.Right}, {head: "Unit"}, {head: "For one", unit: unit, anchor: scene.Right}, {head: "At least", unit: unit, anchor: scene.Right, least: 17}, {head: "At most", unit: unit, anchor: scene.Right, least: 17}}}
	band := ""
	for i := range p.lines {
		l := &p.lines[i]
		if words := groupWords[l.Group]; words != band {
			band = words
			t.band(band)
		}
		one, low, high := "not known", "–", "–"
		if l.priced {
			one, low, high = l.Band.String(), l.all.Low.String(), l.all.High.String()
			switch {
			case l.all == doc.Band{}:
				one = "at hand" // lengths left over from other jobs
			case l.Band == doc.Band{}:
				one = "by the coil"
			}
		}
		t.add(l.name, b.amountText(l), l.unit, one, low, high)
	}
	sum := "Together"
	if len(p.lacks()) > 0 {
		sum = "Together, without what is named below"
	}
	t.sum(sum, "", "", "", p.sum.Low.String(), p.sum.High.String())
	f.table(t)
	b.without(f, p)
	b.moves(f, p)
}

// groupWords are the headings of the groups of a price list.
var groupWords = map[string]string{"lamp": "Lamps", "source": "Sources", "box": "Boxes", "gear": "Gear", "device": "Units and fuses", "cable": "Cable", "gland": "Ends of cables", "way": "Way of cables", "labour": "Labour"}

// PriceGroup returns what people call a group of a price list.
func PriceGroup(group string) string { return groupWords[group] }

// amountText writes how much of a line there is.
func (b *book) amountText(l *costLine) string {
	switch {
	case l.Group == "labour" && l.Item == "hour":
		return strings.TrimSuffix(b.scheme.List.Hours.String(), " h")
	case l.unit == "each":
		return digits(l.amount, 0)
	case l.unit == "m³":
		return digits(l.amount, 2)
	}
	return digits(l.amount, 1)
}

// without names what has no price and what is never in the sum.
func (b *book) without(f *flow, p *quote) {
	if len(p.without) > 0 {
		f.note("Without " + listed(p.without) + ": no price in the list.")
	}
	if len(p.open) > 0 {
		f.note("Not counted, so in no sum: " + listed(p.open) + ".")
	}
	f.small("Never in it: small parts (connectors, blanks, tags, sleeves, labels, screws), making good of lawn, beds and paving, tests, travel and permissions, unless the list has them in its hours.")
}

// moves says what moves the price, from facts of the drawing.
func (b *book) moves(f *flow, p *quote) {
	f.head("What moves it")
	for _, s := range append(append(b.movesGround(p), b.movesParts(p)...), b.movesOpen()...) {
		f.item(s)
	}
}

// movesGround are the sentences about digging.
func (b *book) movesGround(p *quote) (out []string) {
	d := b.trench.sums()
	if d.length == 0 {
		return nil
	}
	type class struct {
		deep   string
		length float64
	}
	var classes []class
	hard := map[string]float64{}
	var order []string
	for i := range b.trench.stretches {
		s := &b.trench.stretches[i]
		deep := "no depth given"
		if s.leg.Depth > 0 {
			deep = doc.Written(s.leg.Depth)
		}
		at := -1
		for k := range classes {
			if classes[k].deep == deep {
				at = k
			}
		}
		if at < 0 {
			classes, at = append(classes, class{deep: deep}), len(classes)
		}
		classes[at].length += s.length
		if s.area != nil && (s.area.Kind == "paving" || s.area.Kind == "drive" || s.area.Kind == "deck") {
			name := areaName(s.area)
			if hard[name] == 0 {
				order = append(order, name)
			}
			hard[name] += s.length
		}
	}
	var parts []string
	for _, c := range classes {
		parts = append(parts, digits(c.length, 1)+" m "+at(c.deep))
	}
	text := "Ground: " + listed(parts) + " are dug. What the spade meets (roots, rubble, rock, water) is not known before."
	if band, ok := b.scheme.List.Of("labour", "dig"); ok {
		text += " Ten metres of trench more or less are " + b.amount(band.Times(10)) + " without cable."
	}
	out = append(out, text)
	if d.byHand > 0 {
		text := "Roots: " + digits(d.byHand, 1) + " m are dug by hand"
		hand, ok := b.scheme.List.Of("labour", "hand dig")
		plain, ok2 := b.scheme.List.Of("labour", "dig")
		if ok && ok2 && hand.Low >= plain.High {
			text += ", which is " + b.amount(doc.Band{Low: hand.Low - plain.High, High: hand.High - plain.Low}.Times(d.byHand)) + " more than by spade in the open"
		}
		out = append(out, text+"; a route further from the trees saves that.")
	}
	for _, name := range order {
		out = append(out, "Lifting: "+digits(hard[name], 1)+" m of trench lie under "+name+"; lifting and putting back is not in the sum.")
	}
	return out
}

// at puts "at" before a depth.
func at(deep string) string {
	if strings.HasPrefix(deep, "no ") {
		return "with " + deep
	}
	return "at " + deep
}

// amount writes a band with the word for the money.
func (b *book) amount(band doc.Band) string {
	if w := b.scheme.List.Currency; w != "" {
		return band.String() + " " + w
	}
	return band.String()
}

// movesParts are the sentences about fittings, cable, boxes and hours.
func (b *book) movesParts(p *quote) (out []string) {
	var lamps doc.Band
	count := 0.0
	for i := range p.lines {
		if l := &p.lines[i]; l.Group == "lamp" && l.priced {
			lamps = lamps.Add(l.all)
			count += l.amount
		}
	}
	if lamps.High > lamps.Low {
		out = append(out, "Fittings: the choice within the list moves the "+plural(int(count), "lamp", "lamps")+" by "+b.amount(doc.Band{Low: lamps.High - lamps.Low, High: lamps.High - lamps.Low})+".")
	}
	for i := range p.lines {
		l := &p.lines[i]
		if l.Group != "cable" {
			continue
		}
		text := "Cable: " + digits(l.amount, 1) + " m of " + l.name
		if l.Band.High > 0 {
			text += "; ten metres are " + b.amount(l.Band.Times(10))
		}
		if next, band, ok := b.nextSize(l.Item); ok {
			text += "; the next size, " + next + ", is " + b.amount(band) + " a metre"
		}
		out = append(out, text+".")
	}
	if n := b.scheme.Boxes.Len(); n > 0 {
		text := "Boxes: " + plural(n, "box is", "boxes are") + " drawn; one more"
		if band, ok := b.oneBox(p); ok {
			text += " is " + b.amount(band) + " and"
		}
		out = append(out, text+" also takes glands, connectors, labels and time.")
	}
	if h := b.scheme.List.Hours; h.High > h.Low {
		text := "Hours: from " + h.String()
		if band, ok := b.scheme.List.Of("labour", "hour"); ok {
			text += "; an hour is " + b.amount(band)
		}
		out = append(out, text+".")
	}
	return out
}

// oneBox is the band over the boxes that have a price.
func (b *book) oneBox(p *quote) (band doc.Band, ok bool) {
	for i := range p.lines {
		if l := &p.lines[i]; l.Group == "box" && l.priced {
			if !ok {
				band = l.Band
			}
			band, ok = doc.Band{Low: min(band.Low, l.Band.Low), High: max(band.High, l.Band.High)}, true
		}
	}
	return band, ok
}

// nextSize returns the next size of the same kind of cable that the list has a
// price for.
func (b *book) nextSize(key string) (name string, band doc.Band, ok bool) {
	c, _ := b.stock.Cable(key)
	if c == nil {
		return "", band, false
	}
	size := 0.0
	for _, n := range b.stock.Cables {
		if n.Family != c.Family || n.Size <= c.Size || ok && float64(n.Size) >= size {
			continue
		}
		if p, listed := b.scheme.List.Of("cable", n.Key); listed {
			name, band, ok, size = n.Name, p, true, float64(n.Size)
		}
	}
	return name, band, ok
}

// movesOpen are the sentences about what is not settled.
func (b *book) movesOpen() (out []string) {
	t := &b.Frame.Totals
	if n := t.Stop + t.Decide; n > 0 {
		out = append(out, "Open points: "+plural(n, "finding is", "findings are")+" not settled ("+whole(t.Stop)+" Stop, "+whole(t.Decide)+" to be decided); each may change parts.")
	}
	if n := b.trench.sums().unsaid; n > 0 {
		out = append(out, "Depth: of "+plural(n, "stretch", "stretches")+" of trench it is not given.")
	}
	return out
}
