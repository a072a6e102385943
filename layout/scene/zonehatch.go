package scene

import (
	"math"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// Hatch says which zones are shown as hatched areas about their lamps. The zero
// value hatches none.
type Hatch struct {
	All  bool
	Only []doc.ID // when not All
}

func (h Hatch) has(id doc.ID) bool {
	if h.All {
		return true
	}
	for _, z := range h.Only {
		if z == id {
			return true
		}
	}
	return false
}

func (h Hatch) any() bool { return h.All || len(h.Only) > 0 }

// The area of a zone: a disc about each lamp, of a size on paper so that it shows
// round the symbol at every scale, and a band between lamps of the zone that stand
// near each other in the garden, so that a row of lamps reads as one area.
const (
	zoneDisc = 5.6 // mm
	zoneBand = 4.6 // mm, half the width
	zoneLink = 3500 * geom.Millimetre
)

// zoneRules are the hatches by number, as many as there are rings. No two of them
// are told apart by colour alone, and none is that of a kind of ground.
var zoneRules = [zoneRings][]rule{
	{{60, 1.9, nil}},
	{{-60, 1.9, nil}},
	{{90, 1.9, []float64{1.6, 0.9}}},
	{{15, 1.9, []float64{3, 0.7, 0.5, 0.7}}},
	{{60, 3, nil}, {-60, 3, nil}},
	{{-15, 1.6, []float64{0.01, 1.5}}},
}

// zoneAreas draws the hatched areas of the zones that are asked for, under the
// runs and symbols.
func (b *builder) zoneAreas() {
	if b.dig != nil || !b.in.Hatch.any() || !b.in.shows(LayerZones) {
		return
	}
	lamps := map[doc.ID][]XY{}
	for _, e := range b.in.Scheme.Lamps.All() {
		if e.Zone != "" && !b.in.skips(e.ID) && b.in.Hatch.has(e.Zone) {
			lamps[e.Zone] = append(lamps[e.Zone], b.at(e.Place.At))
		}
	}
	for _, z := range b.in.Scheme.Zones.All() {
		if at := lamps[z.ID]; len(at) > 0 {
			b.hatchZone(z, zoneCapsules(at, float64(zoneLink)*b.k))
		}
	}
}

// hatchZone draws one area.
func (b *builder) hatchZone(z *doc.Zone, all []capsule) {
	c := b.pal.zone(z.Colour)
	add := func(ps []XY, st Style) {
		if len(ps) > 0 {
			b.add(Item{Kind: Segments, Layer: LayerZones, Entity: string(z.ID), Points: ps, Style: st})
		}
	}
	for _, r := range zoneRules[zoneRing(z.Number)] {
		st := Style{Stroke: mixed(c, b.pal.Paper, 0.3), Width: fine, Dash: r.dash}
		if len(r.dash) == 2 && r.dash[0] < 0.1 {
			st.Width = bold // dots
		}
		add(b.hatched(all, r), st)
	}
	add(b.outlined(all), Style{Stroke: c, Width: thin})
}

// zoneCapsules returns the discs about lamps and the bands between those that the
// shortest tree joins by links no longer than link (Prim's algorithm).
func zoneCapsules(lamps []XY, link float64) []capsule {
	out := make([]capsule, 0, 2*len(lamps))
	for _, p := range lamps {
		out = append(out, capsule{p, p, zoneDisc})
	}
	far := make([]float64, len(lamps)) // to the tree
	from := make([]int, len(lamps))
	for i := range far {
		far[i] = math.Inf(1)
	}
	left := make([]int, len(lamps))
	for i := range left {
		left[i] = i
	}
	for len(left) > 0 {
		best := 0
		for n, i := range left {
			if far[i] < far[left[best]] {
				best = n
			}
		}
		i := left[best]
		left[best] = left[len(left)-1]
		left = left[:len(left)-1]
		if d := far[i]; d > 0 && d <= link*link {
			out = append(out, capsule{lamps[from[i]], lamps[i], zoneBand})
		}
		for _, j := range left {
			dx, dy := lamps[j].X-lamps[i].X, lamps[j].Y-lamps[i].Y
			if d := dx*dx + dy*dy; d < far[j] {
				far[j], from[j] = d, i
			}
		}
	}
	return out
}

// mixed returns colour c with a share of another in it.
func mixed(c, with Colour, share float64) Colour {
	mix := func(x, y uint8) uint8 { return uint8(float64(x)*(1-share) + float64(y)*share + 0.5) }
	return Colour{mix(c.R, with.R), mix(c.G, with.G), mix(c.B, with.B), c.A}
}

// ZoneStrokes returns the hatch and the outline of a zone's area as pairs of plan
// points, for a drawing at the scale 1:denominator: for writers that work in plan
// coordinates. Both are empty for a zone without lamps.
func ZoneStrokes(s *doc.Scheme, z *doc.Zone, denominator float64) (hatch, outline [][2]geom.Point) {
	r := doc.Bounds(s)
	if r.Empty() {
		return nil, nil
	}
	view := View{Denominator: denominator, Origin: geom.Point{X: r.Min.X, Y: r.Max.Y}}
	margin := geom.Length(2 * zoneDisc * denominator * float64(geom.Millimetre))
	view.Origin = view.Origin.Add(geom.Point{X: -margin, Y: margin})
	w := view.Paper(geom.Point{X: r.Max.X + margin, Y: r.Min.Y - margin})
	b := newBuilder(Input{Scheme: s}, view, w.X, w.Y)
	var at []XY
	for _, e := range s.Lamps.All() {
		if e.Zone == z.ID {
			at = append(at, b.at(e.Place.At))
		}
	}
	if len(at) == 0 {
		return nil, nil
	}
	all := zoneCapsules(at, float64(zoneLink)*b.k)
	pairs := func(ps []XY) (out [][2]geom.Point) {
		for i := 0; i+1 < len(ps); i += 2 {
			out = append(out, [2]geom.Point{view.Plan(ps[i]), view.Plan(ps[i+1])})
		}
		return out
	}
	for _, ru := range zoneRules[zoneRing(z.Number)] {
		hatch = append(hatch, pairs(b.hatched(all, ru))...)
	}
	return hatch, pairs(b.outlined(all))
}
