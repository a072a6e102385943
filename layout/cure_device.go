package layout

import (
	"sort"

	"duskwire/calc/cable"
	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// slot is where the overcurrent device ahead of the finding can be changed.
type slot struct {
	key   string // stock key of the present device, "" for none
	place string // "at the board"
	put   func(key string) edit.Operation
}

// slotAhead returns the nearest place ahead of the finding's node where a
// device of ours sits. The device at the board of a spur belongs to a circuit
// that was there before and is not ours to change.
func (b *bench) slotAhead() (slot, bool) {
	sp, ok := b.frame.Scheme.Supplies.Get(b.circuit.Supply)
	if !ok || b.node < 0 {
		return slot{}, false
	}
	for i := b.node; i >= 0; i = b.result.Tree.Up(b.net, i) {
		n := &b.net.Nodes[i]
		own := i == b.node && !b.ofDevice() // a node's devices act beyond it
		switch {
		case own:
		case n.Kind == network.GearNode && overcurrent(n.Devices):
			return b.gearSlot(doc.ID(n.ID))
		case n.Kind == network.SupplyNode && (sp.Fuse != "" || sp.Spur):
			return slot{sp.Fuse, "in " + sp.Tag, func(key string) edit.Operation {
				c := *sp
				c.Fuse = key
				return edit.SetSupply{Supply: &c}
			}}, true
		}
	}
	if sp.Spur || sp.Upstream == "" {
		return slot{}, false
	}
	return slot{sp.Upstream, "at the board", b.board(sp, func(c *doc.Supply, key string) { c.Upstream = key })}, true
}

// ofDevice says whether the finding is about a device at the subject itself.
func (b *bench) ofDevice() bool {
	return b.fd.Code == "CAP-01" || b.fd.Code == "BRK-01" || b.fd.Code == "INR-01"
}

func (b *bench) board(sp *doc.Supply, set func(*doc.Supply, string)) func(string) edit.Operation {
	return func(key string) edit.Operation {
		c := *sp
		set(&c, key)
		return edit.SetSupply{Supply: &c}
	}
}

// gearSlot changes a fused unit for one with another fuse.
func (b *bench) gearSlot(id doc.ID) (slot, bool) {
	g, ok := b.frame.Scheme.Gear.Get(id)
	if !ok {
		return slot{}, false
	}
	item, ok := b.frame.Stock.GearItem(g.Stock)
	if !ok || len(item.Devices) != 1 {
		return slot{}, false
	}
	return slot{item.Devices[0], "in " + g.Tag, func(key string) edit.Operation {
		for _, other := range b.frame.Stock.Gear {
			if other.Kind == item.Kind && len(other.Devices) == 1 && other.Devices[0] == key {
				c := *g
				c.Stock = other.Key
				return edit.SetGear{Gear: &c}
			}
		}
		return nil
	}}, true
}

func overcurrent(ds []network.Device) bool {
	for _, d := range ds {
		if d.Overcurrent() {
			return true
		}
	}
	return false
}

// alike returns the devices of the present one's make-up, largest rating first.
func (b *bench) alike(now network.Device) []doc.DeviceStock {
	var out []doc.DeviceStock
	for _, d := range b.frame.Stock.Devices {
		x := d.Device
		if x.Kind == now.Kind && x.Residual == now.Residual && x.Delayed == now.Delayed && x.Type == now.Type {
			out = append(out, d)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Device.Rating > out[j].Device.Rating })
	return out
}

// softerDevice tries a curve that trips earlier at the same rating, then lower
// ratings; of each series the first that holds is kept.
func (b *bench) softerDevice() {
	s, ok := b.slotAhead()
	if !ok {
		return
	}
	now, known := b.frame.Stock.Device(s.key)
	if !known {
		now.Device = network.Device{Kind: network.FuseBS1362, Rating: 14}
	}
	series := []func(network.Device) bool{
		func(d network.Device) bool { return d.Rating == now.Device.Rating && d.Curve < now.Device.Curve },
		func(d network.Device) bool { return d.Rating < now.Device.Rating && d.Curve == now.Device.Curve },
		func(d network.Device) bool {
			return d.Rating < now.Device.Rating && d.Curve == "B" && now.Device.Curve != "B"
		},
	}
	for _, fits := range series {
		b.firstDevice(s, b.alike(now.Device), fits)
	}
}

// largerDevice tries the next ratings up.
func (b *bench) largerDevice() {
	s, ok := b.slotAhead()
	if !ok {
		return
	}
	now, known := b.frame.Stock.Device(s.key)
	if !known {
		return
	}
	list := b.alike(now.Device)
	sort.SliceStable(list, func(i, j int) bool { return list[i].Device.Rating < list[j].Device.Rating })
	b.firstDevice(s, list, func(d network.Device) bool {
		return d.Rating > now.Device.Rating && d.Curve == now.Device.Curve
	})
}

// slowerDevice tries a curve that lets more inrush pass at the same rating, then
// the next ratings up. A curve that trips later halves the largest loop, which the
// trial checks as it does everything else.
func (b *bench) slowerDevice() {
	s, ok := b.slotAhead()
	if !ok {
		return
	}
	if now, known := b.frame.Stock.Device(s.key); known {
		b.firstDevice(s, b.alike(now.Device), func(d network.Device) bool {
			return d.Rating == now.Device.Rating && d.Curve > now.Device.Curve
		})
	}
	b.largerDevice()
}

// firstDevice keeps the first device that holds and brings no new Stop, or
// else the first that holds.
func (b *bench) firstDevice(s slot, list []doc.DeviceStock, fits func(network.Device) bool) {
	var second *Cure
	for _, d := range list {
		if !fits(d.Device) {
			continue
		}
		op := s.put(d.Key)
		if op == nil {
			continue
		}
		c, _ := b.try(orderDevice, "use "+s.place+": "+d.Name, op)
		if !c.Holds {
			continue
		}
		if c.worse == 0 {
			b.keep(c)
			return
		}
		if second == nil {
			second = &c
		}
	}
	if second != nil {
		b.keep(*second)
	}
}

// residualDevice tries a 30 mA device at the board: in the place of the
// breaker, and as a device of its own ahead of it.
func (b *bench) residualDevice() {
	sp, ok := b.frame.Scheme.Supplies.Get(b.circuit.Supply)
	if !ok {
		return
	}
	now, known := b.frame.Stock.Device(sp.Upstream)
	inside := b.board(sp, func(c *doc.Supply, key string) { c.Upstream = key })
	ahead := b.board(sp, func(c *doc.Supply, key string) { c.Residual = key })
	b.firstResidual("use at the board: ", orderDevice, inside, func(x network.Device) bool {
		return x.Kind == network.RCBO && !x.Delayed && known && x.Rating == now.Device.Rating && x.Curve == now.Device.Curve
	})
	b.firstResidual("fit ahead of the breaker: ", orderDevice+1, ahead, func(x network.Device) bool {
		return x.Kind == network.ResidualRCD && !x.Delayed
	})
}

// firstResidual keeps the first device within the limit that holds. One of
// type AC is not offered: drivers of LED lamps may leak direct current.
func (b *bench) firstResidual(text string, order int, op func(string) edit.Operation, fits func(network.Device) bool) {
	limit := b.rules.Limits.Residual.Value
	for _, d := range b.frame.Stock.Devices {
		x := d.Device
		if x.Residual <= 0 || float64(x.Residual) > limit*(1+1e-9) || x.Type == "AC" || !fits(x) {
			continue
		}
		if c, _ := b.try(order, text+d.Name, op(d.Key)); c.Holds {
			b.keep(c)
			return
		}
	}
}

// indoorLeg tries a thicker cable to the supply point when it is ours.
func (b *bench) indoorLeg() {
	sp, ok := b.frame.Scheme.Supplies.Get(b.circuit.Supply)
	if !ok || sp.Spur {
		return
	}
	now, ok := b.frame.Stock.Cable(sp.Indoor.Cable)
	if !ok {
		return
	}
	for _, cb := range cable.Family(now, b.frame.Stock.Cables) {
		if cb.Size <= now.Size {
			continue
		}
		changed := *sp
		changed.Indoor.Cable = cb.Key
		c, _ := b.try(orderRun, "use "+cb.Name+" for the indoor leg", edit.SetSupply{Supply: &changed})
		c.thicker = true
		if c.Holds {
			c.Metres = []CableMetres{{cb.Key, cb.Name, sp.Indoor.Length.Value}, {now.Key, now.Name, -sp.Indoor.Length.Value}}
			b.keep(c)
			return
		}
	}
}
