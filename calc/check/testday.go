package check

import (
	"duskwire/calc/cable"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// testTemp is the conductor temperature on the day of the dead tests, 20 °C
// when the survey does not say.
func (c *Context) testTemp() q.Kelvin {
	if t := c.Net.Site.Test; t > 0 {
		return t
	}
	return q.Celsius(20)
}

// atTest corrects a resistance at 20 °C, of which a part is steel, to the
// temperature of the test. Source: On-Site Guide Table I2 for copper; steel by
// its own coefficient.
func (c *Context) atTest(all, steel q.Ohm) q.Ohm {
	t := c.testTemp()
	return (all-steel)*q.Ohm(cable.CopperAt(t)) + steel*q.Ohm(cable.SteelAt(t))
}

// TestR1R2 returns what the continuity test from the supply point to a node
// should read at the temperature of the test, in ohms: R1+R2 at 20 °C corrected
// for it. Armour is in it with its magnetic allowance, which a d.c. meter does
// not see. ok is false where no protective conductor leads, or no loop applies.
func (c *Context) TestR1R2(i int) (q.Ohm, bool) {
	l := &c.Loops[i]
	if !l.Applies || l.Broken >= 0 {
		return 0, false
	}
	return c.atTest(l.R1R2Cold, l.R1R2Armour), true
}

// TestLoop returns what a loop tester should read at a node at the temperature
// of the test, in ohms. Ze, a measured loop and the electrode stay as they were
// measured; only what is cable follows the temperature.
func (c *Context) TestLoop(i int) q.Ohm {
	l, s := &c.Loops[i], &c.Net.Supply
	fixed := l.StartCold
	if !l.Measured {
		fixed = s.Ze.Value
		if s.Earthing == network.TT {
			fixed = s.Electrode.Value
		}
	}
	return fixed + c.atTest(l.StartCold-fixed+l.R1R2Cold, l.StartArmour+l.R1R2Armour)
}

// Operating returns the temperature that the conductors of a run reach with the
// current of the design, see cable.OperatingTemp. ok is false when it does not
// follow: no solution, no rating, or more current than the cable carries.
func (c *Context) Operating(b int) (q.Kelvin, bool) {
	br := &c.Net.Branches[b]
	if far := c.Far(b); !c.Trusted() || far < 0 || br.Converter != nil || b >= len(c.Capacity) {
		return 0, false
	}
	if t := c.Net.Site.Conductor; t.Known {
		return t.Value, true
	}
	return cable.OperatingTemp(br.Cable, c.Capacity[b], c.Flow(b), &c.Rules.Cable)
}

// ExpectedDrop returns the volts lost over one branch with its conductors as
// warm as the design current makes them, Ct·mV/A/m·I·L. The proof takes the
// table's temperature instead and comes out higher. Source: BS 7671 Appendix 4,
// 6.1.
func (c *Context) ExpectedDrop(b int) (q.Volt, bool) {
	br := &c.Net.Branches[b]
	if c.Far(b) < 0 || !c.Trusted() || c.InRing(b) {
		return 0, false // round a ring the drop is not that of one way alone
	}
	if br.Strip != nil {
		return q.Volt(c.fall(b)), true
	}
	if br.Cable == nil {
		return 0, true // not known, taken as nothing: VD-04 and CIR-08 say so
	}
	full := c.PerMetre(b) * float64(c.Flow(b)) * float64(br.Length)
	if full == 0 {
		return 0, true // an indoor leg of no length has no legs to rate
	}
	t, ok := c.Operating(b)
	if !ok {
		return 0, false
	}
	if c.Net.Site.Conductor.Known {
		return q.Volt(full), true // already at that temperature
	}
	return q.Volt(full * cable.Ct(br.Cable, t)), true
}
