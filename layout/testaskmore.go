package layout

import (
	"duskwire/calc/finding"
	"duskwire/calc/judge"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

func (b *asking) askedOf(on string, t judge.Test) doc.Asked {
	return doc.Asked{On: doc.ID(on), Test: t}
}

func (b *asking) asked(n *network.Node, t judge.Test) doc.Asked {
	return doc.Asked{On: doc.ID(n.ID), Test: t, Part: partOf(n)}
}

// declared are the largest external loops that distributors usually declare.
// Source: from memory.
var declared = map[network.Earthing]q.Ohm{network.TNCS: 0.35, network.TNS: 0.80}

// supply asks what is read at the supply itself.
func (b *asking) supply() {
	sup, id, label := &b.net.Supply, b.supplyID(), b.net.Label
	if sup.Earthing == network.TT {
		b.put(id, label, "", judge.Electrode, "", judge.Outer{Surveyed: sup.Electrode, Electrode: true,
			Declared: b.rules.Protect.Electrode, Source: b.rules.Protect.ElectSource})
	} else {
		b.put(id, label, "", judge.Ze, "", judge.Outer{Surveyed: sup.Ze, Declared: declared[sup.Earthing],
			Source: finding.Source{Clause: "figures that distributors usually declare", Evidence: finding.Memory}})
	}
	f := judge.Fault{Surveyed: sup.FaultCurrent}
	devices := b.net.Nodes[b.net.Root].Devices
	for i := range devices {
		if d := &devices[i]; d.Overcurrent() && d.Breaking > 0 && (f.Breaking == 0 || d.Breaking < f.Breaking) {
			f.Breaking, f.Device = d.Breaking, d.Label
		}
	}
	b.put(id, label, "", judge.FaultCurrent, "", f)
	b.put(id, label, "", judge.Volts, "", judge.MainsVolts{Nominal: sup.Nominal})
	c := judge.Clamp{Source: b.rules.Limits.LeakageShare.Source}
	for i := range devices {
		if d := &devices[i]; d.ResidualPart() && b.rules.Limits.LeakageShare.Value > 0 {
			c.Most, c.Device = q.Some(q.Ampere(b.rules.Limits.LeakageShare.Value)*d.Residual), d.Label
		}
	}
	b.put(id, label, "", judge.Leakage, "", c)
}

// residuals asks the residual devices of the board and of the gear. One that
// several circuits hang on is asked at each.
func (b *asking) residuals() {
	if sp, ok := b.f.Scheme.Supplies.Get(doc.ID(b.supplyID())); ok {
		b.devices(string(sp.ID), b.net.Label, sp.Residual, sp.Upstream, sp.Fuse)
	}
	for i := range b.net.Nodes {
		n := &b.net.Nodes[i]
		if n.Kind != network.GearNode {
			continue
		}
		if g, ok := b.f.Scheme.Gear.Get(doc.ID(n.ID)); ok {
			if item, ok := b.f.Stock.GearItem(g.Stock); ok {
				b.devices(n.ID, n.Label, item.Devices...)
			}
		}
	}
}

func (b *asking) devices(on, label string, keys ...string) {
	leaks, known := b.read(b.supplyID(), judge.Leakage, "")
	for _, key := range keys {
		item, ok := b.f.Stock.Device(key)
		if !ok || !item.Device.ResidualPart() {
			continue
		}
		d := &item.Device
		for _, t := range []judge.Test{judge.RCDTime, judge.RCDHalf, judge.RCDCurrent, judge.RCDButton} {
			r := judge.Residual{Test: t, Rated: d.Residual, Delayed: d.Delayed}
			if known {
				r.Leaks = q.Some(q.Ampere(leaks))
			}
			b.put(on, label, d.Label, t, key, r)
		}
	}
}

// volts asks the volts at every point of extra-low voltage.
func (b *asking) volts() {
	for i := range b.net.Nodes {
		n, p := &b.net.Nodes[i], b.point(i)
		sys := &b.net.Systems[n.System]
		if p == nil || n.System == 0 || n.ID == "" || float64(sys.Nominal) > b.extraLow() {
			continue
		}
		l := judge.LampVolts{Expect: p.Expected, Through: p.Current, Output: n.Kind == network.SecondaryNode,
			Across: p.Drive > 0 && n.Kind == network.LampNode, DC: sys.Current == network.DC}
		if n.Kind == network.LampNode && p.Drive == 0 {
			l.Low, l.High = b.lampLimits(n)
		}
		if src := b.sourceOf(n.System); src != nil {
			l.Source = src.Label
		}
		if p.Drive == 0 && len(b.taken) > 0 {
			b.voltsBefore(i, &l)
		}
		of := partOf(n)
		if l.Output {
			of = "output"
		}
		b.put(n.ID, n.Label, of, judge.Volts, partOf(n), l)
	}
}

// lampLimits are what the maker of the lamp at a node allows.
func (b *asking) lampLimits(n *network.Node) (low, high q.Volt) {
	for _, l := range n.Loads {
		low = max(low, l.Lowest())
		if l.Maximum > 0 && (high == 0 || l.Maximum < high) {
			high = l.Maximum
		}
	}
	return low, high
}

// voltsBefore fills in what was read nearer the source, and at the source.
func (b *asking) voltsBefore(i int, l *judge.LampVolts) {
	at := b.nearest(judge.Volts)[i]
	if at < 0 {
		return
	}
	node := &b.net.Nodes[at]
	if v, ok := b.read(node.ID, judge.Volts, partOf(node)); ok {
		l.Before.Label, l.Before.Via = node.Label, b.via(i, at)
		l.Before.Read, l.Before.Expect = q.Some(q.Volt(v)), b.point(at).Expected
		if p := b.point(i); p.Trusted && b.res.Tree.Up(b.net, i) == at {
			l.Before.Flow = p.Current
		}
	}
	if src := b.sourceOf(b.net.Nodes[i].System); src != nil {
		if v, ok := b.read(src.ID, judge.Volts, ""); ok {
			if at := b.f.Circuits.Circuits[b.circuit].Output[doc.ID(src.ID)]; b.point(at).Expected.Known {
				l.Start = q.Some(q.Volt(v) - b.point(at).Expected.Value)
			}
		}
	}
}
