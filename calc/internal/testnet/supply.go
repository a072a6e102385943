package testnet

import (
	"strconv"
	"strings"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// gears of the notation; invented.
var gears = map[string]network.Gear{
	"isolator":  {Kind: network.Isolator, Rating: q.Some(q.Ampere(20)), Switching: true},
	"receiver":  {Kind: network.Receiver, Rating: q.Some(q.Ampere(5)), LEDWatts: q.Some(q.Watt(100)), LEDLamps: q.Some(q.Count(20))},
	"tin":       {Kind: network.Receiver, Metal: true, LEDWatts: q.Some(q.Watt(100))},
	"relay":     {Kind: network.Receiver, Rating: q.Some(q.Ampere(5))},
	"nameless":  {Kind: network.Receiver},
	"photocell": {Kind: network.Photocell, LEDWatts: q.Some(q.Watt(100))},
	"cell20":    {Kind: network.Photocell, LEDWatts: q.Some(q.Watt(100)), Threshold: q.Some(q.Lux(20))},
	"dimmer":    {Kind: network.Dimmer, LEDWatts: q.Some(q.Watt(100)), DimMin: q.Some(q.Watt(5)), DimMax: q.Some(q.Watt(100))},
}

// surveyed reads the words of the supply that are no plain figure of a loop:
// leak, others, shares, switched.
func surveyed(s *network.Supply, key, value string) bool {
	v, _ := strconv.ParseFloat(value, 64)
	switch key {
	case "leak":
		s.LeakageAmpere = q.Some(q.Ampere(v))
	case "others":
		s.OtherCircuits = q.Some(q.Count(v))
	case "shares":
		s.Shares = value
	case "switched":
		s.Switched = true
	default:
		return false
	}
	return true
}

// gear makes a node gear of the notation; ok is false for a plain device.
func gear(n *network.Node, what string) bool {
	g, ok := gears[what]
	if ok {
		n.Kind, n.Gear = network.GearNode, &g
	}
	return ok
}

// zones reads the lines "zone Z1 L1,L2 by=G1 dimmed".
func (p *parser) zones(lines [][]string) {
	for _, f := range lines {
		if f[0] != "zone" || len(f) < 3 {
			continue
		}
		z := network.LampZone{ID: f[1], Label: f[1], Control: -1}
		for _, name := range strings.Split(f[2], ",") {
			z.Lamps = append(z.Lamps, p.node[name])
		}
		for _, w := range f[3:] {
			by, named := strings.CutPrefix(w, "by=")
			switch at, ok := p.node[by]; {
			case named && ok:
				z.Named, z.Control = true, at
			case named:
				z.Named = true
			case w == "dimmed":
				z.Dimmed = true
			default:
				panic("testnet: zone word " + w)
			}
		}
		p.net.Zones = append(p.net.Zones, z)
	}
}
