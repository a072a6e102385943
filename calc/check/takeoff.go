package check

import "duskwire/calc/network"

// GlandFor returns the gland that a cable takes: the size that the data sheets
// of its make-up name, else the smallest whose range holds its diameter. ok is
// false when the tables have none. Source: BS 6121, BS EN 62444.
func (r *Rules) GlandFor(cb *network.Cable) (g GlandRow, ok bool) {
	size, src, ok := (&Context{Rules: r}).glandOf(cb)
	if !ok {
		return GlandRow{}, false
	}
	g = GlandRow{Size: size, Source: src}
	for _, row := range r.Glands {
		if row.Size == size {
			g.Least, g.Most, g.Thread = row.Least, row.Most, row.Thread
		}
	}
	return g, true
}

// ClipsFor returns how many clips a run needs on its way, and the row of the
// table that they follow, as SUP-03 counts them. ok is false when nothing of
// the way is clipped, or the table has no row for the cable.
func (r *Rules) ClipsFor(cb *network.Cable, legs []network.Leg) (clips int, row SupportRow, ok bool) {
	row, _, ok = (&Context{Rules: r}).supportRow(cb)
	if !ok {
		return 0, row, false
	}
	for from := 0; from < len(legs); {
		to, length, upright := piece(legs, from)
		if length > 0 {
			every := row.Along
			if upright {
				every = row.Upright
			}
			clips += ClipCount(length, every, to-from-1)
		}
		from = to
	}
	return clips, row, clips > 0
}
