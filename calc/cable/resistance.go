package cable

import (
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// Inferred zero-resistance temperature of copper and the base of every
// tabulated resistance, both in °C (IEC 60228 Annex B; from memory).
const (
	copperZero = 234.5
	tableBase  = 20.0
)

// Resistance returns the resistance per metre of a copper conductor at
// temperature t from its value at 20 °C:
//
//	R(t) = R20 · (234.5 + t) / (234.5 + 20), t in °C
//
// in Ω/m, valid from -50 °C to 250 °C. Source: IEC 60228 Annex B and
// IEC 60287-1-1 Table 1 (from memory).
func Resistance(r20 q.OhmPerMetre, t q.Kelvin) q.OhmPerMetre {
	return r20 * q.OhmPerMetre((copperZero+t.Celsius())/(copperZero+tableBase))
}

// LoopPerMetre returns the resistance that a metre of the cable puts into the
// volt drop of a single-phase or direct-current circuit, line and return
// together, in Ω/m. It is the tabulated mV/A/m at operating temperature, or,
// when the site says how warm the conductors are,
//
//	2 · R20 · (234.5 + t) / 254.5
//
// It already holds both conductors: multiply by the one-way length and by
// nothing else. Source: BS 7671 Appendix 4, 6.1 and 6.2.
func LoopPerMetre(c *network.Cable, site network.Site) q.OhmPerMetre {
	if site.Conductor.Known {
		return 2 * Resistance(c.R20, site.Conductor.Value)
	}
	return c.Drop
}

// Hot returns the multipliers from 20 °C to operating temperature for a fault
// loop, by insulation key: 1.20 or 1.28 for copper cores, 1.18 or 1.27 for
// steel armour. For a key that the rule set does not list it returns the row
// with the largest core multiplier, the cautious choice. A rule set without
// rows is our bug and panics; the reader refuses such a file.
func Hot(key string, t *Tables) HotRow {
	if len(t.Hot) == 0 {
		panic("cable: rule set without operating-temperature multipliers")
	}
	worst := t.Hot[0]
	for _, row := range t.Hot {
		if row.Key == key {
			return row
		}
		if row.Core > worst.Core {
			worst = row
		}
	}
	return worst
}
