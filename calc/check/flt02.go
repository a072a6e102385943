package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// FLT-02: the loop at the supply unit against the device at the board. A
// computed loop is compared with the whole limit, one that was measured cold
// with 80 % of it. Source: BS 7671 411.4.4 and Appendix 3.
var supplyLoopRule = Rule{Code: "FLT-02", Title: "Fault loop at the supply point", Run: supplyLoop}

func supplyLoop(c *Context, emit func(finding.Finding)) {
	i := c.plan.supply
	if i < 0 || !c.tn() || !c.proved(i) || !c.apart(i) || !c.Zone(i).Loop.Known {
		return
	}
	z, l, t, s := c.Zone(i), &c.Loops[i], &c.Rules.Protect, c.subject(i)
	limit, figure, src := z.Loop.Value, l.Hot, z.LoopSource
	if l.Measured {
		limit, figure, src = z.Loop.Value*q.Ohm(t.Cold), l.Start, t.ColdSource
	}
	held := within(float64(figure), float64(limit))
	if !c.Wants(held, s.ID) {
		return
	}
	w := loopWorking(c, i)
	limitWorking(c, &w, z)
	if l.Measured {
		w.add("measured cold, so compared with %s × %s = %s", num(t.Cold, 2), z.Loop.Value, limit)
	}
	w.add("%s against %s: %s", figure, limit, meets(held))
	f := finding.Finding{Code: "FLT-02", Level: level(held, finding.Stop), Subject: s, Source: src,
		Figure: figure.String(), Limit: limit.String(), Working: w.String(),
		Text: "fault loop " + figure.String() + " at " + s.Label + "; " + z.Over.Label + " at the board allows " + limit.String()}
	switch {
	case held:
	case c.Net.Supply.Kind == network.OwnWay:
		f.Remedies = []finding.Remedy{
			{Text: "use a thicker cable for the indoor leg, or a device of curve B or a smaller rating, and measure again"},
		}
	default:
		f.Remedies = []finding.Remedy{
			{Text: "have the existing circuit's loop looked into before adding to it"},
			ownWayRemedy(c, i, z),
		}
	}
	emit(f)
}

// ownWayRemedy says what the loop of a way of its own would be: Ze and a new
// indoor leg like the one entered, Zs = Ze + Σ (R1+R2) hot · m. What was
// measured on the existing circuit says nothing about it.
func ownWayRemedy(c *Context, i int, z *Zone) finding.Remedy {
	const way = "take the garden from a way of its own at the board"
	s, label := &c.Net.Supply, c.subject(i).Label
	loop, known := s.Ze.Value, s.Ze.Known
	for _, b := range c.trail(i) {
		br := &c.Net.Branches[b]
		if br.Cable == nil {
			known = false
			break
		}
		hot, ok := c.HotPerMetre(br.Cable)
		known = known && ok
		loop += q.Ohm(float64(hot) * float64(br.Length))
	}
	if !known {
		return finding.Remedy{Text: way + "; what it would read is not known: enter Ze and the indoor leg, its cable and length", Tried: true}
	}
	out := finding.Remedy{Text: way, Figure: loop.String() + " at " + label, Tried: true}
	if !within(float64(loop), float64(z.Loop.Value)) {
		out.Text = "a way of its own at the board with the same leg still exceeds the " + z.Loop.Value.String() + " of " + z.Over.Label +
			": it needs a device that allows more, or a thicker leg"
	}
	return out
}
