package layout

import (
	"duskwire/calc/light"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// raised returns the areas by which the height of the ground goes, nil where all of
// it is level: decks with a height lie that much higher, and where areas overlap the
// one drawn last owns the ground.
func raised(s *doc.Scheme) []*doc.Area {
	for _, a := range s.Areas.All() {
		if groundHeight(a) != 0 {
			return s.Areas.All()
		}
	}
	return nil
}

// groundHeight is how high the ground of an area lies, metres.
func groundHeight(a *doc.Area) float64 {
	if a.Kind == "deck" && len(a.Ring) >= 3 {
		return a.Height.Metres()
	}
	return 0
}

// GroundAt returns how high the ground is at a point of the plan, metres.
func (n *Night) GroundAt(at geom.Point) float64 {
	for i := len(n.Ground) - 1; i >= 0; i-- {
		if a := n.Ground[i]; len(a.Ring) >= 3 && geom.Inside(at, a.Ring) {
			return groundHeight(a)
		}
	}
	return 0
}

// Relief returns the height of the ground under the cells of a grid.
func (n *Night) Relief(g light.Grid) light.Relief {
	if len(n.Ground) == 0 {
		return light.Relief{}
	}
	out := light.Relief{Kind: make([]uint8, g.W*g.H), Z: []float64{0}}
	index := map[float64]uint8{0: 0}
	for _, a := range n.Ground {
		if len(a.Ring) < 3 {
			continue
		}
		z := groundHeight(a)
		k, ok := index[z]
		if !ok {
			if len(out.Z) == 256 {
				continue // as many heights as nobody builds
			}
			k = uint8(len(out.Z))
			index[z], out.Z = k, append(out.Z, z)
		}
		fillRing(out.Kind, g, a.Ring, k)
	}
	return out
}

// NewSheet returns an empty sheet of the light on the ground.
func (n *Night) NewSheet(g light.Grid) (*light.Sheet, error) {
	return light.NewSheetOn(n.Scene, g, n.Relief(g))
}
