package light

import "math"

// Along is how many places of a long lamp its profile has.
const Along = 9

// Profile is how the light of a lamp is spread along the longer side of its
// opening, Y where both are the same: at Along places at equal distances, from the
// positive end of that axis to the negative one (with the beam level and spin 0,
// from left to right as seen from behind along Y), linear in between, with the mean
// 1. The zero Profile is even.
type Profile [Along]float64

// ProfileOf returns the profile of a lamp whose light is known at its places, and
// the mean light, by which the share of the lamp counts. Light that is even, or
// none at all, has the zero Profile.
func ProfileOf(places [Along]float64) (p Profile, mean float64) {
	even := true
	for k, v := range places {
		w := 1.0
		if k == 0 || k == Along-1 {
			w = 0.5
		}
		mean += w * v / (Along - 1)
		even = even && v == places[0]
	}
	if even {
		return Profile{}, places[0]
	}
	for k, v := range places {
		p[k] = v / mean
	}
	return p, mean
}

// Rounded returns the profile in whole steps.
func (p Profile) Rounded(step float64) Profile {
	for k := range p {
		p[k] = math.Round(p[k]/step) * step
	}
	return p
}

// at returns the weight at a place, 0 at the positive end to 1 at the negative one.
func (p *Profile) at(place float64) float64 {
	x := math.Max(0, math.Min(place, 1)) * (Along - 1)
	k := min(int(x), Along-2)
	t := x - float64(k)
	return p[k]*(1-t) + p[k+1]*t
}

// bounded reports whether all weights are 0 or more and no more than a strip of
// which one place alone shines can have.
func (p *Profile) bounded() bool {
	for _, v := range p {
		if !(v >= 0 && v <= 2*Along) {
			return false
		}
	}
	return true
}

// heart returns the middle of the light in the lamp frame, ∫w·x/∫w: seen from
// afar the lamp is a point there. The zero vector for an even profile.
func (p *Profile) heart(o Opening) Vec {
	if *p == (Profile{}) {
		return Vec{}
	}
	sum, all := 0.0, 0.0
	for k := range Along - 1 { // linear pieces, exactly
		a, b := p[k], p[k+1]
		x := 0.5 - float64(k)/(Along-1) // of the nearer corner
		const h = 1.0 / (Along - 1)
		sum += h * ((a+b)/2*x - h*(a+2*b)/6)
		all += h * (a + b) / 2
	}
	if !(all > 0) {
		return Vec{}
	}
	if o.X > o.Y {
		return Vec{X: o.X * sum / all}
	}
	return Vec{Y: o.Y * sum / all}
}

// weight returns the part of the light of a place of the opening, 1 where it is
// even.
func (p *placed) weight(e Vec) float64 {
	switch {
	case !p.uneven:
		return 1
	case p.Opening.X > p.Opening.Y:
		return p.Profile.at(0.5 - e.X/p.Opening.X)
	case p.Opening.Y > 0:
		return p.Profile.at(0.5 - e.Y/p.Opening.Y)
	}
	return 1
}
