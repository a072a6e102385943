package layout

import (
	"math"

	"duskwire/calc/light"
	q "duskwire/calc/quantity"
	"duskwire/layout/geom"
)

// ProbeUpright is the light on an upright surface at the height of faces, turned to
// where it gets most.
type ProbeUpright struct {
	Lux    q.Lux
	Facing float64 // degrees clockwise from up the sheet
	Height q.Metre // above the ground there
	// Sides has the light facing up the sheet, right, down and left.
	Sides [4]q.Lux
}

// uprightTurns is in how many directions the surface is turned.
const uprightTurns = 72

// Upright returns the light on upright surfaces above a point of the plan: maintained,
// photopic, direct light only. Which way it is greatest is looked for every 5°, with
// every lamp as a point; the figure is that of Scene.At.
func (n *Night) Upright(at geom.Point) ProbeUpright {
	p := vec(at, n.GroundAt(at)+faceHeight)
	out := ProbeUpright{Height: faceHeight}
	full := make([]light.Vec, 0, n.Scene.Len()) // towards each lamp, as long as its light face on
	for i := range n.Scene.Len() {
		cd, d := n.Scene.Seen(i, p)
		if cd > 0 && d > 0 {
			to := n.Scene.Lamp(i).At.Sub(p).Unit()
			full = append(full, to.Mul(float64(cd)/math.Pow(math.Max(d, closestCrown), 2)))
		}
	}
	most, best := -1.0, 0
	for k := range uprightTurns {
		normal, sum := facing(360*float64(k)/uprightTurns), 0.0
		for _, v := range full {
			sum += math.Max(v.Dot(normal), 0)
		}
		if sum > most*(1+1e-9) {
			most, best = sum, k
		}
	}
	out.Facing = 360 * float64(best) / uprightTurns
	out.Lux = n.Scene.At(p, facing(out.Facing))
	for k := range out.Sides {
		out.Sides[k] = n.Scene.At(p, facing(90*float64(k)))
	}
	return out
}

// facing is the normal of an upright surface that faces so many degrees clockwise from
// up the sheet.
func facing(degrees float64) light.Vec {
	s, c := math.Sincos(degrees * math.Pi / 180)
	return light.Vec{X: s, Y: c}
}
