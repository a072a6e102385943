package check

import (
	"math"

	"duskwire/calc/cable"
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// Consumer reports whether a node uses current: a lamp, or the input of a
// source.
func Consumer(n *network.Node) bool {
	return (n.Kind == network.LampNode && len(n.Loads) > 0) || n.Kind == network.PrimaryNode
}

// DropLimit returns the largest volt drop allowed at a node, as a fraction of
// its nominal voltage. On the mains it is the lighting limit over the whole
// path, plus the long-run allowance beyond 100 m; behind a source the
// extra-low-voltage limit from the source to the lamp; none, 0, within a string
// of constant current, where the drop counts towards the volts of the driver
// (SRC-04). Source: BS 7671 Appendix 4, 6.4 and its note; section 715.
func (c *Context) DropLimit(node int) (float64, finding.Source) {
	l := &c.Rules.Limits
	if c.Driven(node) {
		return 0, finding.Source{}
	}
	if c.Net.Nodes[node].System != 0 {
		return l.ExtraLowDrop.Value, l.ExtraLowDrop.Source
	}
	return l.LightingDrop.Value + c.longRun(node), l.LightingDrop.Source
}

// longRun is the allowance for a path beyond 100 m, as a fraction.
func (c *Context) longRun(node int) float64 {
	c.prepare()
	l := &c.Rules.Limits
	over := float64(c.plan.path[node]) - l.LongRunFrom.Value
	if over <= 0 || l.LongRunPer.Value <= 0 {
		return 0
	}
	return math.Min(over*l.LongRunPer.Value, l.LongRunMost.Value)
}

// dropFindings reports the worst consumer of each system that exceeds its drop
// limit; of the mains or of the others.
func dropFindings(c *Context, mains bool, build func(i int) finding.Finding, emit func(finding.Finding)) {
	if !c.Trusted() {
		return
	}
	nodeFindings(c, emit, func(i int) int { return c.Net.Nodes[i].System },
		func(i int) (float64, bool, bool) {
			n := &c.Net.Nodes[i]
			if (n.System == 0) != mains || c.Tree.Parent[i] < 0 || c.nominal(i) <= 0 {
				return 0, false, false
			}
			if !Consumer(n) {
				return 0, true, c.Explain != "" && !c.Driven(i)
			}
			limit, _ := c.DropLimit(i)
			if limit <= 0 {
				return 0, false, false
			}
			ratio := float64(c.Drop(i)) / float64(c.nominal(i))
			return ratio / limit, within(ratio, limit), true
		}, build)
	if c.Explain != "" {
		runDrop(c, mains, build, emit)
	}
}

// dropFinding is the statement about the drop at one node.
func dropFinding(c *Context, i int, code finding.Code, lv finding.Level) finding.Finding {
	limit, src := c.DropLimit(i)
	un, drop, s := c.nominal(i), c.Drop(i), c.subject(i)
	ratio := float64(drop) / float64(un)
	held := within(ratio, limit) || !Consumer(&c.Net.Nodes[i])
	f := finding.Finding{Code: code, Level: level(held, lv), Subject: s, Source: src,
		Figure: q.Percent(ratio), Limit: q.Percent(limit)}
	w := dropWorking(c, i)
	w.add("%s / %s = %s", drop, un, q.Percent(ratio))
	if long := c.longRun(i); long > 0 && c.Net.Nodes[i].System == 0 {
		l := &c.Rules.Limits
		w.add("path %s: limit %s + %s × %s per metre (at most %s) = %s", c.plan.path[i], q.Percent(l.LightingDrop.Value),
			q.Metre(float64(c.plan.path[i])-l.LongRunFrom.Value), num(l.LongRunPer.Value*100, 4)+" %", q.Percent(l.LongRunMost.Value), q.Percent(limit))
	}
	w.add("limit %s of %s = %s: %s", q.Percent(limit), un, q.Volt(limit*float64(un)), meets(within(ratio, limit)))
	f.Working = w.String()
	f.Text = s.Label + " loses " + drop.String() + " of " + un.String() + " (" + q.Percent(ratio) + ")"
	f.Assumed = c.dropAssumed(i)
	if !held {
		need := drop - q.Volt(limit*float64(un))
		f.Remedies = dropRemedies(c, i, need, func(saved q.Volt) string {
			return q.Percent(float64(drop-saved)/float64(un)) + " at " + s.Label
		})
	}
	return f
}

// dropAssumed says what the drop at a mains node leaves out.
func (c *Context) dropAssumed(i int) []string {
	s := &c.Net.Supply
	if c.Net.Nodes[i].System != 0 || s.Kind != network.Spur || s.ExistingLoad.Known {
		return nil
	}
	return []string{"the other load on the existing circuit is not known and was taken as none"}
}

// dropWorking writes the drop leg by leg from the start of the system.
func dropWorking(c *Context, i int) lines {
	var w lines
	start, u0 := "the board", float64(c.Volts(c.Net.Root))
	trail := c.trail(i)
	if c.Net.Nodes[i].System != 0 {
		head := i
		if len(trail) > 0 {
			head = c.Near(trail[0])
		}
		start, u0 = "the output of "+c.subject(head).Label, float64(c.Volts(head))
	}
	w.add("drop = Σ mΩ/m × A × m, cable by cable from %s", start)
	const most = 40
	var sum, rest float64
	for k, b := range trail {
		br := &c.Net.Branches[b]
		r := c.PerMetre(b)
		a := float64(c.Flow(b))
		v := c.fall(b)
		sum += v
		if k >= most {
			rest += v
			continue
		}
		name := "no cable given"
		switch {
		case br.Cable != nil:
			name = br.Cable.Name
		case br.Strip != nil:
			name = "its own tracks"
		}
		back := ""
		if v < 0 {
			back = ", the current of the ring coming the other way"
		}
		w.add("%s (%s): %s × %s × %s = %s V%s", c.runSubject(b).Label, name, num(r*1e3, 2), num(a, 3), num(float64(br.Length), 2), num(v, 3), back)
	}
	if len(trail) > most {
		w.add("and %d more cables: %s V", len(trail)-most, num(rest, 3))
	}
	w.add("sum %s V; voltage there %s - %s = %s", num(sum, 3), num(u0, 3), num(sum, 3), c.Volts(i))
	if most := c.phasor(i); float64(most-c.Volts(i)) > 0.005 {
		w.add("worst power factor assumed; with the phase of the currents a meter may read up to %s", most)
	}
	return w
}

// PerMetre is the volt drop of a branch in V/(A·m), 0 where no cable is known.
// Of a strip it is what stands for its own tracks, see network.Strip.
func (c *Context) PerMetre(b int) float64 {
	cb := c.Net.Branches[b].Cable
	if s := c.Net.Branches[b].Strip; s != nil && s.Length > 0 {
		return float64(s.Impedance()) / float64(s.Length)
	}
	if cb == nil {
		return 0
	}
	return float64(cable.LoopPerMetre(cb, c.Net.Site))
}

// saving is the drop that another cable on a branch would take away, at the
// present currents. Constant-power lamps draw less when their volts rise, so
// the true saving is a little more.
func (c *Context) saving(b int, cb *network.Cable) q.Volt {
	per := c.PerMetre(b) - float64(cable.LoopPerMetre(cb, c.Net.Site))
	return q.Volt(per * float64(c.Flow(b)) * float64(c.Net.Branches[b].Length))
}

// dropRemedies offers, nearest the supply first, at most three runs where one
// larger cable saves enough; failing that one size for the whole path.
func dropRemedies(c *Context, i int, need q.Volt, figure func(saved q.Volt) string) []finding.Remedy {
	var out []finding.Remedy
	if c.rises(c.Net.Nodes[i].System) {
		return []finding.Remedy{
			{Text: "use thicker cable; lamps here draw more when their volts rise, so what it would read follows only when it is tried", Tried: true},
			{Text: "put the source nearer the middle of its lamps, feed them in a star, or use a higher voltage", Tried: true},
		}
	}
	trail := c.trail(i)
	for _, b := range trail {
		br := &c.Net.Branches[b]
		if !c.Ours(b) || len(out) == 3 || c.InRing(b) {
			continue // in a ring the current moves with the cable
		}
		for _, cb := range cable.Family(br.Cable, c.Catalog) {
			if s := c.saving(b, cb); cb.Size > br.Cable.Size && s >= need {
				out = append(out, swap(br, cb, figure(s)))
				break
			}
		}
	}
	if len(out) > 0 {
		return out
	}
	size, saved := c.wholePath(trail, need)
	switch label := c.subject(i).Label; {
	case size > 0 && saved >= need:
		out = append(out, finding.Remedy{Text: "use " + size.String() + " for every run to " + label, Figure: figure(saved)})
	case size > 0:
		out = append(out, finding.Remedy{Text: "thicker cable alone is not enough: with " + size.String() + " for every run to " + label + " it is still over", Figure: figure(saved)})
	}
	if s := c.plan.supply; c.Net.Nodes[i].System == 0 && size > 0 && saved < need && s >= 0 && c.Net.Supply.Kind == network.Spur {
		out = append(out, finding.Remedy{Text: "take the garden from a way of its own: up to " + c.subject(s).Label + " the existing circuit already loses " + c.Drop(s).String()})
	}
	if c.Net.Nodes[i].System != 0 {
		out = append(out, finding.Remedy{Text: "put the source nearer the middle of its lamps, feed them in a star, or use a higher voltage", Tried: true})
	}
	return out
}

// rises reports whether the current of some load of a system behind a source
// rises with the volts, as that of filament lamps and plain strips does: the
// saving at the present currents then promises too much.
func (c *Context) rises(system int) bool {
	if system == 0 {
		return false
	}
	for i := range c.Net.Nodes {
		n := &c.Net.Nodes[i]
		if n.System != system {
			continue
		}
		for k := range n.Loads {
			if n.Loads[k].Steepness(float64(c.Volts(i))) > 0 {
				return true
			}
		}
	}
	return false
}

// wholePath returns the smallest size that, given to every run of the path,
// saves enough; when none does, the largest. Size 0 means nothing is larger.
func (c *Context) wholePath(trail []int, need q.Volt) (q.SquareMetre, q.Volt) {
	var size q.SquareMetre
	var saved q.Volt
	for _, step := range c.Catalog {
		var sum q.Volt
		gain := false
		for _, b := range trail {
			br := &c.Net.Branches[b]
			if !c.Ours(b) || br.Cable.Size >= step.Size {
				continue
			}
			for _, cb := range c.Catalog {
				if cb.Family == br.Cable.Family && cb.Size == step.Size {
					sum += c.saving(b, cb)
					gain = true
					break
				}
			}
		}
		better := size == 0 || (saved < need && sum > saved) || (sum >= need && step.Size < size)
		if gain && better {
			size, saved = step.Size, sum
		}
	}
	return size, saved
}

// runDrop explains a run: its own share of the drop.
func runDrop(c *Context, mains bool, build func(i int) finding.Finding, emit func(finding.Finding)) {
	for b := range c.Net.Branches {
		br := &c.Net.Branches[b]
		far := c.Far(b)
		if br.ID == "" || !c.Asked(br.ID) || far < 0 || br.Converter != nil || (c.Net.Nodes[far].System == 0) != mains || c.Driven(far) {
			continue
		}
		f := build(far)
		r, a := c.PerMetre(b), float64(c.Flow(b))
		v := r * a * float64(br.Length)
		var w lines
		w.add("drop in this run = mΩ/m × A × m")
		w.add("%s × %s × %s = %s V", num(r*1e3, 2), num(a, 3), num(float64(br.Length), 2), num(v, 3))
		w.add("and over the whole path to its far end:")
		f.Working = w.String() + "\n" + f.Working
		f.Level, f.Subject, f.Remedies = finding.Held, finding.Subject{ID: br.ID, Label: br.Label}, nil
		f.Text = br.Label + " takes " + q.Volt(v).String() + " of the drop"
		emit(f)
	}
}
