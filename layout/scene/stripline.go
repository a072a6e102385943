package scene

import "math"

// stripLines draws every strip at its length as it lies, under its symbol: a line with a
// dot at its near end and a bar at its far end. One that is shorter than its symbol
// shows the symbol alone.
func (b *builder) stripLines() {
	for _, l := range b.in.Scheme.Lamps.All() {
		k := b.stock.lamps[l.Stock]
		if k == nil || k.Length <= 0 || b.in.skips(l.ID) {
			continue
		}
		near, far, _ := l.StripEnds(k)
		p, q := b.at(near), b.at(far)
		long := math.Hypot(q.X-p.X, q.Y-p.Y)
		if long < 2*lampRadius || !b.seesBox([]XY{p, q}, 2) {
			continue
		}
		id, ink := string(l.ID), Style{Stroke: b.pal.Ink, Width: bold}
		b.add(Item{Kind: Polyline, Layer: LayerPoints, Entity: id, Points: b.keep([]XY{p, q}), Style: ink})
		nx, ny := -(q.Y-p.Y)/long, (q.X-p.X)/long
		const bar = 0.8
		b.add(Item{Kind: Polyline, Layer: LayerPoints, Entity: id, Points: b.keep([]XY{{q.X + bar*nx, q.Y + bar*ny}, {q.X - bar*nx, q.Y - bar*ny}}), Style: ink})
		b.add(Item{Kind: Circle, Layer: LayerPoints, Entity: id, Points: b.keep([]XY{p}), Size: 0.6, Style: Style{Stroke: b.pal.Ink, Width: medium, Fill: b.pal.Ink}})
	}
}
