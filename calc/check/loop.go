package check

import (
	"math"

	"duskwire/calc/cable"
	"duskwire/calc/finding"
	"duskwire/calc/network"
	"duskwire/calc/protect"
	q "duskwire/calc/quantity"
)

// tn reports whether the earthing is one where an overcurrent device can clear
// a fault to earth.
func (c *Context) tn() bool {
	e := c.Net.Supply.Earthing
	return e == network.TNS || e == network.TNCS
}

// proved reports whether the node has a loop that can be compared with a
// limit: on the mains, reached, beyond the board and known.
func (c *Context) proved(i int) bool {
	l := &c.Loops[i]
	return l.Applies && l.Known && c.Net.Nodes[i].System == 0 && c.Tree.Parent[i] >= 0
}

// apart reports whether the loop at the node is the business of FLT-02: the
// spur unit, or a supply point whose loop was measured.
func (c *Context) apart(i int) bool {
	return i == c.plan.supply && (c.Net.Supply.Kind == network.Spur || c.Loops[i].Measured)
}

// LoopLimit returns the largest loop allowed at a node that FLT-01 or FLT-05
// looks at; ok is false at every other node.
func (c *Context) LoopLimit(i int) (limit q.Ohm, ok bool) {
	c.prepare()
	z := c.Zone(i)
	if !z.Loop.Known || !c.proved(i) || (c.tn() && c.apart(i)) {
		return 0, false
	}
	return z.Loop.Value, true
}

// PointLimit returns the largest loop at a node that the findings allow: that
// of the device ahead, and 80 % of it at a supply point whose loop was measured
// cold, as FLT-02 compares it.
func (c *Context) PointLimit(i int) q.Maybe[q.Ohm] {
	out := c.Zone(i).Loop
	if c.tn() && c.apart(i) && c.Loops[i].Measured {
		out.Value *= q.Ohm(c.Rules.Protect.Cold)
	}
	return out
}

// HotPerMetre returns what a metre of a cable adds to the design loop, Ω/m; ok
// is false without a protective conductor.
func (c *Context) HotPerMetre(cb *network.Cable) (q.OhmPerMetre, bool) {
	h := cable.Hot(cb.Insulation, &c.Rules.Cable)
	_, hot, ok := protect.PathPerMetre(cb, h.Core, h.Armour, &c.Rules.Protect)
	return hot, ok
}

// loopWorking writes the loop from the supply to the node, cable by cable.
func loopWorking(c *Context, i int) lines {
	var w lines
	s, l := &c.Net.Supply, &c.Loops[i]
	t := &c.Rules.Protect
	w.add("Zs = loop at the supply point + Σ (R1+R2) per metre, hot × m")
	trail := c.trail(i)
	beyond := false
	switch {
	case l.Measured:
		w.add("loop measured cold at %s: %s", c.supplySubject().Label, l.Start)
	case s.Earthing == network.TT:
		w.add("electrode RA = %s", s.Electrode.Value)
	default:
		w.add("Ze at the board = %s", s.Ze.Value)
	}
	const most = 40
	for k, b := range trail {
		br := &c.Net.Branches[b]
		own := beyond
		beyond = beyond || c.Far(b) == c.plan.supply
		if br.Cable == nil || (l.Measured && !own) {
			continue
		}
		if k == most {
			w.add("and %d more cables", len(trail)-most)
		}
		if k >= most {
			continue
		}
		h := cable.Hot(br.Cable.Insulation, &c.Rules.Cable)
		hot, _ := c.HotPerMetre(br.Cable)
		z := float64(hot) * float64(br.Length)
		line := num(float64(br.Cable.R20)*1e3, 2) + " × " + num(h.Core, 2)
		if br.Cable.Earth == network.EarthArmour {
			line += " + " + num(t.Armour, 2) + " × " + num(float64(br.Cable.ArmourR20)*1e3, 2) + " × " + num(h.Armour, 2)
		} else {
			line += " + " + num(float64(br.Cable.EarthR20)*1e3, 2) + " × " + num(h.Core, 2)
		}
		w.add("%s: (%s) mΩ/m × %s = %s", c.runSubject(b).Label, line, br.Length, q.Ohm(z))
	}
	w.add("Zs = %s at %s", l.Hot, c.subject(i).Label)
	return w
}

// limitWorking writes where the largest loop of an overcurrent device comes
// from.
func limitWorking(c *Context, w *lines, z *Zone) {
	t, uo := &c.Rules.Protect, c.Net.Supply.Nominal
	ia, _, ok := protect.TripCurrent(*z.Over, z.Time.Value, uo, t)
	if !ok {
		return
	}
	if k := z.Over.Kind; k == network.Breaker || k == network.RCBO {
		w.add("largest loop of %s for %s: Uo · Cmin / Ia = %s × %s / %s = %s", z.Over.Label, z.Time.Value,
			num(float64(uo), 1), num(t.Cmin, 2), ia, z.Loop.Value)
		return
	}
	w.add("largest loop of %s for %s: %s from the table (Ia about %s)", z.Over.Label, z.Time.Value, z.Loop.Value, q.Ampere(math.Round(float64(ia)*10)/10))
}

// loopRemedies offers, nearest the supply first, at most three runs where one
// larger cable lowers the loop enough, and what device would open.
func loopRemedies(c *Context, i int, z *Zone) []finding.Remedy {
	var out []finding.Remedy
	l := &c.Loops[i]
	need := float64(l.Hot - z.Loop.Value)
	for _, b := range c.trail(i) {
		br := &c.Net.Branches[b]
		if !c.Ours(b) || len(out) == 3 || (l.Measured && c.Far(b) == c.plan.supply) {
			continue
		}
		old, _ := c.HotPerMetre(br.Cable)
		for _, cb := range cable.Family(br.Cable, c.Catalog) {
			hot, ok := c.HotPerMetre(cb)
			if saved := float64(old-hot) * float64(br.Length); ok && cb.Size > br.Cable.Size && saved >= need {
				out = append(out, swap(br, cb, (l.Hot-q.Ohm(saved)).String()+" at "+c.subject(i).Label))
				break
			}
		}
	}
	uo := float64(c.Net.Supply.Nominal)
	ia := q.Ampere(math.Floor(uo*c.Rules.Protect.Cmin/float64(l.Hot)*10) / 10)
	other := "a smaller rating or a fuse in a spur unit"
	if z.Over.Curve == "C" || z.Over.Curve == "D" {
		other = "curve B, " + other
	}
	out = append(out, finding.Remedy{Text: "use a device that opens in time at " + ia.String() + ": " + other})
	if z.Residual != nil {
		out = append(out, finding.Remedy{Text: z.Residual.Label + " would open; the overcurrent device alone does not, so relying on it is a decision to record"})
	}
	return out
}
