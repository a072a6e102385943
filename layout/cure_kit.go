package layout

import (
	"math"
	"sort"

	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// otherGear tries gear of the same kind, next larger first.
func (b *bench) otherGear() {
	g, ok := b.frame.Scheme.Gear.Get(b.subject())
	if !ok {
		return
	}
	now, ok := b.frame.Stock.GearItem(g.Stock)
	if !ok {
		return
	}
	list := append([]doc.GearStock(nil), b.frame.Stock.Gear...)
	sort.SliceStable(list, func(i, j int) bool { return list[i].Control.Rating.Value < list[j].Control.Rating.Value })
	var options []option
	for _, item := range list {
		if item.Kind == now.Kind && item.Key != now.Key {
			c := *g
			c.Stock = item.Key
			options = append(options, step("use for "+g.Tag+": "+item.Name, edit.SetGear{Gear: &c}))
		}
	}
	b.pick(orderDevice, 2, options...)
}

// dimming tries lamps and sources that dim for those of the zone that do not,
// and switching it without.
func (b *bench) dimming() {
	z, ok := b.frame.Scheme.Zones.Get(b.subject())
	if !ok {
		return
	}
	b.pick(orderDevice, 1, b.dimmable())
	c := *z
	c.Dimmed = false
	b.pick(orderPath, 1, step("switch zone "+z.Tag+" without dimming", edit.ChangeZone{Zone: &c}))
}

// dimmable gives everything that the finding names an item that dims; no option
// when the stock book lacks one.
func (b *bench) dimmable() option {
	var ops []edit.Operation
	for _, id := range b.named(doc.LampKind) {
		sys, _ := b.systemAt(doc.End{On: id})
		list := b.otherLamps([]doc.ID{id}, func(item doc.LampStock) bool { return fitsLamp(item, sys) && item.Dimmable == network.Yes })
		if len(list) == 0 {
			return option{}
		}
		ops = append(ops, list[0].op)
	}
	for _, id := range b.named(doc.SourceKind) {
		src, _ := b.frame.Scheme.Sources.Get(id)
		now, ok := b.frame.Stock.Converter(src.Stock)
		best := ""
		apart := math.Inf(1)
		for _, s := range b.frame.Stock.Sources {
			cv := s.Converter
			if !ok || s.Dimmable != network.Yes || cv.Nominal != now.Converter.Nominal || s.Input != now.Input ||
				cv.Current != now.Converter.Current && !b.anyCurrent(id) {
				continue
			}
			if d := math.Abs(math.Log(float64(cv.Rated) / math.Max(float64(now.Converter.Rated), 1))); d < apart {
				best, apart = s.Key, d
			}
		}
		if best == "" {
			return option{}
		}
		c := *src
		c.Stock = best
		ops = append(ops, edit.SetSource{Source: &c})
	}
	return step("use lamps and sources made to be dimmed for "+b.fd.Subject.Label, ops...)
}

// isolation tries a device or unit that opens all live conductors, and an
// isolator behind the supply point.
func (b *bench) isolation() {
	sp, ok := b.frame.Scheme.Supplies.Get(b.circuit.Supply)
	if !ok {
		return
	}
	if sp.Spur {
		c := *sp
		c.Switched = true
		b.pick(orderMove, 1, step("use a fused unit with a two-pole switch at "+sp.Tag, edit.SetSupply{Supply: &c}))
	} else if now, known := b.frame.Stock.Device(sp.Upstream); known {
		var options []option
		for _, d := range b.frame.Stock.Devices {
			x := d.Device
			if x.Switching && x.Overcurrent() && x.Rating == now.Device.Rating && x.Curve == now.Device.Curve && x.Type != "AC" {
				c := *sp
				c.Upstream = d.Key
				options = append(options, step("use at the board: "+d.Name, edit.SetSupply{Supply: &c}))
			}
		}
		b.pick(orderDevice, 1, options...)
	}
	for _, item := range b.frame.Stock.Gear {
		if item.Kind == "isolator" && item.Control.Switching {
			b.pick(orderSecond, 1, b.behindSupply(sp, item))
			return
		}
	}
}

// behindSupply puts gear between the supply point and all that it feeds.
func (b *bench) behindSupply(sp *doc.Supply, item doc.GearStock) option {
	runs := doc.RunsAt(b.frame.Scheme, sp.ID)
	if len(runs) == 0 {
		return option{}
	}
	g := &doc.Gear{ID: doc.NewID(), Stock: item.Key, Place: sp.Place}
	g.Place.At = g.Place.At.Add(geom.Pt(0.3, 0))
	leg := runs[0].Legs[0]
	if runs[0].From.On != sp.ID {
		leg = runs[0].Legs[len(runs[0].Legs)-1]
	}
	first := &doc.Run{ID: doc.NewID(), Cable: runs[0].Cable, From: doc.End{On: sp.ID}, To: doc.End{On: g.ID},
		Legs: []doc.Leg{{Support: network.Clipped, Height: max(sp.Place.Height, 0), Hole: leg.Hole}}}
	ops := []edit.Operation{edit.Place{Entity: g}}
	for _, r := range runs {
		c := *r
		for _, e := range []*doc.End{&c.From, &c.To} {
			if e.On == sp.ID {
				e.On = g.ID
			}
		}
		ops = append(ops, edit.SetRun{Run: &c})
	}
	ops = append(ops, edit.AddRun{Run: first})
	return step("fit behind "+sp.Tag+": "+item.Name, ops...)
}

// ownCable gives the guest of a shared cable one of its own, or the cable more
// cores.
func (b *bench) ownCable() {
	var host, guest *doc.Run
	for _, id := range b.named(doc.RunKind) {
		if r, _ := b.frame.Scheme.Runs.Get(id); r.With != "" {
			guest = r
			host, _ = b.frame.Scheme.Runs.Get(r.With)
			break
		}
	}
	if guest == nil || host == nil {
		return
	}
	c := *guest
	c.With = ""
	if now, ok := b.frame.Stock.Cable(host.Cable); ok {
		var options []option
		for _, cb := range b.frame.Stock.Cables {
			if cb.Cores > now.Cores && cb.Size == now.Size && cb.Insulation == now.Insulation && cb.Mains == now.Mains && (cb.ArmourArea > 0) == (now.ArmourArea > 0) {
				options = append(options, step("use "+cb.Name+" for "+host.Tag+" and "+guest.Tag, edit.SetCable{Runs: []doc.ID{host.ID, guest.ID}, Cable: cb.Key}))
			}
		}
		b.pick(orderRun, 1, options...)
	}
	b.pick(orderSplit, 1, step("lay a cable of its own for "+guest.Tag, edit.SetRun{Run: &c}))
}

// strongerDevice tries devices of the same or the next lower rating that break
// more.
func (b *bench) strongerDevice() {
	s, ok := b.slotAhead()
	if !ok {
		return
	}
	now, known := b.frame.Stock.Device(s.key)
	if !known {
		return
	}
	list := append([]doc.DeviceStock(nil), b.frame.Stock.Devices...)
	sort.SliceStable(list, func(i, j int) bool { return list[i].Device.Rating > list[j].Device.Rating })
	b.firstDevice(s, list, func(d network.Device) bool {
		return d.Overcurrent() && d.Breaking > now.Device.Breaking && d.Rating <= now.Device.Rating &&
			d.Residual == now.Device.Residual && (d.Kind == network.FuseBS1362) == (now.Device.Kind == network.FuseBS1362)
	})
}

// deviceLoad tries larger devices where the present one carries too little, and
// names one where there is none.
func (b *bench) deviceLoad() {
	b.largerDevice()
	sp, ok := b.frame.Scheme.Supplies.Get(b.circuit.Supply)
	if !ok || b.fd.Figure != "" {
		return
	}
	var options []option
	for _, d := range b.frame.Stock.Devices {
		c, place := *sp, "at the board"
		switch x := d.Device; {
		case !sp.Spur && sp.Upstream == "" && x.Kind == network.RCBO && x.Curve == "B" && x.Type == "A":
			c.Upstream = d.Key
		case sp.Spur && sp.Fuse == "" && x.Kind == network.FuseBS1362:
			c.Fuse, place = d.Key, "in "+sp.Tag
		default:
			continue
		}
		options = append(options, step("use "+place+": "+d.Name, edit.SetSupply{Supply: &c}))
	}
	b.pick(orderDevice, 2, options...)
}

// ratedCable tries, for a run as it is laid, the cables that have a rating for
// it, and a duct.
func (b *bench) ratedCable() {
	r, ok := b.frame.Scheme.Runs.Get(b.subject())
	if !ok || b.node < 0 {
		return
	}
	var options []option
	now, known := b.frame.Stock.Cable(r.Cable)
	if known {
		for _, cb := range b.suiting(b.system() == 0, r.Legs, now.Size) {
			if cb.Family != now.Family {
				options = append(options, option{"use " + cb.Name + " for " + r.Tag, edit.SetCable{Runs: []doc.ID{r.ID}, Cable: cb.Key}})
			}
		}
	}
	b.pick(orderRun, 2, options...)
	b.pick(orderPath, 1, step("lay "+r.Tag+" in a duct", b.eachLeg(func(r *doc.Run, i int) bool {
		l := &r.Legs[i]
		if l.Support != network.Buried {
			return false
		}
		l.Support, l.Method = network.InDuct, ""
		return true
	})...))
}

// drivers tries, for a string, the constant-current drivers of the stock book,
// and lamps that suit the present one.
func (b *bench) drivers() {
	for _, id := range b.named(doc.SourceKind) {
		src, _ := b.frame.Scheme.Sources.Get(id)
		now, ok := b.frame.Stock.Converter(src.Stock)
		if !ok {
			continue
		}
		var options []option
		for _, s := range b.frame.Stock.Sources {
			if s.Key != now.Key && s.Input == now.Input && s.Converter.Drive > 0 {
				c := *src
				c.Stock = s.Key
				options = append(options, step("use for "+src.Tag+": "+s.Name, edit.SetSource{Source: &c}))
			}
		}
		b.pick(orderDevice, 2, options...)
	}
	ids := b.named(doc.LampKind)
	if len(ids) == 0 {
		return
	}
	if sys, ok := b.systemAt(doc.End{On: ids[0]}); ok {
		b.pick(orderDevice, 1, b.otherLamps(ids, func(item doc.LampStock) bool { return fitsLamp(item, sys) })...)
	}
	b.driverOf(ids[0])
}

// driverOf tries other drivers for the string that a lamp hangs on.
func (b *bench) driverOf(lamp doc.ID) {
	i, ok := b.circuit.Node[lamp]
	if !ok || len(b.named(doc.SourceKind)) > 0 {
		return
	}
	for _, src := range b.frame.Scheme.Sources.All() {
		out, has := b.circuit.Output[src.ID]
		if !has || b.net.Nodes[out].System != b.net.Nodes[i].System {
			continue
		}
		var options []option
		for _, s := range b.frame.Stock.Sources {
			now, _ := b.frame.Stock.Converter(src.Stock)
			if s.Key != now.Key && s.Input == now.Input && s.Converter.Drive != now.Converter.Drive {
				c := *src
				c.Stock = s.Key
				options = append(options, step("use for "+src.Tag+": "+s.Name, edit.SetSource{Source: &c}))
			}
		}
		b.pick(orderDevice, 2, options...)
	}
}
