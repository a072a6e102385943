package derive

import (
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// zonesOf returns the zones that lamps of a walk belong to, in the order of the
// plan, and of each whether it has lamps elsewhere too.
func (d *deriver) zonesOf(w *walk) (zones []*doc.Zone, apart []bool) {
	used := map[doc.ID]int{}
	for i := range w.steps {
		st := &w.steps[i]
		if l, ok := st.entity.(*doc.Lamp); ok && l.Zone != "" && !(st.strip && st.run == nil) {
			used[l.Zone]++
		}
	}
	if len(used) == 0 {
		return nil, nil
	}
	if d.zoned == nil {
		d.zoned = map[doc.ID]int{}
		for _, l := range d.scheme.Lamps.All() {
			d.zoned[l.Zone]++
		}
	}
	for _, z := range d.scheme.Zones.All() {
		if n := used[z.ID]; n > 0 {
			zones, apart = append(zones, z), append(apart, d.zoned[z.ID] > n)
		}
	}
	return zones, apart
}

// lampZones turns them into what the circuit knows: nodes in place of ids.
func lampZones(c *Circuit, w *walk) []network.LampZone {
	if len(w.zones) == 0 {
		return nil
	}
	out := make([]network.LampZone, len(w.zones))
	at := make(map[doc.ID]int, len(w.zones))
	for k, z := range w.zones {
		out[k] = network.LampZone{ID: string(z.ID), Label: z.Tag, Name: z.Name, Named: z.Control != "", Control: -1, Dimmed: z.Dimmed, Apart: w.apart[k]}
		if i, ok := c.Node[z.Control]; ok && z.Control != "" {
			out[k].Control = i
		}
		at[z.ID] = k
	}
	for i := range w.steps {
		l, ok := w.steps[i].entity.(*doc.Lamp)
		if k, in := at[zoneOf(l)]; ok && in && !c.Input.Net.Nodes[i+1].Tail {
			out[k].Lamps = append(out[k].Lamps, i+1)
		}
	}
	return out
}

func zoneOf(l *doc.Lamp) doc.ID {
	if l == nil {
		return ""
	}
	return l.Zone
}

// fitting returns what the supply has to know of a source; sources of one stock
// item share it.
func (d *deriver) fitting(key string, item doc.SourceStock) *network.Fitting {
	d.fit.Lock()
	defer d.fit.Unlock()
	if f := d.fittings[key]; f != nil {
		return f
	}
	f := sourceFitting(item)
	if d.fittings == nil {
		d.fittings = map[string]*network.Fitting{}
	}
	d.fittings[key] = &f
	return &f
}

func lampFitting(l *doc.LampStock) network.Fitting {
	return network.Fitting{Leakage: l.Leakage, Inrush: l.Inrush, InrushTime: l.InrushTime, Dimmable: l.Dimmable,
		Lampholder: l.Lampholder, Metal: l.Metal, Flux: l.Flux, Beam: l.Beam, Peak: l.Brightest(), Drive: l.Load.Drive}
}

func sourceFitting(s doc.SourceStock) network.Fitting {
	return network.Fitting{Leakage: s.Leakage, Inrush: s.Converter.Inrush, InrushTime: s.Converter.InrushTime, Dimmable: s.Dimmable}
}

// supplied fills in what the rules about supply and control ask of a node.
func (d *deriver) supplied(node *network.Node, st *step) {
	if p, ok := doc.PlaceOf(st.entity); ok {
		node.East, node.North = q.Metre(p.At.X.Metres()), q.Metre(p.At.Y.Metres())
	}
	switch e := st.entity.(type) {
	case *doc.Gear:
		if item, ok := d.stock.GearItem(e.Stock); ok {
			g := item.Control
			g.Kind, g.Aimed = item.Kind, e.Aim != 0
			node.Gear = &g
		}
	case *doc.Lamp:
		if item, ok := d.lampItem(e.Stock); ok {
			node.Fitting = &item.fitting
		}
	case *doc.Source:
		if st.output {
			return
		}
		if item, ok := d.stock.Converter(e.Stock); ok {
			node.Fitting = d.fitting(e.Stock, item)
		}
	}
}
