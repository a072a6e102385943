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
	New  q.Lux        // with all lamps new and clean
	From []ProbeShare // lamps that give any, most first; equal ones by their order
	// Least and Most are between what Lux lies where the light of lamps that reach
	// the point is not known, Doubts those lamps; otherwise both are Lux.
	Least, Most q.Lux
	Doubts      []*Unsure
	Near        string // which of them are near for what shines, "" for none; see NearText
}

// ProbeShare is what one lamp gives.
type ProbeShare struct {
	Lamp *doc.Lamp
	Lux  q.Lux
	Part float64 // of the whole, 0 to 1
	// Doubt says that the light of the lamp is not known and how it is drawn, nil
	// where it is known.
	Doubt *Unsure
}

// Probe returns the horizontal illuminance on the ground at a point of the plan
// and the lamps that give it: maintained, photopic, direct light only. On a raised
// deck the ground is its top.
func (n *Night) Probe(at geom.Point) Probe {
	p := Probe{At: at}
	where := vec(at, n.GroundAt(at))
	shares := n.Scene.Shares(where, light.Up)
	p.Near = NearText(n.NearTags(where, shares))
	for i, v := range shares {
		if v > 0 {
			p.Lux += v
			p.New += v / q.Lux(n.Scene.Lamp(i).Maintained)
			p.From = append(p.From, ProbeShare{Lamp: n.Lamps[i], Lux: v, Doubt: n.Doubt(n.Lamps[i])})
		}
	}
	p.Least, p.Most, p.Doubts = n.Bounds(where, light.Up, p.Lux)
	for i := range p.From {
		p.From[i].Part = float64(p.From[i].Lux / p.Lux)
	}
	sort.SliceStable(p.From, func(i, j int) bool { return p.From[i].Lux > p.From[j].Lux })
	return p
}
