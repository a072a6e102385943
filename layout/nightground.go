package layout

import (
	"math"
	"sort"

	"duskwire/calc/light"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// Reflectances of ground in linear sRGB (common practice, no source).
var groundRho = map[string]light.RGB{
	"building": {0.12, 0.11, 0.10}, "paving": {0.30, 0.29, 0.27}, "lawn": {0.06, 0.12, 0.04}, "border": {0.10, 0.10, 0.06},
	"dug bed": {0.09, 0.06, 0.04}, "deck": {0.22, 0.15, 0.10}, "gravel": {0.32, 0.29, 0.24}, "drive": {0.20, 0.20, 0.20}, "water": {0.02, 0.03, 0.04},
}

// bareRho is the reflectance of ground that nothing says anything of.
var bareRho = light.RGB{0.14, 0.13, 0.11}

// Reflectance returns what ground of a kind reflects; ok is false for a kind
// that nothing is known of, and the figure then that of bare ground.
func Reflectance(kind string) (rho light.RGB, ok bool) {
	if rho, ok = groundRho[kind]; ok {
		return rho, true
	}
	return bareRho, false
}

// NightGround returns of what the cells of a grid are made. Where areas overlap
// the one drawn last owns the ground.
func NightGround(s *doc.Scheme, g light.Grid) light.Ground {
	out := light.Ground{Kind: make([]uint8, g.W*g.H), Rho: []light.RGB{bareRho}}
	index := map[string]uint8{}
	for _, a := range s.Areas.All() {
		rho, ok := Reflectance(a.Kind)
		if !ok || len(a.Ring) < 3 {
			continue
		}
		k, ok := index[a.Kind]
		if !ok {
			k = uint8(len(out.Rho))
			index[a.Kind], out.Rho = k, append(out.Rho, rho)
		}
		fillRing(out.Kind, g, a.Ring, k)
	}
	return out
}

// fillRing writes k into the cells whose middles lie in the ring (even-odd).
func fillRing(kind []uint8, g light.Grid, ring []geom.Point, k uint8) {
	var xs []float64
	b := geom.Around(ring...)
	first := max(0, int(math.Floor((b.Min.Y.Metres()-g.Y0)/g.Step)))
	last := min(g.H-1, int(math.Ceil((b.Max.Y.Metres()-g.Y0)/g.Step)))
	for y := first; y <= last; y++ {
		level := g.Middle(0, y).Y
		xs = xs[:0]
		for i, p := range ring {
			q := ring[(i+1)%len(ring)]
			py, qy := p.Y.Metres(), q.Y.Metres()
			if (py > level) != (qy > level) {
				xs = append(xs, p.X.Metres()+(level-py)/(qy-py)*(q.X-p.X).Metres())
			}
		}
		sort.Float64s(xs)
		for i := 0; i+1 < len(xs); i += 2 {
			from := max(0, int(math.Ceil((xs[i]-g.X0)/g.Step-0.5)))
			to := min(g.W, int(math.Ceil((xs[i+1]-g.X0)/g.Step-0.5)))
			for x := from; x < to; x++ {
				kind[y*g.W+x] = k
			}
		}
	}
}

const (
	// nightMargin is the ground shown round what is drawn, nightTile what the
	// rectangle is rounded out to, so that an edit seldom changes it.
	nightMargin = 2 * geom.Metre
	nightTile   = 4 * geom.Metre
)

// NightArea returns the rectangle of the plan whose light is worked out: what is
// drawn, with a margin, in whole tiles of 4 m; a garden's worth when nothing is.
func NightArea(s *doc.Scheme) geom.Rect {
	b := doc.Bounds(s)
	if b.Empty() {
		b = geom.Around(geom.Pt(0, 0), geom.Pt(15, 10))
	}
	b = b.Grow(nightMargin)
	down := func(v geom.Length) geom.Length {
		n := v / nightTile
		if v%nightTile < 0 {
			n--
		}
		return n * nightTile
	}
	up := func(v geom.Length) geom.Length { return -down(-v) }
	return geom.Around(geom.Point{X: down(b.Min.X), Y: down(b.Min.Y)}, geom.Point{X: up(b.Max.X), Y: up(b.Max.Y)})
}

// NightGrid returns square cells over a rectangle of the plan, at most about so
// many, none smaller than a centimetre.
func NightGrid(area geom.Rect, cells int) light.Grid {
	w, h := area.Width().Metres(), area.Height().Metres()
	step := math.Max(math.Sqrt(w*h/float64(cells)), 0.01)
	n := func(length float64) int { return max(int(math.Ceil(length/step-1e-9)), 1) }
	return light.Grid{X0: area.Min.X.Metres(), Y0: area.Min.Y.Metres(), Step: step, W: n(w), H: n(h)}
}
