package derive

import (
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// finish says how the ends of a run are finished. The branch points away from
// the supply, the run may be drawn either way; near is what stands at the
// branch's start.
func finish(b *network.Branch, r *doc.Run, near doc.Entity) {
	b.FromEnd = endOf(r.From, r.Legs[0])
	b.ToEnd = endOf(r.To, r.Legs[len(r.Legs)-1])
	if near != nil && r.From.On != near.Key() {
		b.FromEnd, b.ToEnd = b.ToEnd, b.FromEnd
	}
}

func endOf(e doc.End, next doc.Leg) network.End {
	return network.End{Gland: e.Gland, Untagged: e.Untagged, Support: next.Support}
}

// box returns what the plan and the stock book know about a box; nil when the
// stock book does not have it.
func (d *deriver) box(e *doc.Box) *network.Box {
	item, ok := d.stock.Box(e.Stock)
	if !ok {
		return nil
	}
	runs := d.joined[d.number(e.ID)]
	b := &network.Box{
		Name: item.Name, IP: item.IP, Entries: item.Entries, Metal: item.Metal, Burial: item.Buried,
		Cables: len(runs), Fill: fillOf(e.Fill), Hidden: e.Hidden, Indoors: len(runs) > 0,
		TopEntries: e.TopEntries, Open: e.Open, Unlinked: e.Unlinked, Height: q.Metre(e.Place.Height.Metres()),
	}
	for _, i := range runs {
		r := d.scheme.Runs.All()[i]
		if r.With != "" {
			b.Cables-- // cores in the cable of another run
		}
		leg := r.Legs[0]
		if r.From.On != e.ID {
			leg = r.Legs[len(r.Legs)-1]
		}
		b.Indoors = b.Indoors && leg.Support == network.Indoors
	}
	return b
}

func fillOf(word string) network.Fill {
	for f := network.FillNone; f <= network.FillResin; f++ {
		if f.String() == word {
			return f
		}
	}
	return network.FillUnknown
}
