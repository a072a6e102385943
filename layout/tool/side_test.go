package tool

import (
	"testing"

	"duskwire/calc"
	"duskwire/calc/network"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
)

// TestSystemOfCircuit: what a box is on is only known from the circuit.
func TestSystemOfCircuit(t *testing.T) {
	s, err := readScheme("box B1 0,0 box\nbox B2 1,0 box\nbox B3 2,0 box\nsource S1 3,0 source")
	if err != nil {
		t.Fatal(err)
	}
	net := &network.Net{Nodes: []network.Node{{System: 0}, {System: 1}}}
	c := &derive.Circuits{Circuits: []derive.Circuit{{
		Input: calc.Input{Net: net}, Node: map[doc.ID]int{"b1": 0, "b2": 1},
	}}}
	stock := stockForTests()
	w := &World{Scheme: s, Stock: &stock, Circuit: c}
	for _, tt := range []struct {
		from   doc.ID
		system system
		side   doc.Side
	}{
		{"b1", mains, doc.Primary},
		{"b2", low, doc.Secondary},
		{"b3", unknown, doc.Primary}, // nothing feeds S1 yet
	} {
		if got := systemOf(w, tt.from, doc.AnySide); got != tt.system {
			t.Errorf("%s: system %v, want %v", tt.from, got, tt.system)
		}
		_, to := ends(w, snapped{on: tt.from, rank: 0}, snapped{on: "s1", rank: 0})
		if to.Side != tt.side {
			t.Errorf("%s to S1: side %v, want %v", tt.from, to.Side, tt.side)
		}
	}
}
