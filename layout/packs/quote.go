package packs

import (
	"cmp"
	"math"
	"slices"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// costLine is one line of what is built and what it costs.
type costLine struct {
	doc.ItemPrice        // the band is of one
	name, unit    string // "each" for things
	amount        float64
	all           doc.Band // of all of it
	priced        bool
}

// quote is what the scheme costs by the price list.
type quote struct {
	lines   []costLine
	sum     doc.Band
	without []string // what has no price, named
	open    []string // what cannot be counted, for nothing says which or how much
}

// priced is whether anything of it has a price.
func (q *quote) priced() bool { return q.sum.High > 0 }

// quoteOf prices what the drawing needs.
func (b *book) quoteOf() *quote {
	out := &quote{}
	add := func(group, item string, amount float64) {
		if amount <= 0 {
			return
		}
		l := costLine{ItemPrice: doc.ItemPrice{Group: group, Item: item}, amount: amount}
		l.name, l.unit = b.stock.PriceName(group, item)
		if l.Band, l.priced = b.scheme.List.Of(group, item); l.priced {
			l.all = l.Band.Times(amount)
		}
		out.lines = append(out.lines, l)
	}
	b.pricedStock(add)
	b.pricedCable(add, out)
	b.uncounted(out)
	b.pricedEnds(add)
	d := b.trench.sums()
	add("way", "clip", float64(b.clips()))
	add("way", "duct", half(float64(b.counts.duct)))
	add("way", "sand", d.sand)
	add("way", "sleeve", half(float64(b.counts.sleeve)))
	add("way", "tape", math.Ceil(d.tape))
	add("labour", "dig", d.length-d.byHand)
	add("labour", "hand dig", d.byHand)
	hours := b.scheme.List.Hours
	if hours != (doc.Span{}) {
		add("labour", "hour", hours.High)
		if l := &out.lines[len(out.lines)-1]; l.priced { // few hours at the low rate, many at the high one
			l.all = doc.Band{Low: l.Band.Times(hours.Low).Low, High: l.Band.Times(hours.High).High}
		}
	}
	for i := range out.lines {
		l := &out.lines[i]
		if l.priced {
			out.sum = out.sum.Add(l.all)
		} else {
			out.without = append(out.without, l.name)
		}
	}
	if hours == (doc.Span{}) {
		out.without = append(out.without, "the hours of work beside the digging")
	}
	out.without = unique(out.without)
	return out
}

// lacks is everything that the sum is without.
func (q *quote) lacks() []string { return append(slices.Clone(q.without), q.open...) }

// uncounted names what is drawn and still in no line: its kind or its depth is not
// known.
func (b *book) uncounted(out *quote) {
	var units, runs []string
	for _, e := range b.scheme.Supplies.All() {
		if e.Spur && e.Fuse == "" {
			units = append(units, e.Tag)
		}
	}
	for i, r := range b.scheme.Runs.All() {
		if r.Cable == "" && b.length(i).Cut > 0 {
			runs = append(runs, r.Tag)
		}
	}
	if len(units) > 0 {
		out.open = append(out.open, "the fused connection unit of "+listed(units)+", whose fuse is not known")
	}
	if len(runs) > 0 {
		out.open = append(out.open, "cable and its ends of "+runsOf(runs)+", for which none is chosen")
	}
	for i := range b.trench.stretches {
		if s := &b.trench.stretches[i]; s.deep == 0 && s.leg.Support == network.Buried {
			out.open = append(out.open, "sand where no depth is given")
			break
		}
	}
}

// half rounds up to half a metre.
func half(m float64) float64 { return math.Ceil(m*2-1e-6) / 2 }

// clips counts all clips.
func (b *book) clips() (n int) {
	for _, c := range b.counts.clips {
		n += c
	}
	return n
}

// Wanted returns the things that the frame needs a price for, without prices, in
// the order of a price list.
func Wanted(in Input) []doc.ItemPrice {
	b := newBook(in)
	list := doc.PriceList{}
	add := func(group, item string) {
		if b.stock.PriceItem(group, item) == "" { // a gland without a size cannot be listed
			list = list.With(doc.ItemPrice{Group: group, Item: item, Band: doc.Band{Low: 1, High: 1}})
		}
	}
	for _, l := range b.quoteOf().lines {
		add(l.Group, l.Item)
	}
	add("labour", "hour")
	for i := range list.Items {
		list.Items[i].Band = doc.Band{}
	}
	return list.Items
}

// pricedStock counts lamps, sources, boxes, gear and the units of spurs.
func (b *book) pricedStock(add func(group, item string, amount float64)) {
	count := map[doc.ItemPrice]int{}
	var order []doc.ItemPrice
	one := func(group, item string) {
		p := doc.ItemPrice{Group: group, Item: item}
		if count[p]++; count[p] == 1 {
			order = append(order, p)
		}
	}
	for _, e := range b.scheme.Lamps.All() {
		one("lamp", e.Stock)
	}
	for _, e := range b.scheme.Sources.All() {
		one("source", e.Stock)
	}
	for _, e := range b.scheme.Boxes.All() {
		one("box", e.Stock)
	}
	for _, e := range b.scheme.Gear.All() {
		one("gear", e.Stock)
	}
	for _, e := range b.scheme.Supplies.All() {
		if e.Spur && e.Fuse != "" {
			one("device", e.Fuse)
		}
	}
	for _, p := range order {
		add(p.Group, p.Item, float64(count[p]))
	}
}

// pricedCable sums the cut list up by cable. A cable without a price of a metre
// costs what its coils do.
func (b *book) pricedCable(add func(group, item string, amount float64), out *quote) {
	sum := map[string]q.Metre{}
	var order []string
	for i := range b.Frame.Circuits.Lengths {
		if l := b.length(i); l.Cut > 0 && l.Cable != "" {
			if sum[l.Cable] == 0 {
				order = append(order, l.Cable)
			}
			sum[l.Cable] += l.Cut
		}
	}
	for _, cable := range order {
		add("cable", cable, float64(sum[cable]))
		l := &out.lines[len(out.lines)-1]
		if l.priced {
			continue
		}
		for i := range b.Frame.Drums {
			if p := &b.Frame.Drums[i]; p.Cable == cable && p.Priced && len(p.Drums) > 0 {
				l.all, l.priced = doc.Band{Low: p.Cost, High: p.Cost}, true
			}
		}
	}
}

// pricedEnds counts the glands by kind and size.
func (b *book) pricedEnds(add func(group, item string, amount float64)) {
	count := map[string]int{}
	for g, n := range b.counts.glands {
		count[g.kind+" "+g.size] += n
	}
	var order []string
	for k := range count {
		order = append(order, k)
	}
	slices.SortFunc(order, func(a, b string) int { return cmp.Compare(a, b) })
	for _, k := range order {
		add("gland", k, float64(count[k]))
	}
	add("gland", doc.RoundGland, float64(b.counts.round))
	add("gland", "of a size that the tables do not give", float64(b.counts.unsized))
}
