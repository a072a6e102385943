package derive

import (
	"fmt"
	"sync"

	"duskwire/calc"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// build makes the net of one walk: node 0 is the board, branch 0 the indoor
// leg to the supply point, then one node and one branch for every further
// step, in the order met, and last a branch for every run that closes a ring.
//
// old is the circuit of the scheme before, nil for none: a circuit of the same
// shape has the same maps.
func (d *deriver) build(sp *doc.Supply, w *walk, old *Circuit) *Circuit {
	n := &network.Net{Label: sp.Tag, Supply: supplyOf(sp)}
	n.Site, n.Assumed = d.siteOf()
	c := &Circuit{
		Supply: sp.ID, walk: w,
		Input: calc.Input{Net: n, Rules: d.rules, Catalog: d.stock.Cables, Country: d.scheme.Country},
	}
	var placed sync.WaitGroup
	if old != nil && w.shaped(old.walk) {
		c.Node, c.Output, c.Branch = old.Node, old.Output, old.Branch
	} else {
		placed.Go(func() { c.place(w) }) // nothing asks for it until the net stands
	}
	n.Systems = []network.System{{Label: fmt.Sprintf("%v mains", sp.Nominal), Nominal: sp.Nominal, Current: network.AC}}
	n.Nodes = make([]network.Node, len(w.steps)+1)
	n.Branches = make([]network.Branch, len(w.steps), len(w.steps)+len(w.rings))
	n.Nodes[0] = network.Node{Label: "board", Kind: network.BoardNode, Devices: d.devices(sp.Residual, sp.Upstream)}
	for i := range w.steps {
		n.Nodes[i+1].System = d.systemOf(n, w, i)
	}
	inParts(len(w.steps), func(from, to int) {
		for i := from; i < to; i++ {
			d.addStep(n, w, i)
		}
	})
	for _, x := range w.rings {
		b := network.Branch{From: x.from + 1, To: x.to + 1}
		d.cabled(&b, x.run, x.length, x.way)
		d.finish(&b, x.run, w.steps[x.from].entity)
		n.Branches = append(n.Branches, b)
	}
	d.circuitFaults(n, w)
	doubt(n, w)
	placed.Wait()
	n.Zones = lampZones(c, w)
	return c
}

// place fills the maps of the circuit: step i is node i+1 and branch i, and the
// runs that close a ring come last.
func (c *Circuit) place(w *walk) {
	c.Node = make(map[doc.ID]int, len(w.steps))
	c.Output = map[doc.ID]int{}
	c.Branch = make(map[doc.ID]int, len(w.steps))
	for i := range w.steps {
		st := &w.steps[i]
		if st.entity != nil && st.output {
			c.Output[st.entity.Key()] = i + 1
		} else if st.entity != nil {
			c.Node[st.entity.Key()] = i + 1
		}
		if st.run != nil {
			c.Branch[st.run.ID] = i
		}
	}
	for k, x := range w.rings {
		c.Branch[x.run.ID] = len(w.steps) + k
	}
}

// systemOf returns the voltage system of the node of step i: that of the node
// ahead, or behind a source a new one.
func (d *deriver) systemOf(n *network.Net, w *walk, i int) int {
	st := &w.steps[i]
	switch {
	case st.from < 0:
		return 0
	case st.run != nil || st.strip:
		return n.Nodes[st.from+1].System
	}
	conv := d.converter(st)
	n.Systems = append(n.Systems, network.System{
		Label:   st.entity.Label() + " " + outputWords(conv),
		Nominal: conv.Nominal, Current: conv.Current, SELV: conv.SELV, Drive: conv.Drive,
	})
	return len(n.Systems) - 1
}

// converter returns the source of a step.
func (d *deriver) converter(st *step) network.Converter {
	item, _ := d.stock.Converter(st.entity.(*doc.Source).Stock)
	return item.Converter
}

// addStep fills in the node of step i, which is node i+1, and the branch that
// feeds it. The systems are known already; nothing else is asked of other steps.
func (d *deriver) addStep(n *network.Net, w *walk, i int) {
	st := &w.steps[i]
	node, br := &n.Nodes[i+1], &n.Branches[i]
	node.Kind, node.Label = network.OpenNode, "open end"
	br.From, br.To = st.from+1, i+1
	if st.entity != nil {
		node.ID, node.Label = string(st.entity.Key()), st.entity.Label()
	}
	switch {
	case st.from < 0:
		*br = d.indoor(st.entity.(*doc.Supply))
		br.To = 1
	case st.run == nil && st.strip:
		strip := d.strip(st.entity.(*doc.Lamp))
		br.ID, br.Label, br.Strip, br.Length = node.ID, node.Label, &strip, strip.Length
	case st.run == nil:
		conv := d.converter(st)
		br.ID, br.Label, br.Converter = node.ID, node.Label, &conv
	default:
		d.cabled(br, st.run, st.length, st.way)
		d.finish(br, st.run, w.steps[st.from].entity)
	}
	d.describe(n, node, st)
	if p, ok := doc.PlaceOf(st.entity); ok {
		node.Height = q.Metre(p.Height.Metres())
	}
	d.equipment(node, st)
	d.supplied(node, st)
}

// cabled fills in the branch of a run.
func (d *deriver) cabled(b *network.Branch, r *doc.Run, m *measured, way *network.Route) {
	b.ID, b.Label, b.Legs, b.Length = string(r.ID), r.Tag, m.Legs, m.Length.Needed
	b.Cable, _ = d.cable(r.Cable)
	b.Route, b.Slack = way, m.Length.Slack
	for _, other := range d.sharing(r) {
		b.Sheath = append(b.Sheath, subject(other))
	}
}

// load returns what a lamp draws; a strip cut to length draws its share.
func (d *deriver) load(e *doc.Lamp) network.Load {
	item, _ := d.lampItem(e.Stock)
	l := item.Load
	if item.Length > 0 && e.Length.Known {
		l.Power *= q.Watt(e.Length.Value / item.Length)
	}
	return l
}

// strip returns a lamp as a strip.
func (d *deriver) strip(e *doc.Lamp) network.Strip {
	item, _ := d.lampItem(e.Stock)
	return network.Strip{Load: d.load(e), Length: e.Length.Or(item.Length), Tracks: item.Tracks}
}

// describe fills in what stands at a node.
func (d *deriver) describe(n *network.Net, node *network.Node, st *step) {
	switch e := st.entity.(type) {
	case *doc.Supply:
		node.Kind, node.Devices = network.SupplyNode, d.devices(e.Fuse)
	case *doc.Box:
		node.Kind, node.Box = network.BoxNode, d.box(e)
	case *doc.Gear:
		node.Kind = network.GearNode
		if item, ok := d.stock.GearItem(e.Stock); ok {
			node.Devices = d.devices(item.Devices...)
		}
	case *doc.Source:
		node.Kind = network.PrimaryNode
		if st.output {
			node.Kind = network.SecondaryNode
		}
		if item, ok := d.stock.Converter(e.Stock); ok {
			node.Class = item.Class
		}
	case *doc.Lamp:
		node.Kind = network.LampNode
		item, ok := d.lampItem(e.Stock)
		node.Class = item.Class
		switch {
		case !ok || astray(item.LampStock, n.Systems[node.System]) || misfit(item.LampStock, n.Systems[node.System]) != "":
		case st.strip:
			node.Loads = []network.Load{d.strip(e).End()}
			if node.Tail = st.output; node.Tail {
				node.Label += " far end"
			}
		default:
			node.Loads = []network.Load{d.load(e)}
		}
	}
}

// outputWords names the output of a source: "12 V DC", "350 mA DC".
func outputWords(c network.Converter) string {
	if c.Drive > 0 {
		return fmt.Sprintf("%v %v", c.Drive, c.Current)
	}
	return fmt.Sprintf("%v %v", c.Nominal, c.Current)
}

// astray reports whether a lamp made for constant current hangs on volts, or one
// made for volts on a constant-current source: SRC-06 says so.
func astray(item *doc.LampStock, s network.System) bool {
	return (item.Load.Drive > 0) != (s.Drive > 0)
}

// misfit says why a fitting does not belong on a system, or "".
func misfit(item *doc.LampStock, s network.System) string {
	if item.Load.Drive > 0 && s.Drive > 0 {
		return "" // the lamp sets the volts; SRC-05 compares the currents
	}
	if item.Load.Nominal != s.Nominal {
		return fmt.Sprintf("%v lamp on a %v system", item.Load.Nominal, s.Nominal)
	}
	if !item.AnyCurrent && item.Current != s.Current {
		return fmt.Sprintf("%v lamp on a %v system", item.Current, s.Current)
	}
	return ""
}

// devices looks up protective devices by stock key; "" is none.
func (d *deriver) devices(keys ...string) []network.Device {
	var out []network.Device
	for _, k := range keys {
		if item, ok := d.stock.Device(k); ok {
			out = append(out, item.Device)
		}
	}
	return out
}

func supplyOf(sp *doc.Supply) network.Supply {
	kind := network.OwnWay
	if sp.Spur {
		kind = network.Spur
	}
	return network.Supply{
		Nominal: sp.Nominal, Earthing: sp.Earthing, Kind: kind, Ze: sp.Ze, Electrode: sp.Electrode,
		MeasuredZs: sp.MeasuredZs, FaultCurrent: sp.FaultCurrent, ExistingLoad: sp.ExistingLoad,
		LeakageAmpere: sp.Leakage, OtherCircuits: sp.OtherCircuits, Shares: sp.Shares, Switched: sp.Switched,
	}
}

// indoor returns the leg from the board to the supply point. Its cable is nil
// when the survey does not know it.
func (d *deriver) indoor(sp *doc.Supply) network.Branch {
	b := network.Branch{Label: "indoor leg of " + sp.Tag, Existing: sp.Spur}
	cable, ok := d.cable(sp.Indoor.Cable)
	if !ok || !sp.Indoor.Length.Known {
		return b
	}
	b.Cable, b.Length = cable, sp.Indoor.Length.Value
	b.Legs = []network.Leg{{Support: network.Indoors, Method: sp.Indoor.Method, Length: b.Length, Group: 1}}
	return b
}

// siteOf returns the conditions of the site and what had to be assumed.
func (d *deriver) siteOf() (network.Site, []string) {
	var assumed []string
	take := func(known bool, what string) {
		if !known {
			assumed = append(assumed, what)
		}
	}
	s := d.scheme.Survey
	take(s.Air.Known, "air temperature not surveyed: 30 °C taken, the reference of the rating tables")
	take(s.Ground.Known, "ground temperature not surveyed: 20 °C taken, the reference of the rating tables")
	take(s.Soil.Known, "soil resistivity not surveyed: 2.5 K·m/W taken, the reference of the rating tables")
	return network.Site{
		Air: s.Air.Or(q.Celsius(referenceAir)), Ground: s.Ground.Or(q.Celsius(referenceGround)),
		Soil: s.Soil.Or(referenceSoil), Conductor: s.Conductor, Test: s.Test.Or(q.Celsius(referenceTest)),
	}, assumed
}
