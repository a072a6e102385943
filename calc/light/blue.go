package light

import (
	"math"

	q "duskwire/calc/quantity"
)

// BlueShare returns the part below 500 nm of what a black body radiates from 380
// to 780 nm, 0 for no temperature:
//
//	(F(500 nm) - F(380 nm)) / (F(780 nm) - F(380 nm))
//
// with F the part of all radiation below a wavelength (derived from Planck's law).
func BlueShare(t q.Kelvin) float64 {
	if t <= 0 {
		return 0
	}
	f := func(nm float64) float64 { return RadiatedBelow(nm * 1e-9 * float64(t)) }
	low := f(380)
	all := f(780) - low
	if !(all > 0) {
		return 0
	}
	return (f(500) - low) / all
}

// RadiatedBelow returns the part of a black body's radiation below a wavelength, by
// the wavelength times the temperature in m·K, above 0: with x = c2/λT
//
//	F = 15/π⁴ · Σ e^(-nx)/n · (x³ + 3x²/n + 6x/n² + 6/n³)
//
// (derived; c2 of ITS-90).
func RadiatedBelow(lt float64) float64 {
	const c2 = 1.438776877e-2
	x := c2 / lt
	sum := 0.0
	for n := 1.0; n <= 100; n++ {
		term := math.Exp(-n*x) / n * (x*x*x + 3*x*x/n + 6*x/(n*n) + 6/(n*n*n))
		sum += term
		if term < 1e-15*sum {
			break
		}
	}
	return 15 / (math.Pi * math.Pi * math.Pi * math.Pi) * sum
}
