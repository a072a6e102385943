package calc_test

import (
	"math"
	"testing"

	"duskwire/calc"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// Two lamps of 10 W each behind a driver of 80 % that takes 0.5 W idle, and one
// of 10 W on the mains, on cables without resistance: worked out by hand
// 20/0.8 + 0.5 = 25.5 W, half for each lamp, and 10 W.
func TestPowerByHand(t *testing.T) {
	lamp := func(id string, system int, u float64) network.Node {
		return network.Node{ID: id, Label: id, Kind: network.LampNode, System: system,
			Loads: []network.Load{{Law: network.ConstantPower, Power: 10, PowerFactor: 1, Nominal: q.Volt(u)}}}
	}
	cable := &network.Cable{Key: "c"}
	net := &network.Net{Label: "SP1",
		Supply:  network.Supply{Nominal: 230, Kind: network.Spur, ExistingLoad: q.Some(q.Ampere(5))},
		Systems: []network.System{{Label: "mains", Nominal: 230, Current: network.AC}, {Label: "S1", Nominal: 12, Current: network.DC, SELV: true}},
		Nodes: []network.Node{{Label: "board", Kind: network.BoardNode}, {ID: "SP1", Kind: network.SupplyNode},
			lamp("L1", 0, 230), {ID: "S1", Kind: network.PrimaryNode}, {ID: "S1", Kind: network.SecondaryNode, System: 1}, lamp("L2", 1, 12), lamp("L3", 1, 12)},
		Branches: []network.Branch{{From: 0, To: 1, Cable: cable}, {From: 1, To: 2, Cable: cable}, {From: 1, To: 3, Cable: cable},
			{From: 3, To: 4, Converter: &network.Converter{Nominal: 12, Current: network.DC, Rated: 60, Regulated: true, Efficiency: 0.8, PowerFactor: 0.9, NoLoad: 0.5, SELV: true}},
			{From: 4, To: 5, Cable: cable}, {From: 4, To: 6, Cable: cable}},
	}
	d := calc.Power(calc.Input{Net: net})
	if !d.Trusted {
		t.Fatal("not solved")
	}
	for i, want := range map[int]float64{2: 10, 5: 12.75, 6: 12.75} {
		if got := float64(d.Node[i]); math.Abs(got-want) > 1e-6 {
			t.Errorf("%s: %.4f W at the supply, want %.2f", net.Nodes[i].ID, got, want)
		}
	}
	if math.Abs(float64(d.Supplied)-35.5) > 1e-6 || math.Abs(float64(d.Idle)) > 1e-6 {
		t.Errorf("supplied %v, idle %v, want 35.5 W and 0", d.Supplied, d.Idle)
	}
}
