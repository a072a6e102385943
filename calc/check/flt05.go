package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// FLT-05: on TT the residual device gives the disconnection, RA·IΔn <= 50 V.
// RA is taken with the line and protective conductor up to the point, as Table
// 41.5 takes the whole loop. Source: BS 7671 411.5.3, Table 41.5.
var electrodeRule = Rule{Code: "FLT-05", Title: "Electrode against the residual device", Run: electrode}

func electrode(c *Context, emit func(finding.Finding)) {
	if c.Net.Supply.Earthing != network.TT {
		return
	}
	nodeFindings(c, emit, func(i int) int { return c.Zone(i).ResidualAt },
		func(i int) (float64, bool, bool) {
			if !c.proved(i) {
				return 0, false, false
			}
			by, held := c.touch(i)
			return by, held, true
		},
		func(i int) finding.Finding { return electrodeFinding(c, i) })
}

// touch compares RA·IΔn at a node with the touch-voltage limit. Without a
// residual device the node furthest from the supply is the worst.
func (c *Context) touch(i int) (by float64, held bool) {
	z, hot := c.Zone(i), float64(c.Loops[i].Hot)
	if z.Residual == nil {
		return hot, false
	}
	u := hot * float64(z.Residual.Residual)
	limit := float64(c.Rules.Protect.Touch)
	return u / limit, within(u, limit)
}

func electrodeFinding(c *Context, i int) finding.Finding {
	z, s, t := c.Zone(i), c.subject(i), &c.Rules.Protect
	_, held := c.touch(i)
	f := finding.Finding{Code: "FLT-05", Level: level(held, finding.Stop), Subject: s, Source: t.TouchSource, Limit: t.Touch.String()}
	w := loopWorking(c, i)
	if z.Residual == nil {
		w.add("RA · IΔn ≤ %s: there is no residual device ahead, and an overcurrent device does not open at %s", t.Touch,
			q.Ampere(float64(c.Net.Supply.Nominal)*t.Cmin/float64(c.Loops[i].Hot)))
		f.Working = w.String()
		f.Text = "TT supply with no residual device ahead of " + s.Label + ": nothing disconnects a fault to earth"
		f.Remedies = []finding.Remedy{{Text: "fit a 30 mA RCBO at the board for this circuit", Tried: true}}
		return f
	}
	u := q.Volt(float64(c.Loops[i].Hot) * float64(z.Residual.Residual))
	w.add("Zs · IΔn = %s × %s = %s against %s: %s", c.Loops[i].Hot, z.Residual.Residual, u, t.Touch, meets(held))
	f.Figure, f.Working = u.String(), w.String()
	f.Text = "touch voltage " + u.String() + " at " + s.Label + " before " + z.Residual.Label + " opens"
	if !held {
		f.Remedies = []finding.Remedy{
			{Text: "lower the electrode resistance below " + q.Ohm(float64(t.Touch)/float64(z.Residual.Residual)).String()},
			{Text: "use a residual device of smaller IΔn", Tried: true},
		}
	}
	return f
}
