package layout

import (
	"duskwire/calc/finding"
	"duskwire/calc/judge"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// points asks continuity, polarity and loop at every point of the mains.
func (b *asking) points() {
	sup := &b.net.Supply
	share := b.rules.Protect.Cold
	for i := range b.net.Nodes {
		n, p := &b.net.Nodes[i], b.point(i)
		if p == nil || n.ID == "" || !p.Loop.Applies {
			continue
		}
		l := &p.Loop
		line, _ := p.LoopLine(share, sup.Earthing)
		atSupply := n.Kind == network.SupplyNode
		if !atSupply {
			c := judge.Continuity{Cold: l.R1R2Cold, Armour: l.R1R2Armour, Joints: b.joints[i], Source: b.rules.Protect.ColdSource, Beside: b.beside[i]}
			if l.Broken >= 0 {
				c.Gap = "no protective conductor"
				if l.Gap != "" {
					c.Gap = l.Gap
				}
			}
			if line.Known && l.Known && sup.Earthing != network.TT {
				c.Line, c.Most = line.Value, q.Some(max(0, line.Value-l.StartCold))
			}
			b.before(i, &c)
			b.put(n.ID, n.Label, partOf(n), judge.R1R2, partOf(n), c)
		}
		switch n.Kind {
		case network.SupplyNode, network.LampNode, network.PrimaryNode, network.GearNode:
			b.put(n.ID, n.Label, partOf(n), judge.Polarity, partOf(n), judge.PolarityAt{Before: b.reversedBefore(i)})
		}
		z := judge.Loop{Cold: l.Cold, Steel: l.StartArmour + l.R1R2Armour, Joints: b.joints[i], Line: line, Device: p.Device,
			Source: b.rules.Protect.ColdSource, TT: sup.Earthing == network.TT, AtSupply: atSupply}
		if !l.Known {
			z.Missing = l.Missing
		}
		switch {
		case l.Measured:
			z.Fixed = l.StartCold
		case z.TT:
			z.Fixed = sup.Electrode.Value
			z.Source = b.rules.Protect.TouchSource
		default:
			z.Fixed = sup.Ze.Value
		}
		if !atSupply {
			z.Beside = b.beside[i]
			z.Start, z.R1R2 = b.start(), b.readOhm(n.ID, judge.R1R2, partOf(n))
		}
		b.put(n.ID, n.Label, partOf(n), judge.Zs, partOf(n), z)
	}
}

// before fills in what was read at the nearest point before.
func (b *asking) before(i int, c *judge.Continuity) {
	n := b.net
	br, up := b.res.Tree.Parent[i], b.res.Tree.Up(n, i)
	if br < 0 || up <= n.Root {
		return
	}
	if x, y := b.point(i), b.point(up); n.Branches[br].Length > 0 && n.Nodes[i].System == n.Nodes[up].System {
		c.PerMetre = q.OhmPerMetre(float64(x.Loop.R1R2Cold-y.Loop.R1R2Cold) / float64(n.Branches[br].Length))
	}
	at := b.nearest(judge.R1R2)[i]
	if at < 0 {
		return
	}
	c.Before = judge.Before{Via: b.via(i, at), Off: q.Some(q.Ohm(0))}
	if node := &n.Nodes[at]; node.Kind != network.SupplyNode {
		l := &b.point(at).Loop
		ask := judge.Continuity{Cold: l.R1R2Cold, Armour: l.R1R2Armour}
		day := b.out.days[b.taken[b.asked(node, judge.R1R2)].Visit]
		c.Before.Label = node.Label
		c.Before.Off = q.Some(b.readOhm(node.ID, judge.R1R2, partOf(node)).Value - ask.At(day))
	}
}

// nearest returns for every node the nearest one before it in its system where a
// test was read, -1 for none; of R1+R2 the supply point counts as read, it is where
// the leads are joined.
func (b *asking) nearest(t judge.Test) []int {
	if got := b.near[t]; got != nil {
		return got
	}
	out := make([]int, len(b.net.Nodes))
	for i := range out {
		out[i] = -1
	}
	for _, i := range b.res.Tree.Order {
		up := b.res.Tree.Up(b.net, i)
		if up <= b.net.Root || b.net.Nodes[up].System != b.net.Nodes[i].System {
			continue
		}
		node := &b.net.Nodes[up]
		out[i] = out[up]
		if t == judge.R1R2 && node.Kind == network.SupplyNode || b.plainly(b.asked(node, t)) {
			out[i] = up
		}
	}
	if b.near == nil {
		b.near = map[judge.Test][]int{}
	}
	b.near[t] = out
	return out
}

// plainly reports whether something was read as a plain figure or word: what is
// over a range gives nothing to compare with.
func (b *asking) plainly(a doc.Asked) bool {
	if len(b.taken) == 0 {
		return false
	}
	r := b.taken[a].Reading
	return r != nil && r.Value.Bound == judge.Exact
}

// via names the run between a node and one before it.
func (b *asking) via(i, before int) string {
	label := b.net.Branches[b.res.Tree.Parent[i]].Label
	if b.res.Tree.Up(b.net, i) != before {
		label += " or a run before it"
	}
	return label
}

// reversedBefore names the nearest point before that was tested, if line and
// neutral were found reversed there as well.
func (b *asking) reversedBefore(i int) string {
	at := b.nearest(judge.Polarity)[i]
	if at < 0 || b.taken[b.asked(&b.net.Nodes[at], judge.Polarity)].Value.Word != judge.Polarity.Words()[1] {
		return ""
	}
	return b.net.Nodes[at].Label
}

// start is the loop that was read at the supply point, else that at the board
// where the cable between is known to add nothing worth counting.
func (b *asking) start() q.Maybe[q.Ohm] {
	if z := b.readOhm(b.supplyID(), judge.Zs, ""); z.Known {
		return z
	}
	ze := b.readOhm(b.supplyID(), judge.Ze, "")
	if p := b.point(1); ze.Known && p != nil && p.Loop.Known && !p.Loop.Measured && b.net.Supply.Ze.Known {
		ze.Value += p.Loop.StartCold - b.net.Supply.Ze.Value // the leg indoors
		return ze
	}
	return q.Maybe[q.Ohm]{}
}

func (b *asking) supplyID() string { return string(b.f.Circuits.Circuits[b.circuit].Supply) }

// armours asks the armour of every run that has one of its own.
func (b *asking) armours() {
	for k := range b.net.Branches {
		br := &b.net.Branches[k]
		if br.ID == "" || br.Converter != nil || br.Strip != nil || !br.Armoured() || br.FromEnd.Shared {
			continue
		}
		at := judge.ArmourEnd{At20: q.Ohm(float64(br.Cable.ArmourR20) * float64(br.Length)),
			From: b.net.Nodes[br.From].Label, To: b.net.Nodes[br.To].Label}
		b.put(br.ID, br.Label, at.From+" to "+at.To, judge.Armour, "", at)
	}
}

// table64 is where the limits of insulation stand.
var table64 = finding.Source{Standard: "BS 7671:2018", Clause: "Table 64", Evidence: finding.Found}

// insulations asks the insulation of the circuit and of what each source feeds.
func (b *asking) insulations() {
	id := b.supplyID()
	label := b.net.Label
	read := func(on string, t judge.Test) (m q.Maybe[q.Ohm]) {
		tk := b.taken[b.askedOf(on, t)]
		if tk.Reading == nil {
			return m
		}
		if tk.Value.Bound == judge.Open {
			return q.Some(q.Ohm(1e12))
		}
		return q.Some(q.Ohm(tk.Value.SI))
	}
	base := judge.Insulation{At: 500, Least: 1e6, Source: table64, Connected: Electronics(b.net, 0), Halfway: b.halfway(0),
		LiveReads: read(id, judge.InsulationLive), EarthReads: read(id, judge.InsulationEarth), LowReads: read(id, judge.InsulationLow)}
	live, earth, low := base, base, base
	live.Live, live.Between = true, "L and N"
	earth.Between = "L and N together and earth"
	low.Low, low.Between, low.At = true, earth.Between, 250
	low.Source = finding.Source{Standard: "BS 7671:2018", Clause: "643.3.2", Evidence: finding.Memory}
	b.put(id, label, "500 V", judge.InsulationLive, "", live)
	b.put(id, label, "500 V", judge.InsulationEarth, "", earth)
	b.put(id, label, "250 V, electronics left in", judge.InsulationLow, "", low)
	for s := 1; s < len(b.net.Systems); s++ {
		sys, src := &b.net.Systems[s], b.sourceOf(s)
		if src == nil || float64(sys.Nominal) > b.extraLow() {
			continue
		}
		out := judge.Insulation{At: 250, Least: 0.5e6, Source: table64, Connected: Electronics(b.net, s), Halfway: b.halfway(s), Between: "both cores and earth"}
		b.put(src.ID, src.Label, "250 V", judge.InsulationEarth, "", out)
		if sys.SELV {
			out.At, out.Least, out.Between, out.Connected, out.Halfway = 500, 1e6, "its cores and the mains", "", ""
			b.put(src.ID, src.Label, "500 V", judge.InsulationMains, "", out)
		}
	}
}

// extraLow is the highest nominal voltage that counts as extra-low: the rule
// set's, else the a.c. limit of BS 7671 Part 2 (from memory).
func (b *asking) extraLow() float64 {
	if v := b.rules.Site.ExtraLow.Value; v > 0 {
		return v
	}
	return 50
}

// sourceOf is the output node that feeds a system; nil for none.
func (b *asking) sourceOf(system int) *network.Node {
	if b.sources == nil {
		b.sources = make([]*network.Node, len(b.net.Systems))
		for i := range b.net.Nodes {
			if n := &b.net.Nodes[i]; n.Kind == network.SecondaryNode && n.ID != "" {
				b.sources[n.System] = n
			}
		}
	}
	return b.sources[system]
}

// halfway names the box, else the lamp, in the middle of a system: where one takes
// it apart to find a fault.
func (b *asking) halfway(system int) string {
	for _, kind := range []network.NodeKind{network.BoxNode, network.LampNode} {
		var labels []string
		for _, i := range b.res.Tree.Order {
			if n := &b.net.Nodes[i]; n.System == system && n.Kind == kind && !n.Tail {
				labels = append(labels, n.Label)
			}
		}
		if len(labels) > 1 {
			return labels[len(labels)/2]
		}
	}
	return ""
}
