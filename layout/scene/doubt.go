package scene

import (
	"math"

	"duskwire/calc/network"
)

// doubts returns the lamps whose light nobody knows in the dusk look: at their volts,
// or because neither the stock book nor a photometric file in use has it; nil in any other look. A lamp that hangs on no
// circuit is drawn as at its nominal volts and not among them.
func (b *builder) doubts() map[string]bool {
	if b.in.Look != LookDusk {
		return nil
	}
	out := map[string]bool{}
	for _, r := range b.in.Results {
		for i := range r.Points {
			p := &r.Points[i]
			if p.Kind == network.LampNode && !p.Light.Known {
				out[p.ID] = true
			}
		}
	}
	for _, l := range b.in.Scheme.Lamps.All() {
		k := b.stock.lamps[l.Stock]
		if k == nil || k.Filed == nil && !k.Lit() {
			out[string(l.ID)] = true
		}
	}
	return out
}

const (
	// doubtOff is how far the ring of doubt lies outside a symbol, mm, doubtParts
	// how many strokes it has.
	doubtOff, doubtParts = 0.8, 8
	// doubtMark is what stands beside it.
	doubtMark = "?"
)

// doubt marks a lamp whose light is not known: a broken ring about its symbol, which
// no other mark is, and a question mark up on its right.
func (b *builder) doubt(entity string, at XY, r float64) {
	r += doubtOff
	ring := b.pts(4 * doubtParts)
	for k := range doubtParts { // each stroke bent once, so that it is round
		const step = 2 * math.Pi / doubtParts
		for j, turn := range [...]float64{0, 0.3, 0.3, 0.6} {
			s, c := math.Sincos((float64(k) + turn) * step)
			ring[4*k+j] = XY{at.X + r*c, at.Y + r*s}
		}
	}
	b.add(Item{Kind: Segments, Layer: LayerPoints, Entity: entity, Points: ring, Style: Style{Stroke: b.pal.Ink, Width: medium}})
	const cap = 2.6
	w := TextWidth(doubtMark, cap, true)
	left, foot := at.X+0.75*r, at.Y-0.75*r
	b.add(Item{Kind: Text, Layer: LayerPoints, Entity: entity, Points: []XY{{left, foot}}, Size: cap, Bold: true, Text: doubtMark, Halo: true, Style: Style{Fill: b.pal.Ink}})
	b.free.box(left, foot-cap, left+w, foot, hurtSymbol)
}

// doubtEntry explains the mark where the plan has it.
func (b *builder) doubtEntry() []Entry {
	unsure := b.doubts()
	for _, l := range b.in.Scheme.Lamps.All() {
		if !unsure[string(l.ID)] {
			continue
		}
		e := newBuilder(Input{Scheme: b.in.Scheme, Palette: b.pal}, View{Denominator: 1}, LegendWidth, LegendHeight)
		e.doubt("", XY{}, 0.8)
		return []Entry{{"Symbols", e.list.Items, "Light not known at its volts, or at all"}}
	}
	return nil
}
