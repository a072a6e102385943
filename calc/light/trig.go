package light

import "math"

const (
	degree   = math.Pi / 180 // radians in a degree
	perRad   = 180 / math.Pi // degrees in a radian
	angleEps = 1e-4          // angles of files that differ by less are the same
)

// acos returns arccos x in radians to within 2e-8, for |x| ≤ 1; beyond, the
// value at the end. It is the inner step of the array of lux, hence not
// math.Acos. Source: Abramowitz and Stegun, Handbook of Mathematical
// Functions, 4.4.46 (coefficients from memory, compared with math.Acos by test).
func acos(x float64) float64 {
	a := math.Abs(x)
	if a > 1 {
		a = 1
	}
	p := ((((((-0.0012624911*a+0.0066700901)*a-0.0170881256)*a+0.0308918810)*a-0.0501743046)*a+0.0889789874)*a-0.2145988016)*a + 1.5707963050
	p *= math.Sqrt(1 - a)
	if x < 0 {
		return math.Pi - p
	}
	return p
}

// atan2 returns the angle of (x, y) in radians, 0 to 2π, to within 1e-7; 0 for
// the zero vector. Source: Abramowitz and Stegun 4.4.49, as acos.
func atan2(y, x float64) float64 {
	ax, ay := math.Abs(x), math.Abs(y)
	lo, hi := ax, ay
	if lo > hi {
		lo, hi = hi, lo
	}
	if hi == 0 {
		return 0
	}
	t := lo / hi
	s := t * t
	p := (((((((0.0028662257*s-0.0161657367)*s+0.0429096138)*s-0.0752896400)*s+0.1065626393)*s-0.1420889944)*s+0.1999355085)*s-0.3333314528)*s + 1
	a := p * t
	if ay > ax {
		a = math.Pi/2 - a
	}
	if x < 0 {
		a = math.Pi - a
	}
	if y < 0 {
		a = 2*math.Pi - a
	}
	return a
}
