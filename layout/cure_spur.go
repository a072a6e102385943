package layout

import (
	"sort"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// ownWay tries to feed the supply point of a spur by a way of its own at the
// board, behind an RCBO of the stock book. What was measured and loaded on the
// existing circuit says nothing about the new one, so the loop is that of Ze and
// a new leg like the one entered. It is offered only when that loop is known and
// within the limit of the device; when no device clears it, the way that comes
// nearest is shown as one that only helps.
func (b *bench) ownWay() {
	sp, ok := b.frame.Scheme.Supplies.Get(b.circuit.Supply)
	if !ok || !sp.Spur {
		return
	}
	var best *Cure
	for _, d := range b.wayDevices() {
		c := b.way(sp, d)
		if c.Text == "" || best != nil && !clearer(&c, best) {
			continue
		}
		best = &c
		if c.Holds && len(c.Leaves)+len(c.Brings) == 0 {
			break
		}
	}
	if best != nil {
		b.keep(*best)
	}
}

// way tries one device; the cure is empty when the loop would not be known.
func (b *bench) way(sp *doc.Supply, d doc.DeviceStock) Cure {
	own := *sp
	own.Spur, own.Fuse, own.Switched = false, "", false
	own.Upstream, own.Residual = d.Key, ""
	own.MeasuredZs, own.ExistingLoad = q.Maybe[q.Ohm]{}, q.Maybe[q.Ampere]{}
	// Nothing else hangs on an RCBO of its own.
	own.Leakage, own.OtherCircuits, own.Shares = q.Maybe[q.Ampere]{}, q.Some(q.Count(0)), ""
	text := "feed " + sp.Tag + " by a way of its own at the board instead of the spur, its leg as entered, with " + d.Name
	c, _ := b.try(orderPath, text, edit.SetSupply{Supply: &own})
	if c.Figure == "" {
		return Cure{}
	}
	c.Holds = c.Holds && c.use <= 1+1e-9
	if cb, ok := b.frame.Stock.Cable(sp.Indoor.Cable); ok && sp.Indoor.Length.Value > 0 {
		// The old leg stays where it is: others hang on it.
		c.Metres = append([]CableMetres{{cb.Key, cb.Name, sp.Indoor.Length.Value}}, c.Metres...)
	}
	return c
}

// wayDevices are the RCBOs within the residual limit, smallest first, one of a
// rating and curve. One of type AC is not offered: drivers of LED lamps may leak
// direct current.
func (b *bench) wayDevices() []doc.DeviceStock {
	type rated struct {
		rating q.Ampere
		curve  string
	}
	limit := b.rules.Limits.Residual.Value
	seen := map[rated]bool{}
	var out []doc.DeviceStock
	for _, d := range b.frame.Stock.Devices {
		x := d.Device
		k := rated{x.Rating, x.Curve}
		if x.Kind != network.RCBO || x.Delayed || x.Type == "AC" || x.Curve == "D" || seen[k] ||
			x.Residual <= 0 || float64(x.Residual) > limit*(1+1e-9) {
			continue
		}
		seen[k] = true
		out = append(out, d)
	}
	sort.SliceStable(out, func(i, j int) bool {
		if out[i].Device.Rating != out[j].Device.Rating {
			return out[i].Device.Rating < out[j].Device.Rating
		}
		return out[i].Device.Curve < out[j].Device.Curve
	})
	return out
}

// clearer reports whether a way leaves less to be asked than another.
func clearer(a, b *Cure) bool {
	switch {
	case a.Holds != b.Holds:
		return a.Holds
	case !a.Holds:
		return a.use < b.use
	case (a.worse > 0) != (b.worse > 0):
		return a.worse == 0
	}
	return a.left+len(a.Brings) < b.left+len(b.Brings)
}
