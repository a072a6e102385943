package network

import (
	"math"

	q "duskwire/calc/quantity"
)

const (
	// filamentLight is the exponent of a filament's light over its voltage:
	// 11 V 75 %, 10 V 54 %, 13 V 131 % of the light at 12 V (found in a seller's
	// table; the exponent is derived from it).
	filamentLight = 3.4
	// narrowInput is the share of nominal down to which an LED lamp of which
	// nothing is known is taken to keep its light. From memory: 12 V lamps with
	// a driver are commonly made for nominal ± 10 %.
	narrowInput = 0.9
)

// Light returns the light at the voltage u as a share of the light at nominal
// voltage; ok is false when it is not known.
//
//	constant power, constant current   1 from Dropout up; below it 0 (off or flickering)
//	resistive                          (U/Un)², light in proportion to power
//	resistor strip                     (U-Uf)/(Un-Uf), light in proportion to current
//	filament                           (U/Un)^3.4
//	driven                             not known: it follows the current, see DrivenLight
//
// Without a Dropout a driver is vouched for down to Minimum, or to 90 % of
// nominal when that is not known either; below, and above Maximum, its light is
// not known. Valid range of the filament's law: about 0.8 to 1.1 of nominal.
// Sources: trade habit for drivers; seller's table for filaments; the strip's
// line is derived (11.4 V 78 %, 11.0 V 63 %, 10.8 V 56 % for Uf 9.3 V).
func (l Load) Light(u q.Volt) (share float64, ok bool) {
	if l.Nominal <= 0 || math.IsNaN(float64(u)) {
		return 0, false
	}
	r := math.Max(float64(u/l.Nominal), 0)
	switch l.Law {
	case Resistive:
		return r * r, true
	case ResistorStrip:
		return l.share(float64(u)), l.Forward < l.Nominal
	case Filament:
		return math.Pow(r, filamentLight), true
	case Driven:
		return 0, false
	}
	const slack = 1 + 1e-9
	least := l.Vouched()
	switch {
	case l.Maximum > 0 && u > l.Maximum*slack:
		return 0, false
	case l.Dropout > 0 && u*slack < l.Dropout:
		return 0, true
	case l.Dropout > 0 || u*slack >= least:
		return 1, true
	}
	return 0, false
}

// Vouched returns the voltage down to which a driver without a Dropout is taken to
// keep its light: Minimum, 90 % of nominal where that is not known.
func (l Load) Vouched() q.Volt {
	if l.Minimum > 0 {
		return l.Minimum
	}
	return q.Volt(narrowInput * float64(l.Nominal))
}

// Lowest returns the lowest voltage at which the lamp is vouched for: the
// maker's limit or the drop-out of its driver, the higher of the two; 0 when
// neither is known.
func (l Load) Lowest() q.Volt { return max(l.Minimum, l.Dropout) }
