package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	"duskwire/calc/protect"
	q "duskwire/calc/quantity"
)

// SEL-01: which of two overcurrent devices in series opens. Behind a breaker
// nothing tells a fuse or a second breaker apart from it once the fault current
// reaches its instantaneous band; the note gives that band. A fuse behind a
// fuse is judged by the ratio of the ratings. Losing the light is not a danger
// by itself, so it stays a Note. Source: BS 7671 536.4; EN 60898-1 Table 2.
var overcurrentApartRule = Rule{Code: "SEL-01", Title: "Overcurrent devices in series", Run: overcurrentApart}

var selectSource = finding.Source{Standard: "BS 7671:2018", Clause: "536.4", Evidence: finding.Memory}

func overcurrentApart(c *Context, emit func(finding.Finding)) {
	emit, flush := single(emit)
	defer flush()
	for _, i := range c.Tree.Order {
		node := &c.Net.Nodes[i]
		ahead := c.Zone(i).Over
		for k := range node.Devices {
			d := &node.Devices[k]
			if !d.Overcurrent() {
				continue
			}
			if ahead != nil {
				c.apartFrom(i, ahead, d, emit)
			}
			ahead = d
		}
	}
}

// apartFrom speaks about device d at node i behind the device ahead.
func (c *Context) apartFrom(i int, ahead, d *network.Device, emit func(finding.Finding)) {
	s := c.subject(i)
	if ahead.Kind == network.Breaker || ahead.Kind == network.RCBO {
		from, src, ok := protect.InstantFrom(*ahead, &c.Rules.Protect)
		if !ok {
			return
		}
		most, known := c.largest(i, LineCore)
		held := known && most < from && !c.slower(ahead, d)
		if c.Wants(held, s.ID) {
			emit(c.bandFinding(i, ahead, d, from, src, held))
		}
		return
	}
	ratio := c.Rules.Limits.FuseRatio
	if d.Kind == network.Breaker || d.Kind == network.RCBO || ratio.Value <= 0 {
		return // a breaker behind a fuse: a matter of let-through, which only makers give
	}
	held := within(ratio.Value*float64(d.Rating), float64(ahead.Rating))
	if !c.Wants(held, s.ID) {
		return
	}
	var w lines
	w.add("In ahead ≥ %s · In behind", num(ratio.Value, 2))
	w.add("%s of %s ahead of %s of %s: %s times", ahead.Label, ahead.Rating, d.Label, d.Rating, num(float64(ahead.Rating)/float64(d.Rating), 2))
	f := finding.Finding{Code: "SEL-01", Level: level(held, finding.Note), Subject: s, Source: ratio.Source,
		Figure: num(float64(ahead.Rating)/float64(d.Rating), 2), Limit: "at least " + num(ratio.Value, 2), Working: w.String(),
		Text: ahead.Label + " is " + num(float64(ahead.Rating)/float64(d.Rating), 2) + " times " + d.Label + " behind it"}
	if !held {
		f.Text += ": either may open for a fault behind both"
		f.Remedies = []finding.Remedy{{Text: "use a smaller link at " + s.Label}}
	}
	emit(f)
}

// slower reports whether the device behind may carry an overload for longer
// than the one ahead: it opens only above what the other still holds.
func (c *Context) slower(ahead, d *network.Device) bool {
	holds, _, _, ok := protect.LongRun(*ahead, &c.Rules.Protect)
	_, opens, _, too := protect.LongRun(*d, &c.Rules.Protect)
	return ok && too && opens > holds
}

func (c *Context) bandFinding(i int, ahead, d *network.Device, from q.Ampere, src finding.Source, held bool) finding.Finding {
	t, s := &c.Rules.Protect, c.subject(i)
	most, known := c.largest(i, LineCore)
	f := finding.Finding{Code: "SEL-01", Level: level(held, finding.Note), Subject: s, Source: selectSource,
		Limit: "below " + from.String()}
	var w lines
	w.add("lower end of the instantaneous band of %s: %s (%s)", ahead.Label, from, src)
	if _, longest, lsrc, ok := protect.Limits(*d, from, t); ok && longest > 0 {
		w.add("at that current %s may take up to %s (%s)", d.Label, longest, lsrc)
	}
	if holds, _, _, ok := protect.LongRun(*ahead, t); ok {
		if _, opens, _, ok := protect.LongRun(*d, t); ok {
			w.add("overload: %s opens from %s, %s holds up to %s", d.Label, opens, ahead.Label, holds)
		}
	}
	switch {
	case !known:
		f.Text = "for a fault behind " + d.Label + " of " + from.String() + " or more, " + ahead.Label + " may open with it or instead"
		w.add("the prospective fault current at %s is not known", s.Label)
	case held:
		f.Figure = faultAmps(most)
		f.Text = "behind " + d.Label + " no fault reaches " + from.String() + ", so it opens before " + ahead.Label
		w.add("largest fault current there: %s", faultAmps(most))
	case most < from:
		f.Figure = faultAmps(most)
		f.Text = "no fault behind " + d.Label + " reaches the " + from.String() + " of " + ahead.Label
		w.add("largest fault current there: %s", faultAmps(most))
	default:
		f.Figure = from.String() + " to " + faultAmps(most)
		f.Text = "for faults of " + f.Figure + " behind " + d.Label + ", " + ahead.Label + " may open with it or instead"
		w.add("largest fault current there, cold: %s", faultAmps(most))
		if few, all := c.belowBand(d, from); few > 0 {
			w.add("at %d of the %d points behind it even the largest current stays below: there %s opens alone", few, all, d.Label)
		}
	}
	if c.slower(ahead, d) {
		f.Text += "; on overload " + ahead.Label + " opens first"
	}
	f.Working = w.String()
	if !held {
		f.Remedies = []finding.Remedy{{Text: "write at " + d.Label + " that " + ahead.Label + " may have opened too; a smaller link or a breaker of a higher band ahead narrows it"}}
	}
	return f
}

// belowBand counts the points whose nearest device is d and whose largest fault
// current stays below a limit, and all points behind it.
func (c *Context) belowBand(d *network.Device, from q.Ampere) (few, all int) {
	for i := range c.Net.Nodes {
		if c.Tree.Parent[i] < 0 || c.Zone(i).Over != d {
			continue
		}
		all++
		if most, known := c.largest(i, LineCore); known && most < from {
			few++
		}
	}
	return few, all
}
