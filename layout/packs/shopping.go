package packs

import (
	"math"
	"slices"
	"strings"

	q "duskwire/calc/quantity"
	"duskwire/layout"
	"duskwire/layout/doc"
)

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
func runsOf(tags []string) string { return layout.TagRuns(tags) }

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
	b.fills(add)
}

// fills counts what boxes are filled with, by volume where the stock book gives
// that.
func (b *book) fills(add adder) {
	for _, fill := range []string{"gel", "resin"} {
		n, unsaid, volume := 0, 0, 0.0
		for _, x := range b.scheme.Boxes.All() {
			if x.Fill != fill {
				continue
			}
			n++
			if item, _ := b.stock.Box(x.Stock); item.Filling > 0 {
				volume += item.Filling * 1e6
			} else {
				unsaid++
			}
		}
		note := "volume: see the next line"
		if unsaid > 0 {
			note = "volume by the maker of the box, not given for " + whole(unsaid) + " of them"
		}
		add("Ends of cables", upper(fill)+" to fill a box", float64(n), 0, "fills", note)
		add("Ends of cables", upper(fill)+" by volume", math.Ceil(volume-1e-6), 0, "ml", "what "+plural(n-unsaid, "box takes", "boxes take")+" by the stock book; mix and spill are extra")
	}
}

// way counts what the routes need.
func (b *book) way(add adder) {
	t := b.counts
	all := 0
	for _, k := range spacings(t.clips) {
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
	b.treeFixings(add)
	add("Way of cables", "Duct with draw cord", math.Ceil(float64(t.duct)*2-1e-6)/2, 1, "m", "bore by the cables that lie in it; one for runs in one trench, mains and extra-low voltage apart")
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

// spacings are the kinds of fixing in a fixed order.
func spacings(m map[clipKey]int) (keys []clipKey) {
	for k := range m {
		keys = append(keys, k)
	}
	slices.SortFunc(keys, func(a, b clipKey) int {
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
	return keys
}

// treeFixings counts stand-offs with their straps.
func (b *book) treeFixings(add adder) {
	t := b.counts
	for _, k := range spacings(t.straps) {
		name := "Stand-off with strap in a tree"
		if k.diameter > 0 {
			name += ", cable of " + digits(float64(k.diameter)*1000, 1) + " mm"
		}
		add("Way of cables", name, float64(t.straps[k]), 0, "", "spaced as on a wall, "+digits(float64(k.along)*1000, 0)+" mm along, "+digits(float64(k.upright)*1000, 0)+
			" mm upright ("+k.source+"), for trees common practice, no source; stainless, let out every year, no nails")
	}
	add("Way of cables", "Cable in trees, fixings not counted", float64(t.unheld), 1, "m", "no spacing in the tables; stainless stand-offs, no nails")
}
