package network

import (
	"math"
	"math/cmplx"

	q "duskwire/calc/quantity"
)

// Law is the way a lamp draws current as its voltage falls.
type Law int

const (
	// ConstantPower draws more current as volts fall: a wide-input driver.
	ConstantPower Law = iota
	// ConstantCurrent draws the same current at any voltage.
	ConstantCurrent
	// Resistive draws current in proportion to volts.
	Resistive
)

// String returns the name used in stock files.
func (l Law) String() string {
	return [...]string{"constant power", "constant current", "resistive"}[l]
}

// Load is one lamp as the circuit sees it.
type Load struct {
	Law         Law
	Power       q.Watt // input power at the nominal voltage
	PowerFactor float64
	Nominal     q.Volt
	Minimum     q.Volt // lowest voltage at which the maker warrants the light; 0 unknown
	Maximum     q.Volt // highest allowed; 0 unknown
}

// Rated returns the magnitude of the current at nominal voltage,
// I = P / (U·λ), in amperes. PowerFactor must be in (0, 1].
func (l Load) Rated() q.Ampere {
	return q.Ampere(float64(l.Power) / (float64(l.Nominal) * l.PowerFactor))
}

// Current returns the complex current drawn at the complex voltage v (V),
// lagging by arccos(PowerFactor). With S = P(1 + j·tan φ):
//
//	constant power     I = conj(S / v)
//	constant current   |I| = P/(Un·λ), phase of v less φ
//	resistive          I = conj(S)/Un² · v
//
// At v = 0 a constant-power load has no solution; +Inf is returned and the
// solver reports the collapse.
func (l Load) Current(v complex128) complex128 {
	if l.Power == 0 {
		return 0
	}
	pf := l.PowerFactor
	p := float64(l.Power)
	s := complex(p, p*math.Sqrt(math.Max(0, 1-pf*pf))/pf)
	un := float64(l.Nominal)
	switch l.Law {
	case ConstantCurrent:
		a := cmplx.Abs(v)
		if a == 0 {
			return cmplx.Conj(s) / complex(un, 0)
		}
		return cmplx.Conj(s) / complex(un*a, 0) * v
	case Resistive:
		return cmplx.Conj(s) / complex(un*un, 0) * v
	}
	if v == 0 {
		return cmplx.Inf()
	}
	return cmplx.Conj(s / v)
}

// Converter is a source: a transformer or driver that makes an extra-low
// voltage. Output voltage is
//
//	U2 = U2n · (U1/U1n if not regulated) · (1 + rise) - r·I2
//
// with rise the no-load rise of a wound transformer and r = rise·U2n/I2n its
// regulation resistance, so that full rated load gives U2n. Regulated sources
// have rise 0. Primary power is the output power over Efficiency plus NoLoad.
type Converter struct {
	Nominal     q.Volt // output
	Current     Current
	Rated       q.VoltAmpere // output rating
	Regulated   bool
	Rise        float64 // no-load rise, 0.05 for 5 %; 0 when regulated
	Efficiency  float64 // (0, 1]
	PowerFactor float64 // of the primary
	NoLoad      q.Watt
	MinimumLoad q.Watt
	SELV        bool
}

// Resistance returns the regulation resistance r = rise·U2n²/S in ohms.
func (c Converter) Resistance() q.Ohm {
	if c.Regulated || c.Rated == 0 {
		return 0
	}
	return q.Ohm(c.Rise * float64(c.Nominal) * float64(c.Nominal) / float64(c.Rated))
}
