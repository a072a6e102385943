package solve

import (
	"math/cmplx"

	"duskwire/calc/network"
)

// primary returns the law of a converter's primary current that touches its
// own at the voltages of the last sweep: v1 at the primary, v2 at the output
// terminals. f is the law of everything connected to the output, s the output
// behind its regulation resistance. The output power
//
//	P2 = Re(v2·conj(I2)), with v2 and I2 linear in the open voltage e
//
// is taken to first order, P2 = α + β·e, and so is e as it follows |v1|.
func primary(c *network.Converter, dc bool, v1, v2 complex128, nominal float64, f affine, s series, share float64) affine {
	i2 := f.at(v2)
	rest := s.node(0)        // output voltage at e = 0
	rise := s.node(1) - rest // output volts for each volt of e
	dot := func(v, i complex128) float64 { return real(v * conj(i)) }
	alpha := dot(v2, f.at(rest)) + dot(rest, i2) - dot(v2, i2)
	beta := dot(v2, f.p*rise+f.q*conj(rise)) + dot(rise, i2)

	e := openVoltage(c, cmplx.Abs(v1), nominal)
	now := primaryPower(c, alpha+beta*e, share)
	w := perVolt(c, dc, v1)
	out := affine{
		a: 2 * w * complex(now, 0),
		q: -w * complex(now, 0) / conj(v1),
	}
	if !c.Regulated {
		// de = e·Re(v̄1·dv1)/|v1|²; at v1 itself the two halves give back a.
		slope := w * complex(beta*e/(2*c.Efficiency), 0)
		out.a -= 2 * slope
		out.p += slope / v1
		out.q += slope / conj(v1)
	}
	return out
}
