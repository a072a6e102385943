package light

import (
	"math"

	q "duskwire/calc/quantity"
)

// ZonalFlux returns the flux of the table by zones, in lumens:
//
//	Φ = Σ ½(I_j + I_j+1) · 2π(cos γ_j - cos γ_j+1)
//
// planes averaged by the trapezoid rule over C. Compare it with a printed flux:
// it is the rule by which such totals are made (found: eight published totals
// are reproduced to 0.01 lm).
func (d *Distribution) ZonalFlux() q.Lumen { return q.Lumen(d.zonal) }

// Flux returns the flux of what Intensity returns, in lumens: the integral of
// I = a + bγ is, per plane and zone,
//
//	2π( a(cos γ1 - cos γ2) + b((sin γ2 - γ2 cos γ2) - (sin γ1 - γ1 cos γ1)) )
//
// (derived). It is the energy of the picture that is drawn.
func (d *Distribution) Flux() q.Lumen { return q.Lumen(d.exact) }

// integrate works out both rules.
func (d *Distribution) integrate() (zonal, exact float64) {
	n := len(d.gamma)
	for p := range d.c {
		share := d.share(p)
		for j := 0; j+1 < n; j++ {
			i1, i2 := d.cd[p*n+j], d.cd[p*n+j+1]
			g1, g2 := d.gamma[j]*degree, d.gamma[j+1]*degree
			s1, c1 := math.Sincos(g1)
			s2, c2 := math.Sincos(g2)
			zonal += share * (i1 + i2) / 2 * 2 * math.Pi * (c1 - c2)
			b := (i2 - i1) / (g2 - g1)
			a := i1 - b*g1
			exact += share * 2 * math.Pi * (a*(c1-c2) + b*((s2-g2*c2)-(s1-g1*c1)))
		}
	}
	return zonal, exact
}

// DownwardShare returns the part of the flux below γ 90 of the untilted lamp,
// 0 to 1; 0 without any flux. Headers of files are not trusted with it.
func (d *Distribution) DownwardShare() float64 {
	return 1 - d.upward(&rotation{x: Vec{X: 1}, y: Vec{Y: 1}, z: Vec{Z: 1}})
}

// upward returns the part of the flux that goes above the horizontal when the
// lamp frame lies at r: the sum over cells of 1° by 5°, as parts of the same sum
// over all cells.
func (d *Distribution) upward(r *rotation) float64 {
	up, all := 0.0, 0.0
	for g := 0.5; g < 180; g++ {
		s, c := math.Sincos(g * degree)
		for p := 2.5; p < 360; p += 5 {
			sp, cp := math.Sincos(p * degree)
			f := d.at(p, g) * s
			all += f
			if r.to(Vec{s * cp, s * sp, -c}).Z > 0 {
				up += f
			}
		}
	}
	if all == 0 {
		return 0
	}
	return up / all
}
