package file

import (
	"testing"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/calc/solve"
	"duskwire/layout/internal/outside"
)

func TestOutsideLight(t *testing.T) {
	outside.Each(t, "light", func(in *outside.Input) float64 {
		l := network.Load{Power: 5, PowerFactor: 1, Nominal: 12, Forward: 9.3, Dropout: 8}
		word := in.Text("law")
		for l.Law.String() != word {
			l.Law++
		}
		u := q.Volt(in.Num("volts"))
		share, ok := l.Light(u)
		if !ok {
			t.Fatalf("%s: not known", in.What)
		}
		if l.Law == network.ResistorStrip {
			if i := real(l.Current(complex(float64(u), 0))) / float64(l.Rated()); i-share > 1e-9 || share-i > 1e-9 {
				t.Errorf("%s: light %v, current %v", in.What, share, i)
			}
		}
		return share * 100
	})
}

func TestOutsideRings(t *testing.T) {
	outside.Each(t, "rings", func(in *outside.Input) float64 {
		n := int(in.Num("n"))
		net := &network.Net{Supply: network.Supply{Nominal: 24}, Systems: []network.System{{Nominal: 24, Current: network.DC}}, Nodes: make([]network.Node, n+1)}
		var z []complex128
		for k := range n + 1 {
			if k > 0 {
				net.Nodes[k].Loads = []network.Load{{Law: network.ConstantCurrent, Power: 0.2 * 24, PowerFactor: 1, Nominal: 24}}
			}
			net.Branches = append(net.Branches, network.Branch{From: k, To: (k + 1) % (n + 1)})
			z = append(z, 0.02)
		}
		return float64(solve.Solve(net, network.BuildTree(net), z).Drop[int(in.Num("k"))])
	})
}
