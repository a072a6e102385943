package solve

import (
	"math"
	"math/cmplx"

	"duskwire/calc/network"
)

// affine is a current that follows a voltage to first order,
//
//	I = a + p·v + q·v̄   (A, V)
//
// The conjugate is there because a lamp's current is no analytic function of
// its voltage: a + p·v + q·v̄ is the general real-linear law of a complex
// variable. On direct current every part is real and p and q just add.
type affine struct{ a, p, q complex128 }

// at returns the current at the voltage v.
func (f affine) at(v complex128) complex128 { return f.a + f.p*v + f.q*conj(v) }

// add returns the sum of two currents drawn at the same node.
func (f affine) add(g affine) affine { return affine{f.a + g.a, f.p + g.p, f.q + g.q} }

// linear is the real-linear map v -> p·v + q·v̄ of a complex number: a block of
// the nodal equations.
type linear struct{ p, q complex128 }

// of returns the map's value at v.
func (f linear) of(v complex128) complex128 { return f.p*v + f.q*conj(v) }

// after returns the map that does g first and then f.
func (f linear) after(g linear) linear {
	return linear{f.p*g.p + f.q*conj(g.q), f.p*g.q + f.q*conj(g.p)}
}

// inverse returns the map that undoes f; ok is false unless its determinant
// |p|² - |q|² is above 0, see series.
func (f linear) inverse() (inv linear, ok bool) {
	det := square(f.p) - square(f.q)
	if !(det > 0) {
		return linear{}, false
	}
	k := complex(1/det, 0)
	return linear{conj(f.p) * k, -f.q * k}, true
}

// conj is cmplx.Conj, short enough to be inlined in the sweeps.
func conj(v complex128) complex128 { return complex(real(v), -imag(v)) }

// square returns |v|².
func square(v complex128) float64 { return real(v)*real(v) + imag(v)*imag(v) }

// series is a node behind an impedance z (Ω): with its current following f,
// the node's voltage v solves (1+z·p)·v + z·q·v̄ = u - z·a for the voltage u
// ahead of the impedance.
type series struct {
	g, h complex128 // 1+z·p and z·q
	za   complex128
	// det = |g|² - |h|² is 1 without load and falls to 0 where the node's
	// voltage would move without bound for a small change ahead of it: the
	// point of voltage collapse.
	det float64
}

func behind(z complex128, f affine) series {
	s := series{g: 1 + z*f.p, h: z * f.q, za: z * f.a}
	s.det = square(s.g) - square(s.h)
	return s
}

// node returns the voltage at the node for the voltage u ahead.
func (s series) node(u complex128) complex128 {
	w := u - s.za
	return (conj(s.g)*w - s.h*conj(w)) / complex(s.det, 0)
}

// ahead returns the node's current as a law of the voltage ahead of z.
func (s series) ahead(f affine) affine {
	inv := complex(1/s.det, 0)
	return affine{
		a: f.at((s.h*conj(s.za) - conj(s.g)*s.za) * inv),
		p: (f.p*conj(s.g) - f.q*conj(s.h)) * inv,
		q: (f.q*s.g - f.p*s.h) * inv,
	}
}

// tangent returns the law that touches the load's own at voltage v, times the
// share of the load that is connected. With i the current at v and m its
// steepness (dI/I)/(dU/U), see network.Load.Steepness, and the angle between
// current and voltage fixed:
//
//	a = (1-m)·i   p = (m+1)/2·i/v   q = (m-1)/2·i/v̄
//
// so for constant power 2i - (i/v̄)·v̄, for a resistive load (i/v)·v.
func tangent(l *network.Load, dc bool, v complex128, share float64) affine {
	i := current(l, dc, v, share)
	if i == 0 {
		return affine{}
	}
	switch l.Law {
	case network.ConstantPower:
		return affine{a: 2 * i, q: -i / conj(v)}
	case network.Resistive:
		return affine{p: i / v}
	}
	m := l.Steepness(cmplx.Abs(v))
	return affine{
		a: complex(1-m, 0) * i,
		p: complex((m+1)/2, 0) * i / v,
		q: complex((m-1)/2, 0) * i / conj(v),
	}
}

// current returns the load's current at v. Direct current knows no power
// factor: a fitting made for both draws P/U there.
func current(l *network.Load, dc bool, v complex128, share float64) complex128 {
	if !dc {
		return complex(share, 0) * l.Current(v)
	}
	direct := *l
	direct.PowerFactor = 1
	return complex(share, 0) * direct.Current(v)
}

// openVoltage returns the converter's output voltage without load (V) for the
// magnitude of its primary voltage, U2n·(U1/U1n)·(1+rise), or U2n when it is
// regulated.
func openVoltage(c *network.Converter, primary, nominal float64) float64 {
	if c.Regulated {
		return float64(c.Nominal)
	}
	return float64(c.Nominal) * primary / nominal * (1 + c.Rise)
}

// perVolt returns (1 - j·tan φ)/v̄: the primary current of a converter for
// each watt that it takes at the primary voltage v.
func perVolt(c *network.Converter, dc bool, v complex128) complex128 {
	if dc {
		return 1 / conj(v)
	}
	tan := math.Sqrt(math.Max(0, 1-c.PowerFactor*c.PowerFactor)) / c.PowerFactor
	return complex(1, -tan) / conj(v)
}

// primaryPower returns P1 = P2/η + P0 in watts.
func primaryPower(c *network.Converter, output, share float64) float64 {
	return output/c.Efficiency + share*float64(c.NoLoad)
}
