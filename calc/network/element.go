package network

import (
	"math"

	q "duskwire/calc/quantity"
)

// ConverterKind is how a source makes its output.
type ConverterKind int

const (
	// Wound is a transformer for the mains frequency: its output follows the
	// input and rises when the load falls.
	Wound ConverterKind = iota
	// Electronic is a switching "transformer": an alternating output of some
	// tens of kilohertz that follows the input, and no start below its least
	// load. The frequency is from memory.
	Electronic
	// RegulatedKind holds its output voltage.
	RegulatedKind
	// DrivingKind holds its output current, within its range of volts.
	DrivingKind
)

// String returns the name used in stock files.
func (k ConverterKind) String() string {
	return [...]string{"wound", "electronic", "regulated", "constant current"}[k]
}

// Converter is a source: a transformer or driver that makes an extra-low
// voltage. Output voltage is
//
//	U2 = U2n · (U1/U1n if not regulated) · (1 + rise) - r·I2
//
// with rise the no-load rise of a wound transformer and r = rise·U2n/I2n its
// regulation resistance, so that full rated load gives U2n. Regulated sources
// have rise 0. Primary power is the output power over Efficiency plus NoLoad.
//
// A constant-current source gives Drive at whatever volts between Least and Most
// its string asks for; Nominal is then Most, and Regulated is set: its output
// does not follow its input.
type Converter struct {
	Nominal     q.Volt // output
	Current     Current
	Rated       q.VoltAmpere // output rating: VA of a transformer, W of a driver for direct current
	Regulated   bool
	HighFreq    bool    // electronic transformer: output of some tens of kilohertz
	Rise        float64 // no-load rise, 0.05 for 5 %; 0 when regulated
	Efficiency  float64 // (0, 1]
	PowerFactor float64 // of the primary
	NoLoad      q.Watt
	MinimumLoad q.Watt
	Longest     q.Metre // cable that the maker allows behind it; 0 unknown
	// Inrush is the peak of the primary current when it is switched on, and
	// InrushTime how long it stays above half of that; 0 unknown.
	Inrush     q.Ampere
	InrushTime q.Second
	SELV       bool
	Drive      q.Ampere // output of a constant-current source; 0 for one that gives volts
	Least      q.Volt   // of its output; 0 for no lower end
	Most       q.Volt
}

// Kind returns how the source makes its output.
func (c Converter) Kind() ConverterKind {
	switch {
	case c.Drive > 0:
		return DrivingKind
	case c.Regulated:
		return RegulatedKind
	case c.HighFreq:
		return Electronic
	}
	return Wound
}

// Resistance returns the regulation resistance r = rise·U2n²/S in ohms.
func (c Converter) Resistance() q.Ohm {
	if c.Regulated || c.Rated == 0 {
		return 0
	}
	return q.Ohm(c.Rise * float64(c.Nominal) * float64(c.Nominal) / float64(c.Rated))
}

// Open returns the output voltage without load at nominal input,
// U2n·(1 + rise).
func (c Converter) Open() q.Volt {
	if c.Regulated {
		return c.Nominal
	}
	return q.Volt(float64(c.Nominal) * (1 + c.Rise))
}

// Primary returns the magnitude of the current drawn at nominal input u1 (V)
// for an output of p watts: I1 = (p/η + P0)/(u1·λ).
func (c Converter) Primary(p q.Watt, u1 q.Volt) q.Ampere {
	if c.Efficiency <= 0 || c.PowerFactor <= 0 || u1 <= 0 {
		return q.Ampere(math.NaN())
	}
	return q.Ampere((float64(p)/c.Efficiency + float64(c.NoLoad)) / (float64(u1) * c.PowerFactor))
}
