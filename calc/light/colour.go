package light

import (
	"math"

	q "duskwire/calc/quantity"
)

// XYZ is a colour stimulus; Y in the unit of what it stands for (lux, cd/m²).
type XYZ struct{ X, Y, Z float64 }

// Planck returns the chromaticity of a black body at t, from the table of the
// locus every 50 K between 1000 and 10000 K, linear between (error below 1e-5);
// t beyond is held at the ends. NaN counts as the lower end.
func Planck(t q.Kelvin) (x, y float64) {
	at := math.Max(0, math.Min((float64(t)-1000)/50, float64(len(planckXY)-1)))
	if math.IsNaN(at) {
		at = 0
	}
	i := min(int(at), len(planckXY)-2)
	k := at - float64(i)
	a, b := planckXY[i], planckXY[i+1]
	mix := func(j int) float64 { return ((1-k)*float64(a[j]) + k*float64(b[j])) / 1e6 }
	return mix(0), mix(1)
}

// Stimulus returns the XYZ of amount Y of light with the chromaticity of t:
// Y·(x/y, 1, (1-x-y)/y).
func Stimulus(t q.Kelvin, amount float64) XYZ {
	x, y := Planck(t)
	return XYZ{amount * x / y, amount, amount * (1 - x - y) / y}
}

// Add returns a+b: light adds in XYZ, never in kelvins or encoded colours.
func (a XYZ) Add(b XYZ) XYZ { return XYZ{a.X + b.X, a.Y + b.Y, a.Z + b.Z} }

// Chromaticity returns x and y, 0 and 0 for no light.
func (a XYZ) Chromaticity() (x, y float64) {
	sum := a.X + a.Y + a.Z
	if sum == 0 {
		return 0, 0
	}
	return a.X / sum, a.Y / sum
}

// Correlated returns the correlated colour temperature of a chromaticity near
// the locus: n = (x-0.3320)/(y-0.1858),
//
//	CCT = -449n³ + 3525n² - 6823.3n + 5520.33
//
// the cubic of 1992 (coefficients found in the tests of an open colour library).
// Valid about 2000 to 12500 K.
func Correlated(x, y float64) q.Kelvin {
	n := (x - 0.3320) / (y - 0.1858)
	return q.Kelvin(((-449*n+3525)*n-6823.3)*n + 5520.33)
}

// RGB is linear sRGB, or a reflectance in its three bands.
type RGB [3]float64

// Linear returns linear sRGB of a stimulus, not clipped: below about 1900 K blue
// is negative and at Y 1 red of warm light is above 1. Primaries and white of
// sRGB found; digits of the matrix from memory (D65 gives 0.9998 1.0000 1.0002).
func (a XYZ) Linear() RGB {
	return RGB{
		3.2404542*a.X - 1.5371385*a.Y - 0.4985314*a.Z,
		-0.9692660*a.X + 1.8760108*a.Y + 0.0415560*a.Z,
		0.0556434*a.X - 0.2040259*a.Y + 1.0572252*a.Z,
	}
}

// luminance returns Y of linear sRGB.
func (c RGB) luminance() float64 { return 0.2126*c[0] + 0.7152*c[1] + 0.0722*c[2] }

// encoded returns the sRGB value 0 to 1 of a linear one, which is clipped.
func encoded(v float64) float64 {
	switch {
	case !(v > 0):
		return 0
	case v >= 1:
		return 1
	case v <= 0.0031308:
		return 12.92 * v
	}
	return 1.055*math.Pow(v, 1/2.4) - 0.055
}
