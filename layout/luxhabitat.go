package layout

import (
	"fmt"

	"duskwire/calc/check"
	"duskwire/calc/light"
	q "duskwire/calc/quantity"
	"duskwire/layout/geom"
)

const (
	// habitatPoints is about how many points on water are looked at.
	habitatPoints = 60
	// treeHeight is where a crown is looked at that nobody gave a height, metres
	// (common practice, no source).
	treeHeight = 2.0
)

// habitats works out which lamps reach water and trees.
func (w *luxWorker) habitats(facts *check.LuxFacts) {
	for _, a := range w.s.Areas.All() {
		if a.Kind != "water" || len(a.Ring) < 3 {
			continue
		}
		at, _ := inRing(a.Ring, habitatPoints, func(geom.Point) bool { return true })
		var places []pane
		for _, p := range at { // lamps in the water shine up through its face
			places = append(places, pane{vec(p, 0), light.Up}, pane{vec(p, 0), light.Up.Mul(-1)})
		}
		h := check.LuxHabitat{Subject: luxNamed(a.ID, a.Tag, a.Name)}
		greatest := make([]q.Lux, w.sc.Len())
		for _, p := range places {
			for i, e := range w.sc.Shares(p.at, p.n) {
				greatest[i] = max(greatest[i], e)
			}
		}
		w.reached(facts, h, greatest)
	}
	for _, m := range w.s.Marks.All() {
		if m.Kind != "tree" {
			continue
		}
		h := check.LuxHabitat{Subject: luxNamed(m.ID, m.Tag, m.Name), Crown: true}
		z := treeHeight
		switch {
		case m.CrownBase > 0:
			z = m.CrownBase.Metres()
		case m.CrownTop > 0:
			z = crownBase * m.CrownTop.Metres()
		default:
			h.Taken = fmt.Sprintf("height of the crown of %s not known: looked at %g m up", h.Label, treeHeight)
		}
		at := vec(m.Place.At, z-proud) // below the leaves, which would shade it
		greatest := make([]q.Lux, w.sc.Len())
		for i := range greatest {
			if cd, d := w.sc.Seen(i, at); d > 0 {
				d = max(d, closestCrown)
				greatest[i] = q.Lux(w.sc.Lamp(i).Maintained * float64(cd) / (d * d))
			}
		}
		w.reached(facts, h, greatest)
	}
}

// closestCrown is the distance below which the inverse square is held, as that of
// Scene.At.
const closestCrown = 0.05

// reached enters the lamps that give anything. A white that the stock book does
// not have stays unknown, though pictures take one for it.
func (w *luxWorker) reached(facts *check.LuxFacts, h check.LuxHabitat, lux []q.Lux) {
	for i, e := range lux {
		if e <= 0 {
			continue
		}
		white := w.sc.Lamp(i).White
		if w.unknown[i] {
			white = 0
		}
		h.From = append(h.From, check.LuxWhite{LuxShare: check.LuxShare{Subject: w.lamp(i), Lux: e}, White: white})
	}
	if len(h.From) > 0 {
		facts.Habitats = append(facts.Habitats, h)
	}
}
