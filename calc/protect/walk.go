package protect

import (
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// PathPerMetre returns what a metre of cable adds to an earth-fault loop, cold
// at 20 °C and hot, in Ω/m:
//
//	core     cold R20 + EarthR20              hot core·(R20 + EarthR20)
//	armour   cold R20 + 1.1·ArmourR20         hot core·R20 + 1.1·armour·ArmourR20
//
// with the multipliers core and armour from 20 °C to operating temperature. A
// core and the armour are never taken in parallel. ok is false for a cable
// without protective conductor. Source: On-Site Guide Tables I1 and I3; the
// armour form and its 1.1 after PD CLC/TR 50480.
func PathPerMetre(c *network.Cable, core, armour float64, t *Tables) (cold, hot q.OhmPerMetre, ok bool) {
	switch c.Earth {
	case network.EarthCore:
		r := c.R20 + c.EarthR20
		return r, r * q.OhmPerMetre(core), true
	case network.EarthArmour:
		a := c.ArmourR20 * q.OhmPerMetre(t.Armour)
		return c.R20 + a, c.R20*q.OhmPerMetre(core) + a*q.OhmPerMetre(armour), true
	}
	return 0, 0, false
}

// Loops returns the earth-fault loop at every node of the net, in node order.
//
// The loop starts at the supply point with the impedance measured there, or
// with Ze (the electrode resistance on TT) plus the indoor leg; from there the
// runs add their line and protective conductor. hot gives the multipliers of a
// cable to operating temperature, see cable.Hot. A loop that is not Known still
// carries the parts that are. Nodes beyond a separated source and nodes the
// tree does not reach have Applies false. A branch without cable stands for one
// that was not chosen or surveyed. Source: BS 7671 411.4.4, 411.5.3.
func Loops(n *network.Net, tree *network.Tree, hot func(*network.Cable) (core, armour float64), t *Tables) []Loop {
	out := make([]Loop, len(n.Nodes))
	beyond := make([]bool, len(n.Nodes)) // at or beyond the supply point
	for i := range out {
		out[i] = Loop{Broken: -1, Device: -1}
	}
	for _, i := range tree.Order {
		up := tree.Up(n, i)
		if up < 0 {
			out[i] = origin(n)
		} else {
			b := tree.Parent[i]
			out[i] = extend(n, out[up], b, up, i, hot, t, beyond[up])
			out[i].Upstream, out[i].Device = upstream(out[up].Upstream, n.Nodes[up].Devices)
			beyond[i] = beyond[up]
		}
		if n.Nodes[i].Kind == network.SupplyNode && !beyond[i] {
			beyond[i] = true
			measured(n, &out[i])
		}
		if sys := n.Nodes[i].System; sys != 0 && sys < len(n.Systems) {
			separate(&out[i], n.Systems[sys])
		}
	}
	return out
}

// origin is the loop at the board: Ze, or the electrode on TT.
func origin(n *network.Net) Loop {
	l := Loop{Applies: true, Broken: -1, Device: -1}
	from, missing := n.Supply.Ze, "Ze at the board"
	if n.Supply.Earthing == network.TT {
		from, missing = n.Supply.Electrode, "the electrode resistance RA"
	}
	if !from.Known {
		l.Missing = missing
		return l
	}
	l.Known = true
	l.Start, l.StartCold = from.Value, from.Value
	l.Cold, l.Hot = from.Value, from.Value
	return l
}

// extend carries the loop over branch b. Ahead of the supply point the branch
// counts into Start, from there on into R1R2. An armour that is not joined at
// both ends carries nothing.
func extend(n *network.Net, from Loop, b, near, far int, hot func(*network.Cable) (core, armour float64), t *Tables, beyond bool) Loop {
	l := from
	br := &n.Branches[b]
	if br.Converter != nil || br.Strip != nil {
		return l
	}
	name := br.Label
	if name == "" {
		name = "the indoor leg"
	}
	if br.Cable == nil {
		return l.lost("the cable of " + name)
	}
	core, armour := hot(br.Cable)
	cold, warm, ok := PathPerMetre(br.Cable, core, armour, t)
	l.Path = br.Cable.Earth
	if !ok {
		if l.Broken < 0 {
			l.Broken = b
		}
		return l.lost("the protective conductor: " + name + " has none")
	}
	if g, broken := gapIn(n, b, near, far); broken {
		if l.Broken < 0 {
			l.Broken, l.Gap = b, g.Why
		}
		return l.lost("the earth path: " + g.Why)
	}
	steel := q.Ohm(0)
	if br.Cable.Earth == network.EarthArmour {
		steel = q.Ohm(float64(cold-br.Cable.R20) * float64(br.Length))
	}
	if beyond {
		l.R1R2Armour += steel
		l.R1R2Cold += q.Ohm(float64(cold) * float64(br.Length))
		l.R1R2Hot += q.Ohm(float64(warm) * float64(br.Length))
	} else {
		l.StartArmour += steel
		l.StartCold += q.Ohm(float64(cold) * float64(br.Length))
		l.Start += q.Ohm(float64(warm) * float64(br.Length))
	}
	l.Cold, l.Hot = l.StartCold+l.R1R2Cold, l.Start+l.R1R2Hot
	return l
}

// lost marks the loop as not known; the first reason from the board is kept.
func (l Loop) lost(missing string) Loop {
	if l.Known || l.Missing == "" {
		l.Missing = missing
	}
	l.Known = false
	return l
}

// measured replaces the start of the loop by what was measured at the supply
// point. A measured loop also proves the path up to there.
func measured(n *network.Net, l *Loop) {
	z := n.Supply.MeasuredZs
	if !z.Known {
		return
	}
	l.Known, l.Missing, l.Measured, l.Broken, l.Gap = true, "", true, -1, ""
	l.Start, l.StartCold, l.Cold, l.Hot = z.Value, z.Value, z.Value, z.Value
	l.StartArmour = 0
}

// separate ends the loop at a separated system. An extra-low-voltage system
// that is not separated still has one, and nothing here can prove it.
func separate(l *Loop, s network.System) {
	if s.SELV {
		*l = Loop{Broken: -1, Device: -1}
		return
	}
	*l = l.lost("the earth path of " + s.Label + ": the source is not separated (SELV)")
}

// upstream appends the devices of a node to those above it and returns the
// index of the last overcurrent device, -1 for none.
func upstream(above, own []network.Device) (all []network.Device, nearest int) {
	all = above
	if len(own) > 0 {
		all = append(append(make([]network.Device, 0, len(above)+len(own)), above...), own...)
	}
	for k := len(all) - 1; k >= 0; k-- {
		if all[k].Overcurrent() {
			return all, k
		}
	}
	return all, -1
}
