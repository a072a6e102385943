package cable

import (
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// Reference temperatures of the rating tables in °C: air, and ground for
// method D (BS 7671 Appendix 4, Tables 4B1 and 4B2).
const (
	referenceAir    = 30.0
	referenceGround = 20.0
)

// tableZero is the constant that BS 7671 takes for copper where IEC 60228 has
// 234.5 °C.
const tableZero = 230.0

// steelAlpha is the temperature coefficient of steel wire at 20 °C, 1/K, as
// the armour multipliers of the rule sets have it (IEC 60287-1-1 Table 1).
const steelAlpha = 0.0045

// OperatingTemp returns the temperature that the conductors of a run reach when
// they carry ib for long,
//
//	t1 = tp - (Ca²·C² - Ib²/It²)·(tp - t0),  C = Cg·Ci·Cs·Cd
//
// tp is the temperature that the rating is for (that of the terminals where
// they limit the cable) and t0 the reference of the table, 30 °C in air and
// 20 °C in the ground. The leg that governs stands for the whole run, which is
// the warm side. A C above 1, the credit of moist soil, divides Ib instead:
// without current the cable is no colder than what surrounds it. ok is false
// when the capacity is not known or ib exceeds it (Cc and Cf left out).
//
// Source: BS 7671 Appendix 4, 6.1 (from memory), written there for a device
// other than BS 3036 and an ambient of 30 °C or more; below that the factor of
// the table gives a little less credit than the formula, so the warm side
// again.
func OperatingTemp(c *network.Cable, capa Capacity, ib q.Ampere, t *Tables) (t1 q.Kelvin, ok bool) {
	if c == nil || !capa.Known || capa.Tabulated <= 0 || ib < 0 {
		return 0, false
	}
	tp := tableTemp(c, t).Celsius()
	t0 := referenceAir
	if capa.Method == "D" {
		t0 = referenceGround
	}
	ca, others := 1.0, 1.0
	for _, a := range capa.Applied {
		switch a.Symbol {
		case "Ca":
			ca = a.Value
		case "Cg", "Ci", "Cs", "Cd":
			others *= a.Value
		}
	}
	used := float64(ib) / float64(capa.Tabulated)
	if others > 1 {
		used, others = used/others, 1
	}
	celsius := tp - (ca*ca*others*others-used*used)*(tp-t0)
	const slack = 1e-9
	if celsius > tp+slack {
		return 0, false
	}
	return q.Celsius(celsius), true
}

// tableTemp is the conductor temperature of the table that rates a cable.
func tableTemp(c *network.Cable, t *Tables) q.Kelvin {
	if limited(c, t) && t.Terminals > 0 {
		return t.Terminals
	}
	return c.Conductor
}

// Ct returns the factor from the resistance of a conductor at its table
// temperature to that at t1,
//
//	Ct = (230 + t1) / (230 + tp)
//
// for the resistive part of mV/A/m, which at 16 mm² and below is all of it.
// The tabulated mV/A/m is for the conductor's own temperature, also where
// terminals limit what the cable may carry. Source: BS 7671 Appendix 4, 6.1.
func Ct(c *network.Cable, t1 q.Kelvin) float64 {
	return (tableZero + t1.Celsius()) / (tableZero + c.Conductor.Celsius())
}

// CopperAt returns the factor from the resistance of copper at 20 °C to that at
// t, (234.5 + t)/254.5. For the temperatures of a test, 5 to 25 °C, On-Site
// Guide Table I2 prints 0.94 to 1.02. Source: as Resistance.
func CopperAt(t q.Kelvin) float64 { return float64(Resistance(1, t)) }

// SteelAt returns the factor from the resistance of steel armour at 20 °C to
// that at t, 1 + 0.0045·(t - 20). Source: IEC 60287-1-1 Table 1.
func SteelAt(t q.Kelvin) float64 { return 1 + steelAlpha*(t.Celsius()-tableBase) }
