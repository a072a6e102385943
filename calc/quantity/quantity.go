// Package quantity holds the physical quantities of the calculation as named
// float64 types in SI units, so that adding a voltage to a current does not
// compile. Unit prefixes exist only at the border: String writes a value with
// its unit, Parse functions read one and name the accepted units when they
// cannot.
//
// Invariants: a value is always in the coherent SI unit of its type (volt,
// ampere, ohm, metre, square metre, kelvin, second). Nothing here is rounded;
// String rounds for display only.
package quantity

import "math"

// Volt is an electric potential difference in volts.
type Volt float64

// Ampere is an electric current in amperes.
type Ampere float64

// Ohm is a resistance or the magnitude of an impedance in ohms.
type Ohm float64

// OhmPerMetre is a resistance per unit length in Ω/m. Cable tables print
// Ω/km or mΩ/m, both of which are 1e-3 Ω/m.
type OhmPerMetre float64

// Watt is an active power in watts.
type Watt float64

// VoltAmpere is an apparent power in volt-amperes.
type VoltAmpere float64

// Metre is a length in metres.
type Metre float64

// SquareMetre is an area in square metres; conductor sizes are written in
// mm², see SquareMillimetres.
type SquareMetre float64

// Kelvin is an absolute temperature in kelvins; see Celsius.
type Kelvin float64

// Second is a duration in seconds.
type Second float64

// AmpereSquaredSecond is a let-through energy I²t in A²s.
type AmpereSquaredSecond float64

// KelvinMetrePerWatt is the thermal resistivity of soil in K·m/W.
type KelvinMetrePerWatt float64

// Lumen is a luminous flux in lumens.
type Lumen float64

// Candela is a luminous intensity in candelas.
type Candela float64

// Lux is an illuminance in lux.
type Lux float64

// zeroCelsius is 0 °C in kelvins (exact by the definition of the Celsius scale).
const zeroCelsius = 273.15

// Celsius returns the absolute temperature of c degrees Celsius.
func Celsius(c float64) Kelvin { return Kelvin(c + zeroCelsius) }

// Celsius returns the temperature in degrees Celsius.
func (k Kelvin) Celsius() float64 { return float64(k) - zeroCelsius }

// SquareMillimetres returns the area of mm square millimetres.
func SquareMillimetres(mm float64) SquareMetre { return SquareMetre(mm * 1e-6) }

// SquareMillimetres returns the area in mm², rounded to 1e-9 mm² so that a
// nominal size read from a table compares equal to the number printed there.
func (a SquareMetre) SquareMillimetres() float64 {
	return math.Round(float64(a)*1e15) / 1e9
}

// MilliohmPerMetre returns the resistance per length of r mΩ/m (= Ω/km).
func MilliohmPerMetre(r float64) OhmPerMetre { return OhmPerMetre(r * 1e-3) }

// Maybe is a value that may not be known. The zero Maybe is unknown: unknown
// is not zero, so every reader has to ask.
type Maybe[T ~float64] struct {
	Value T
	Known bool
}

// Some returns a known value.
func Some[T ~float64](v T) Maybe[T] { return Maybe[T]{Value: v, Known: true} }

// Or returns the value if it is known and otherwise fallback, which the
// caller must then report as assumed.
func (m Maybe[T]) Or(fallback T) T {
	if m.Known {
		return m.Value
	}
	return fallback
}
