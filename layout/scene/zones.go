package scene

import "math"

// Rings of zones differ in shape as well as colour, so that a black-and-white
// print tells them apart; the number beside the tag says which it is. After as
// many zones as there are rings they begin again.
const zoneRings = 6

// zoneStrokes are the strokes of a ring of radius r about (0, 0), as pairs; nil
// where it is a plain circle.
func zoneStrokes(number int, r float64) []XY {
	arc := func(out []XY, from, to float64, steps int, r float64) []XY {
		at := func(t float64) XY {
			sin, cos := math.Sincos((from + (to-from)*t) * math.Pi / 180)
			return XY{r * cos, r * sin}
		}
		for i := range steps {
			out = append(out, at(float64(i)/float64(steps)), at(float64(i+1)/float64(steps)))
		}
		return out
	}
	var out []XY
	switch zoneRing(number) {
	case 1: // six dashes
		for a := 0.0; a < 360; a += 60 {
			out = arc(out, a-16, a+16, 1, r)
		}
	case 3: // four ticks outwards, on a plain circle
		for a := 45.0; a < 360; a += 90 {
			sin, cos := math.Sincos(a * math.Pi / 180)
			out = append(out, XY{r * cos, r * sin}, XY{(r + 0.9) * cos, (r + 0.9) * sin})
		}
	case 4: // twelve dots
		for a := 0.0; a < 360; a += 30 {
			sin, cos := math.Sincos(a * math.Pi / 180)
			out = append(out, XY{r * cos, r * sin}, XY{r*cos + 0.01, r * sin})
		}
	case 5: // two halves
		out = arc(out, -70, 70, 5, r)
		out = arc(out, 110, 250, 5, r)
	}
	return out
}

// zoneRing is the kind of ring of a zone by its number.
func zoneRing(number int) int { return ((number-1)%zoneRings + zoneRings) % zoneRings }

// zoneReach is what a ring reaches beyond its radius.
func zoneReach(number int) float64 {
	switch zoneRing(number) {
	case 2:
		return 0.95
	case 3:
		return 1.1
	}
	return 0.25
}

// zoneShapes are the kept strokes for the radii of the lamp symbols.
type zoneShapes map[zoneKey][]XY

type zoneKey struct {
	ring int
	r    float64
}

func (z zoneShapes) strokes(number int, r float64) []XY {
	k := zoneKey{zoneRing(number), r}
	ps, ok := z[k]
	if !ok {
		ps = zoneStrokes(number, r)
		z[k] = ps
	}
	return ps
}

// drawZone draws the ring of a zone about a lamp, and covers what lies below.
func (b *builder) drawZone(id string, at XY, number int, r float64, c Colour) {
	st := Style{Stroke: c, Width: bold, Fill: b.pal.Paper}
	kind := zoneRing(number)
	if kind == 2 { // two circles
		b.disc(LayerPoints, id, at, r+0.7, Style{Stroke: c, Width: medium, Fill: b.pal.Paper})
		st = Style{Stroke: c, Width: medium}
	}
	shape := b.rings.strokes(number, r)
	if shape == nil {
		b.disc(LayerPoints, id, at, r, st)
		return
	}
	under := Style{Fill: b.pal.Paper}
	switch kind {
	case 3:
		under = st
	case 4:
		st.Width = heavy
	}
	b.disc(LayerPoints, id, at, r, under)
	ps := b.pts(len(shape))
	for i, p := range shape {
		ps[i] = XY{at.X + p.X, at.Y + p.Y}
	}
	b.add(Item{Kind: Segments, Layer: LayerPoints, Entity: id, Points: ps, Style: Style{Stroke: c, Width: st.Width}})
}
