package light

import (
	"math"

	q "duskwire/calc/quantity"
)

// Peak returns the greatest intensity and where it is, in degrees.
func (d *Distribution) Peak() (peak q.Candela, c, gamma float64) {
	best := -1.0
	n := len(d.gamma)
	for k, v := range d.cd {
		if v > best {
			best, c, gamma = v, d.c[k/n], d.gamma[k%n]
		}
	}
	return q.Candela(best), c, gamma
}

// BeamAngle returns the full angle in degrees, in the plane through c and
// c+180, between the directions of half the intensity at the centre (CIE e-ILV
// 17-27-077: the centre counts, not the peak). ok is false where there is no
// light at the centre or it never falls to half, so that there is no beam.
func (d *Distribution) BeamAngle(c float64) (full float64, ok bool) { return d.angle(c, 0.5) }

// Centred reports whether there is light at the centre, without which there is
// neither a beam nor a field.
func (d *Distribution) Centred() bool { return d.at(0, 0) > 0 }

// FieldAngle is BeamAngle at a tenth of the centre.
func (d *Distribution) FieldAngle(c float64) (full float64, ok bool) { return d.angle(c, 0.1) }

func (d *Distribution) angle(c, part float64) (float64, bool) {
	centre := d.at(0, 0)
	if centre <= 0 {
		return 0, false
	}
	one, ok1 := d.fall(wrap(c), part*centre)
	two, ok2 := d.fall(wrap(c+180), part*centre)
	return one + two, ok1 && ok2
}

// fall returns the first γ at which plane c falls to level.
func (d *Distribution) fall(c, level float64) (float64, bool) {
	before := d.at(c, d.gamma[0])
	for j := 1; j < len(d.gamma); j++ {
		g, now := d.gamma[j], d.at(c, d.gamma[j])
		if now <= level {
			if before == now {
				return g, true
			}
			back := d.gamma[j-1]
			return back + (before-level)/(before-now)*(g-back), true
		}
		before = now
	}
	// A table that ends lit has its edge there, unless it ends where all
	// planes meet.
	last := d.gamma[len(d.gamma)-1]
	return last, last < 180
}

// Coarse returns the widest step of γ within the 50 % beam, in degrees; ok is
// false without a beam. More than 5 in a narrow beam leaves the beam
// under-sampled.
func (d *Distribution) Coarse() (step float64, ok bool) {
	full, ok := d.BeamAngle(0)
	if !ok {
		return 0, false
	}
	for j := 0; j+1 < len(d.gamma) && d.gamma[j] < full/2; j++ {
		step = math.Max(step, d.gamma[j+1]-d.gamma[j])
	}
	return step, true
}
