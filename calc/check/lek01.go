package check

import (
	"math"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// LEK-01: the standing leakage behind a residual device against 30 % of its
// rated residual current, so that it does not trip without a fault. It cannot
// be worked out to the microampere, so the electrician decides. Source: BS 7671
// 531.3.2; residual devices may trip from half their rating on (EN 61008-1).
var leakageRule = Rule{Code: "LEK-01", Title: "Standing leakage behind a residual device", Run: leakage}

// Leak is the standing leakage behind one residual device:
//
//	I = existing + lamps and sources + those that do not say · 0.5 mA + metres · 0.02 mA
type Leak struct {
	Node     int // that holds the device
	Device   *network.Device
	Limit    q.Ampere          // the share of IΔn
	Existing q.Maybe[q.Ampere] // of what was there before; unknown until measured
	Said     q.Ampere          // lamps and sources that say theirs
	Silent   int               // lamps and sources that do not
	Taken    q.Ampere          // what is taken for those
	Metres   q.Metre           // mains cable
	Cable    q.Ampere
	Sum      q.Ampere         // of all that is known or taken
	Each     q.Ampere         // of one lamp more, as the largest there is
	More     q.Maybe[q.Count] // lamps that still fit; unknown with Existing
}

// Leaks returns the standing leakage behind every residual device that has mains
// lamps or sources behind it, in node order; nil when the rule set has no limit.
func (c *Context) Leaks() []Leak {
	limit := c.Rules.Limits.LeakageShare
	if limit.Value <= 0 {
		return nil
	}
	s := c.supplied()
	var out []Leak
	for i := range c.Net.Nodes {
		n := &c.Net.Nodes[i]
		if s.on[i].leak == 0 && s.on[i].silent == 0 {
			continue
		}
		for k := range n.Devices {
			if d := &n.Devices[k]; d.ResidualPart() && n.System == 0 {
				out = append(out, c.leak(i, d))
			}
		}
	}
	return out
}

func (c *Context) leak(i int, d *network.Device) Leak {
	lim, on := &c.Rules.Limits, &c.supplied().on[i]
	l := Leak{Node: i, Device: d, Limit: q.Ampere(lim.LeakageShare.Value) * d.Residual,
		Existing: c.before(i, d), Said: on.leak, Silent: on.silent, Metres: on.metres}
	l.Taken = q.Ampere(float64(l.Silent) * lim.LeakageEach.Value)
	l.Cable = q.Ampere(float64(l.Metres) * lim.LeakageCable.Value)
	l.Sum = l.Existing.Value + l.Said + l.Taken + l.Cable
	l.Each = on.each
	if l.Silent > 0 || l.Each <= 0 {
		l.Each = max(l.Each, q.Ampere(lim.LeakageEach.Value))
	}
	if left := float64(l.Limit - l.Sum); l.Existing.Known && l.Each > 0 {
		l.More = q.Some(q.Count(math.Max(0, math.Floor(left/float64(l.Each)*(1+1e-9)))))
	}
	return l
}

// before is the leakage that was there before the garden: none behind a device
// that only the garden has.
func (c *Context) before(i int, d *network.Device) q.Maybe[q.Ampere] {
	s := &c.Net.Supply
	if i != c.Net.Root || s.Kind == network.OwnWay && d.Overcurrent() {
		return q.Some(q.Ampere(0))
	}
	if s.Kind == network.OwnWay && s.OtherCircuits.Known && s.OtherCircuits.Value == 0 && !s.LeakageAmpere.Known {
		return q.Some(q.Ampere(0))
	}
	return s.LeakageAmpere
}

func leakage(c *Context, emit func(finding.Finding)) {
	take, flush := single(emit)
	for _, l := range c.Leaks() {
		over := !within(float64(l.Sum), float64(l.Limit))
		held := !over && l.Existing.Known
		if c.Wants(held, c.subject(l.Node).ID) {
			take(leakFinding(c, &l, over))
		}
	}
	flush()
}

func leakFinding(c *Context, l *Leak, over bool) finding.Finding {
	lim, d := &c.Rules.Limits, l.Device
	f := finding.Finding{Code: "LEK-01", Subject: c.subject(l.Node), Source: lim.LeakageShare.Source,
		Figure: milliamps(l.Sum), Limit: "at most " + milliamps(l.Limit)}
	var w lines
	w.add("limit: %s · IΔn = %s · %s = %s", q.Percent(lim.LeakageShare.Value), num(lim.LeakageShare.Value, 2), milliamps(d.Residual), milliamps(l.Limit))
	if l.Existing.Known {
		w.add("there before the garden: %s", milliamps(l.Existing.Value))
	} else {
		w.add("there before the garden: not measured; it is left out of the sum and not taken as nothing")
	}
	w.add("lamps and sources that say theirs: %s", milliamps(l.Said))
	if l.Silent > 0 {
		w.add("%d that do not: %d · %s = %s", l.Silent, l.Silent, milliamps(q.Ampere(lim.LeakageEach.Value)), milliamps(l.Taken))
		f.Assumed = append(f.Assumed, milliamps(q.Ampere(lim.LeakageEach.Value))+" each for "+num(float64(l.Silent), 0)+" lamps or sources whose leakage is not known ("+lim.LeakageEach.Source.String()+")")
	}
	w.add("mains cable: %s · %s mA/m = %s (%s)", l.Metres, num(lim.LeakageCable.Value*1e3, 3), milliamps(l.Cable), lim.LeakageCable.Source)
	w.add("sum: %s: %s", milliamps(l.Sum), meets(!over))
	if half := d.Residual / 2; l.Sum > half {
		w.add("such a device may trip from %s on", milliamps(half))
	}
	f.Text, f.Level = leakText(l, over)
	if l.More.Known && !over {
		w.add("left for (%s - %s)/%s = %s more lamps", milliamps(l.Limit), milliamps(l.Sum), milliamps(l.Each), l.More.Value)
	}
	if over {
		f.Remedies = []finding.Remedy{{Text: "give the garden a residual device of its own, best an RCBO"},
			{Text: "split the lamps over two residual devices"}, {Text: "measure the leakage with a clamp before relying on this sum"}}
	} else if !l.Existing.Known {
		f.Remedies = []finding.Remedy{{Text: "measure with a leakage clamp and enter it at the supply point"}}
	}
	f.Working = w.String()
	return f
}

// leakText tells the sum, the level and what is left.
func leakText(l *Leak, over bool) (string, finding.Level) {
	switch {
	case over:
		return "standing leakage behind " + l.Device.Label + " is about " + milliamps(l.Sum) + ", over the " + milliamps(l.Limit) + " at which it may trip without a fault", finding.Decide
	case !l.Existing.Known:
		return "the leakage that was behind " + l.Device.Label + " before is not known; the garden adds about " + milliamps(l.Sum) +
			", which leaves " + milliamps(l.Limit-l.Sum) + " of " + milliamps(l.Limit) + " for it", finding.Note
	}
	return "standing leakage behind " + l.Device.Label + " is about " + milliamps(l.Sum) + "; " + l.More.Value.String() + " more lamps of " + milliamps(l.Each) + " fit", finding.Held
}
