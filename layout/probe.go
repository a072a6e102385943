package layout

import (
	"sort"

	"duskwire/calc/light"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// NightCaveat stands wherever figures or pictures of light are shown.
const NightCaveat = "impression; not a light measurement"

// Probe is the light on the ground at one point.
type Probe struct {
	At   geom.Point
	Lux  q.Lux
	From []ProbeShare // lamps that give any, most first; equal ones by their order
}

// ProbeShare is what one lamp gives.
type ProbeShare struct {
	Lamp *doc.Lamp
	Lux  q.Lux
	Part float64 // of the whole, 0 to 1
}

// Probe returns the horizontal illuminance on the ground at a point of the plan
// and the lamps that give it: maintained, photopic, direct light only.
func (n *Night) Probe(at geom.Point) Probe {
	p := Probe{At: at}
	for i, v := range n.Scene.Shares(light.Vec{X: at.X.Metres(), Y: at.Y.Metres()}, light.Up) {
		if v > 0 {
			p.Lux += v
			p.From = append(p.From, ProbeShare{Lamp: n.Lamps[i], Lux: v})
		}
	}
	for i := range p.From {
		p.From[i].Part = float64(p.From[i].Lux / p.Lux)
	}
	sort.SliceStable(p.From, func(i, j int) bool { return p.From[i].Lux > p.From[j].Lux })
	return p
}
