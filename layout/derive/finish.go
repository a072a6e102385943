package derive

import (
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// finish says how the ends of a run are finished. The branch points away from
// the supply, the run may be drawn either way; near is what stands at the
// branch's start. A run in the cable of another has its ends.
func (d *deriver) finish(b *network.Branch, r *doc.Run, near doc.Entity) {
	b.FromEnd = endOf(r.From, r.Legs[0])
	b.ToEnd = endOf(r.To, r.Legs[len(r.Legs)-1])
	if host, ok := d.scheme.Runs.Get(r.With); ok && r.With != "" {
		d.shared(&b.FromEnd, r.From, host)
		d.shared(&b.ToEnd, r.To, host)
	}
	if near != nil && r.From.On != near.Key() {
		b.FromEnd, b.ToEnd = b.ToEnd, b.FromEnd
	}
}

// shared gives the end of a run the finish of the cable it lies in: that of the
// end on the same thing, else of the one that is nearer on the plan.
func (d *deriver) shared(end *network.End, e doc.End, host *doc.Run) {
	h, at := host.From, doc.EndPoint(d.scheme, e)
	far := geom.Distance(at, doc.EndPoint(d.scheme, host.To)) < geom.Distance(at, doc.EndPoint(d.scheme, host.From))
	if e.On != host.From.On && (e.On == host.To.On || far) {
		h = host.To
	}
	end.Gland, end.Untagged, end.Shared = h.Gland, h.Untagged, true
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
		Name: item.Name, IP: item.IP, Entries: item.Entries, Side: item.Side, Metal: item.Metal, Burial: item.Buried,
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
