package light

import (
	"fmt"
	"math"

	q "duskwire/calc/quantity"
)

// widest is the greatest beam angle of the cos^n model: n is 0.284 there, and
// beyond it the light no longer falls off in a way that the model means.
const widest = 170

// Exponent returns n of I = I0·cosⁿθ for the full 50 % beam angle in degrees:
//
//	n = ln 0.5 / ln cos(B/2)
//
// Valid for 1 ≤ beam ≤ 170; otherwise an error. Source: definition of the
// beam angle, CIE e-ILV 17-27-077; the law is derived.
func Exponent(beam float64) (float64, error) {
	if !(beam >= 1 && beam <= widest) {
		return 0, fmt.Errorf("beam angle: found %g°, expected 1° to %d°", beam, widest)
	}
	return math.Log(0.5) / math.Log(math.Cos(beam/2*degree)), nil
}

// Beam returns I = I0·cosⁿθ up to θ 90°, 0 behind, with the flux given:
// I0 = Φ(n+1)/2π. It is the model for a lamp of which flux and beam angle are
// known. Never the even cone: that overstates the centre by 14 to 44 %.
func Beam(flux q.Lumen, beam float64) (*Distribution, error) {
	n, err := Exponent(beam)
	if err != nil {
		return nil, err
	}
	if err := lit(flux); err != nil {
		return nil, err
	}
	gamma := knots(beam)
	return filled(flux, []float64{0}, gamma, func(_, g float64) float64 { return math.Pow(math.Cos(g*degree), n) }), nil
}

// Model is what a data sheet says of a light.
type Model struct {
	Flux          q.Lumen   // 0 for what peak and beam give
	Along, Across float64   // full 50 % angles in degrees; Along 0 not known, Across 0 the same
	Peak          q.Candela // in the middle; 0 not known
}

// sheetSlack is how far flux and peak of a data sheet may be apart, since both
// are rounded (common practice, no source).
const sheetSlack = 0.05

// Table returns the intensity of the model: Even without a beam, Beam or Ellipse
// with one. With a peak it is a beam with spill (derived):
//
//	I = I1·s(θ,φ) + I2·cos θ,  I1 + I2 = peak,  I1·Φs + I2·π = Φ
//
// with s the shape of the beam, 1 in its middle, and Φs its flux; round it is
// cosⁿθ and 2π/(n+1). I2 lies between 0 and the peak: what is beyond is held there.
// agree is false when the flux is then not met within 5 %: then there is no spill,
// peak and beam are kept and the flux is what they give.
func (m Model) Table() (d *Distribution, agree bool, err error) {
	switch {
	case m.Along == 0:
		d, err = Even(m.Flux)
		return d, true, err
	case m.Peak != 0:
		return m.withPeak()
	case m.Across == 0 || m.Across == m.Along:
		d, err = Beam(m.Flux, m.Along)
	default:
		d, err = Ellipse(m.Flux, m.Along, m.Across)
	}
	return d, true, err
}

func (m Model) withPeak() (d *Distribution, agree bool, err error) {
	if !(m.Peak > 0) || math.IsInf(float64(m.Peak), 0) {
		return nil, false, fmt.Errorf("peak intensity: found %g cd, expected more than 0", float64(m.Peak))
	}
	if err := lit(m.Flux); err != nil {
		return nil, false, err
	}
	var shape *Distribution
	if m.Across == 0 || m.Across == m.Along {
		shape, err = Beam(1, m.Along)
	} else {
		shape, err = Ellipse(1, m.Along, m.Across)
	}
	if err != nil {
		return nil, false, err
	}
	i0, unit := float64(m.Peak), 1/shape.at(0, 0) // flux of the shape that is 1 in its middle
	c, gamma := shape.Angles()
	with := func(spill float64) (*Distribution, bool) {
		cd := make([]float64, len(shape.cd))
		for k, v := range shape.cd {
			cd[k] = (i0-spill)*v*unit + spill*math.Max(math.Cos(gamma[k%len(gamma)]*degree), 0)
		}
		d := newDistribution(c, gamma, cd)
		return d, m.Flux == 0 || math.Abs(d.exact/float64(m.Flux)-1) <= sheetSlack
	}
	if m.Flux > 0 && math.Abs(unit-math.Pi) > 1e-9 {
		spill := (float64(m.Flux) - i0*unit) / (math.Pi - unit)
		if d, agree = with(math.Min(math.Max(spill, 0), i0)); agree {
			return d, true, nil
		}
	}
	d, agree = with(0)
	return d, agree, nil
}

// Ellipse returns an elliptical beam, along in the plane C0-C180 and across in
// C90-C270, both full 50 % angles in degrees:
//
//	I = I0·cos^n(φ) θ,  n(φ) = 1/(cos²φ/n1 + sin²φ/n2)
//
// normalised to the flux. An approximation of ours (derived): say so.
func Ellipse(flux q.Lumen, along, across float64) (*Distribution, error) {
	n1, err := Exponent(along)
	if err != nil {
		return nil, err
	}
	n2, err := Exponent(across)
	if err != nil {
		return nil, err
	}
	if err := lit(flux); err != nil {
		return nil, err
	}
	c := make([]float64, 73)
	for i := range c {
		c[i] = float64(5 * i)
	}
	return filled(flux, c, knots(math.Min(along, across)), func(p, g float64) float64 {
		s, k := math.Sincos(p * degree)
		return math.Pow(math.Cos(g*degree), 1/(k*k/n1+s*s/n2))
	}), nil
}

// Even returns the same intensity in all directions, Φ/4π: the stand-in for a
// lamp of which only the flux is known.
func Even(flux q.Lumen) (*Distribution, error) {
	if err := lit(flux); err != nil {
		return nil, err
	}
	i := float64(flux) / (4 * math.Pi)
	return newDistribution([]float64{0}, []float64{0, 90, 180}, []float64{i, i, i}), nil
}

// lit checks a flux.
func lit(flux q.Lumen) error {
	if !(flux >= 0) || math.IsInf(float64(flux), 0) {
		return fmt.Errorf("luminous flux: found %g lm, expected 0 or more", float64(flux))
	}
	return nil
}

// filled tabulates shape and scales it to the flux.
func filled(flux q.Lumen, c, gamma []float64, shape func(c, gamma float64) float64) *Distribution {
	cd := make([]float64, 0, len(c)*len(gamma))
	for _, p := range c {
		for _, g := range gamma {
			v := shape(p, g)
			if g >= 90 {
				v = 0
			}
			cd = append(cd, v)
		}
	}
	d := newDistribution(c, gamma, cd)
	k := float64(flux) / d.exact
	for i := range cd {
		cd[i] *= k
	}
	return newDistribution(c, gamma, cd)
}

// knots are γ from 0 to 90 close enough that the lines between them are within
// 0.02 % of the centre: a sixtieth of the beam within twice the beam, 1° beyond.
func knots(beam float64) []float64 {
	step := math.Min(beam/60, 1)
	var g []float64
	k := 0
	for ; float64(k)*step < math.Min(2*beam, 90); k++ {
		g = append(g, float64(k)*step)
	}
	for at := math.Ceil(float64(k)*step + 1e-9); at < 90; at++ {
		g = append(g, at)
	}
	return append(g, 90)
}
