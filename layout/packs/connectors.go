package packs

import (
	"duskwire/calc/network"
	"duskwire/layout/doc"
)

// connector joins the cores of one function in a box.
type connector struct {
	name string
	ways int
	mark string // of the circuit, where several meet
}

// connectors lists the connectors of a box, one a function and circuit, with as
// many ways as conductors meet. Trade habit: common practice, no source.
func (b *book) connectors(id doc.ID) (out []connector) {
	circuits := b.Frame.Circuits.Circuits
	for i := range circuits {
		n, ok := circuits[i].Node[id]
		if !ok {
			continue
		}
		list := connectorsAt(circuits[i].Input.Net, n)
		for k := range list {
			if len(circuits) > 1 {
				list[k].mark = circuits[i].Input.Net.Label
			}
		}
		out = append(out, list...)
	}
	return out
}

func connectorsAt(net *network.Net, node int) (out []connector) {
	live, earth, armour := 0, 0, 0
	for k := range net.Branches {
		br := &net.Branches[k]
		if br.From != node && br.To != node || br.Cable == nil {
			continue
		}
		live++
		if br.Cable.Earth == network.EarthCore {
			earth++
		}
		if br.Armoured() && !br.EndAt(node).Shared {
			armour++
		}
	}
	n := &net.Nodes[node]
	names := [2]string{"L", "N"}
	if n.System != 0 {
		names, earth = [2]string{"first core", "second core"}, 0
		if net.Systems[n.System].Current == network.DC {
			names = [2]string{"+", "−"}
		}
	}
	add := func(name string, ways int) {
		if ways > 0 {
			out = append(out, connector{name: name, ways: ways})
		}
	}
	add(names[0], live)
	add(names[1], live)
	add("Protective conductor", earth)
	if n.Box == nil || !n.Box.Metal {
		add("Armour link", armour)
	}
	return out
}
