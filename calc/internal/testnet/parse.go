package testnet

import (
	"fmt"
	"strconv"
	"strings"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// Net reads a net from a short text, one item a line (or after a semicolon):
//
//	spur TN-C-S ze=0.3 zs=0.6 pfc=900 ra=180 load=5   supply; "way" for an own way
//	board rcd-100-s b16                               devices at the board
//	indoor te-1.5 12 C                                indoor leg: cable, metres, method
//	fuse fuse-3                                       devices of the supply point
//	R1 SP1 B1 swa-3x1.5 8.5 D [group=2]               run from, to, cable, metres, method
//	S1 = dc60 | L1 = brick | G1 = fuse-3              what an item is
//	zone Z1 L1,L2 by=G1 dimmed                        lamps switched together
//	B1 = plastic,h=0.1                                see box
//	R1 SP1 B1 swa-2x1.5 8 D from:BW to:untagged       see ends
//
// Items are made by the first run that reaches them; the output of source S1
// is S1+. Lengths of "-" and cables of "-" mean none. For tests only: a bad
// text panics.
func Net(text string) *network.Net {
	p := &parser{net: &network.Net{Label: "test", Systems: []network.System{{Label: "230 V mains", Nominal: 230}},
		Site: network.Site{Air: q.Celsius(30), Ground: q.Celsius(20), Soil: 2.5, Test: q.Celsius(20)}},
		node: map[string]int{}, is: map[string]string{}}
	var lines [][]string
	for _, line := range strings.FieldsFunc(text, func(r rune) bool { return r == '\n' || r == ';' }) {
		if f := strings.Fields(line); len(f) > 0 {
			lines = append(lines, f)
		}
	}
	for _, f := range lines {
		if len(f) == 3 && f[1] == "=" {
			p.is[f[0]] = f[2]
		}
	}
	p.supply(lines)
	for _, f := range lines {
		if len(f) >= 6 && strings.HasPrefix(f[0], "R") {
			p.run(f)
		}
	}
	p.zones(lines)
	return p.net
}

type parser struct {
	net  *network.Net
	node map[string]int
	is   map[string]string
}

// supply makes the board, the indoor leg and the supply point.
func (p *parser) supply(lines [][]string) {
	board := network.Node{Label: "board", Kind: network.BoardNode}
	point := network.Node{ID: "SP1", Label: "SP1", Kind: network.SupplyNode}
	leg := network.Branch{Label: "indoor leg", From: 0, To: 1}
	s := &p.net.Supply
	s.Nominal = 230
	for _, f := range lines {
		switch f[0] {
		case "spur", "way":
			if f[0] == "way" {
				s.Kind = network.OwnWay
			}
			p.survey(f[1:])
		case "board":
			board.Devices = pick(f[1:])
		case "fuse":
			point.Devices = pick(f[1:])
		case "indoor":
			leg.Cable, leg.Length = Cable(f[1]), metres(f[2])
			leg.Legs = []network.Leg{{Support: network.Indoors, Method: f[3], Length: leg.Length}}
		}
	}
	leg.Existing = s.Kind == network.Spur
	p.net.Nodes = append(p.net.Nodes, board, point)
	p.net.Branches = append(p.net.Branches, leg)
	p.node["SP1"] = 1
}

func (p *parser) survey(words []string) {
	s := &p.net.Supply
	for _, w := range words {
		key, value, _ := strings.Cut(w, "=")
		v, _ := strconv.ParseFloat(value, 64)
		switch key {
		case "TN-S":
			s.Earthing = network.TNS
		case "TN-C-S":
			s.Earthing = network.TNCS
		case "TT":
			s.Earthing = network.TT
		case "ze":
			s.Ze = q.Some(q.Ohm(v))
		case "zs":
			s.MeasuredZs = q.Some(q.Ohm(v))
		case "pfc":
			s.FaultCurrent = q.Some(q.Ampere(v))
		case "ra":
			s.Electrode = q.Some(q.Ohm(v))
		case "load":
			s.ExistingLoad = q.Some(q.Ampere(v))
		case "unknown":
		default:
			if !surveyed(s, key, value) {
				panic("testnet: supply word " + w)
			}
		}
	}
}

// run adds a run and the item at its far end.
func (p *parser) run(f []string) {
	b := network.Branch{ID: f[0], Label: f[0], From: p.find(f[1], -1), Cable: Cable(f[3]), Length: metres(f[4])}
	b.To = p.find(f[2], p.net.Nodes[b.From].System)
	leg := network.Leg{Support: network.Clipped, Method: f[5], Length: b.Length}
	if f[5] == "D" {
		leg.Support, leg.Depth = network.Buried, 0.6
	}
	for _, w := range f[6:] {
		ends(&b, w)
		if n, ok := strings.CutPrefix(w, "group="); ok {
			leg.Group, _ = strconv.Atoi(n)
		}
	}
	b.Legs = []network.Leg{leg}
	p.net.Branches = append(p.net.Branches, b)
	for _, i := range []int{b.From, b.To} {
		if x := p.net.Nodes[i].Box; x != nil {
			x.Cables++
		}
	}
}

// find returns the node of an item, making it on the system when it is new.
func (p *parser) find(name string, system int) int {
	if i, ok := p.node[name]; ok {
		return i
	}
	if system < 0 {
		panic("testnet: " + name + " is not reached yet")
	}
	n := network.Node{Kind: network.BoxNode}
	what := p.is[name]
	switch name[0] {
	case 'L':
		lamp, ok := lamps[what]
		if !ok {
			panic("testnet: lamp " + what)
		}
		n = lamp
	case 'G':
		if !gear(&n, what) {
			n.Kind, n.Devices = network.GearNode, pick([]string{what})
		}
	case 'S':
		n.Kind = network.PrimaryNode
	case 'B':
		if what != "" {
			n.Box = box(what)
		}
	}
	n.ID, n.Label, n.System = name, name, system
	i := len(p.net.Nodes)
	p.node[name] = i
	p.net.Nodes = append(p.net.Nodes, n)
	if n.Kind == network.PrimaryNode {
		p.source(name, what, i)
	}
	return i
}

// source adds the output side of a source.
func (p *parser) source(name, what string, in int) {
	cv, ok := sources[what]
	if !ok {
		panic("testnet: source " + what)
	}
	p.net.Systems = append(p.net.Systems, network.System{
		Label: fmt.Sprintf("%s %v %v", name, cv.Nominal, cv.Current), Nominal: cv.Nominal, Current: cv.Current, SELV: cv.SELV, Drive: cv.Drive})
	out := len(p.net.Nodes)
	p.net.Nodes = append(p.net.Nodes, network.Node{ID: name, Label: name, Kind: network.SecondaryNode, System: len(p.net.Systems) - 1})
	p.node[name+"+"] = out
	p.net.Branches = append(p.net.Branches, network.Branch{ID: name, Label: name, From: in, To: out, Converter: &cv})
}

// Cable returns the catalogue cable with the key; "-" is none.
func Cable(key string) *network.Cable {
	for _, c := range catalog {
		if c.Key == key {
			return c
		}
	}
	if key != "-" {
		panic("testnet: cable " + key)
	}
	return nil
}

var catalog = Catalog()

// Shared returns the one catalogue whose cables Net uses.
func Shared() []*network.Cable { return catalog }

func pick(keys []string) []network.Device {
	var out []network.Device
	for _, k := range keys {
		d, ok := devices[k]
		if !ok {
			panic("testnet: device " + k)
		}
		out = append(out, d)
	}
	return out
}

func metres(s string) q.Metre {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		panic(err)
	}
	return q.Metre(v)
}
