package packs

import (
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// spot is one point to be set out.
type spot struct {
	name, what string
	at         geom.Point
	height     string
	number     int // of a bend on the drawing; 0 for what has a tag
}

// spots lists what is set out: everything that stands in the garden, and the
// bends of the runs, those of several runs at one place once.
func (b *book) spots() (out []spot) {
	s := b.scheme
	doc.Each(s, func(e doc.Entity, k doc.Kind) {
		if p, ok := doc.PlaceOf(e); ok && k.Joinable() {
			out = append(out, spot{name: e.Label(), what: b.whatIs(e), at: p.At, height: doc.Written(p.Height)})
		}
	})
	seen := map[geom.Point]int{}
	for _, r := range s.Runs.All() {
		for i := 0; i+1 < len(r.Legs); i++ {
			at := r.Legs[i].To
			if n, twice := seen[at]; twice {
				out[n].what += ", " + r.Tag
				continue
			}
			seen[at] = len(out)
			out = append(out, spot{what: "bend of " + r.Tag, at: at, number: len(seen), height: levels(r.Legs[i], r.Legs[i+1]), name: "p" + whole(len(seen))})
		}
	}
	return out
}

// levels names the levels of the cable before and after a bend.
func levels(a, c doc.Leg) string {
	w := func(l doc.Leg) string {
		switch {
		case dug(l) && l.Depth == 0:
			return "depth ?"
		case dug(l):
			return doc.Written(l.Depth) + " deep"
		}
		return doc.Written(l.Height)
	}
	if w(a) == w(c) {
		return w(a)
	}
	return w(a) + ", then " + w(c)
}

// whatIs names what an entity is, by its stock item where it has one.
func (b *book) whatIs(e doc.Entity) string {
	name := func(item string, ok bool, key, kind string) string {
		switch {
		case ok:
			return item
		case key != "":
			return key
		}
		return kind
	}
	switch e := e.(type) {
	case *doc.Supply:
		return "Supply point"
	case *doc.Box:
		i, ok := b.stock.Box(e.Stock)
		return name(i.Name, ok, e.Stock, "Box")
	case *doc.Lamp:
		i, ok := b.stock.Lamp(e.Stock)
		return name(i.Name, ok, e.Stock, "Lamp")
	case *doc.Gear:
		i, ok := b.stock.GearItem(e.Stock)
		return name(i.Name, ok, e.Stock, "Gear")
	case *doc.Source:
		i, ok := b.stock.Converter(e.Stock)
		return name(i.Name, ok, e.Stock, "Source")
	}
	return ""
}
