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
	// ResistorStrip is light-emitting diodes in series with a resistor: no
	// current up to their forward voltage, above it a straight line.
	ResistorStrip
	// Filament is a filament lamp, whose resistance falls as it cools.
	Filament
	// Driven is bare diodes that a constant-current source feeds in series: the
	// source sets the current, the lamp the volts across it.
	Driven
)

// String returns the name used in stock files.
func (l Law) String() string {
	return [...]string{"constant power", "constant current", "resistive", "resistor strip", "filament", "driven"}[l]
}

// filamentCurrent is the exponent of a filament's current over its voltage,
// I = In·(U/Un)^0.55. From memory (0.5 to 0.6 is usual for halogen lamps near
// their nominal voltage).
const filamentCurrent = 0.55

// Load is one lamp as the circuit sees it.
type Load struct {
	Law         Law
	Power       q.Watt // input power at the nominal voltage
	PowerFactor float64
	Nominal     q.Volt
	Minimum     q.Volt // lowest voltage at which the maker warrants the light; 0 unknown
	Maximum     q.Volt // highest allowed; 0 unknown
	// Dropout is the voltage below which the driver of a constant-power or
	// constant-current lamp stops or flickers; 0 unknown. It is no part of the
	// current's law: a lamp that goes out lets the volts rise and lights again,
	// so there is no steady state without it either. Light tells.
	Dropout q.Volt
	// Forward is the forward voltage of a resistor strip's diodes in series,
	// about 9.3 V for three on 12 V.
	Forward q.Volt
	// Drive is the current that a Driven lamp is made for; Nominal are then the
	// volts across it at that current, and Power is the product of the two.
	Drive q.Ampere
}

// Rated returns the magnitude of the current at nominal voltage,
// I = P / (U·λ), in amperes. PowerFactor must be in (0, 1].
func (l Load) Rated() q.Ampere {
	return q.Ampere(float64(l.Power) / (float64(l.Nominal) * l.PowerFactor))
}

// Current returns the complex current drawn at the complex voltage v (V),
// lagging by arccos(PowerFactor). With S = P(1 + j·tan φ), In = P/(Un·λ):
//
//	constant power     I = conj(S / v)
//	constant current   |I| = In, phase of v less φ
//	resistive          I = conj(S)/Un² · v
//	resistor strip     |I| = In·(|v|-Uf)/(Un-Uf), 0 below Uf
//	filament           |I| = In·(|v|/Un)^0.55
//	driven             as constant current; in a String the source sets it
//
// Forward must lie below Nominal. At v = 0 a constant-power load has no
// solution; +Inf is returned and the solver reports the collapse.
func (l Load) Current(v complex128) complex128 {
	if l.Power == 0 {
		return 0
	}
	pf := l.PowerFactor
	p := float64(l.Power)
	s := complex(p, p*math.Sqrt(math.Max(0, 1-pf*pf))/pf)
	un := float64(l.Nominal)
	switch l.Law {
	case ConstantCurrent, Driven:
		a := cmplx.Abs(v)
		if a == 0 {
			return cmplx.Conj(s) / complex(un, 0)
		}
		return cmplx.Conj(s) / complex(un*a, 0) * v
	case Resistive:
		return cmplx.Conj(s) / complex(un*un, 0) * v
	case ResistorStrip, Filament:
		a := cmplx.Abs(v)
		if a == 0 {
			return 0
		}
		return cmplx.Conj(s) * complex(l.share(a)/(un*a), 0) * v
	}
	if v == 0 {
		return cmplx.Inf()
	}
	return cmplx.Conj(s / v)
}

// share is the current of a strip or a filament at a volts over the rated one.
func (l Load) share(a float64) float64 {
	un := float64(l.Nominal)
	if l.Law == Filament {
		return math.Pow(a/un, filamentCurrent)
	}
	uf := float64(l.Forward)
	return math.Max(0, (a-uf)/(un-uf))
}

// Steepness returns the relative change of the current for a relative change
// of the voltage magnitude a (V), (dI/I)/(dU/U): -1 for constant power, 0 for
// constant current and driven, 1 for resistive, 0.55 for a filament and a/(a-Uf) for a
// resistor strip above its forward voltage (+Inf at it, 0 below).
func (l Load) Steepness(a float64) float64 {
	switch l.Law {
	case ConstantCurrent, Driven:
		return 0
	case Resistive:
		return 1
	case ResistorStrip:
		uf := float64(l.Forward)
		if a < uf {
			return 0
		}
		return a / (a - uf)
	case Filament:
		return filamentCurrent
	}
	return -1
}
