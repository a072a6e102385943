package edit_test

import (
	"testing"

	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// What is deleted is forgotten by the zone it switched and by the run that had
// its cores in its cable; a cable that is shared can share no other.
func TestDeleteForgetsGearAndCable(t *testing.T) {
	leg := []doc.Leg{{Support: network.Clipped}}
	at := func(x float64) doc.End { return doc.End{At: geom.Pt(x, 0)} }
	s := doc.New("uk-18")
	s.Gear = doc.NewSet(&doc.Gear{ID: "G1", Tag: "G1", Stock: "isolator-20"}, &doc.Gear{ID: "G2", Tag: "G2", Stock: "isolator-20"})
	s.Zones = doc.NewSet(&doc.Zone{ID: "Z1", Tag: "Z1", Control: "G1", Dimmed: true}, &doc.Zone{ID: "Z2", Tag: "Z2", Control: "G2"})
	s.Runs = doc.NewSet(&doc.Run{ID: "R1", Tag: "R1", From: at(0), To: at(1), Legs: leg},
		&doc.Run{ID: "R2", Tag: "R2", From: at(0), To: at(1), Legs: leg, With: "R1"}, &doc.Run{ID: "R3", Tag: "R3", From: at(0), To: at(1), Legs: leg})
	if err := doc.Validate(s); err != nil {
		t.Fatal(err)
	}
	for _, bad := range []doc.Run{{ID: "R1", With: "R3"}, {ID: "R3", With: "R2"}, {ID: "R3", With: "R3"}, {ID: "R3", With: "G1"}} {
		r := bad
		r.Tag, r.From, r.To, r.Legs = string(bad.ID), at(0), at(1), leg
		if _, err := (edit.SetRun{Run: &r}).Apply(s); err == nil {
			t.Errorf("%s with %s was accepted", bad.ID, bad.With)
		}
	}
	n, err := edit.Delete{IDs: []doc.ID{"G1", "R1"}}.Apply(s)
	if err != nil {
		t.Fatal(err)
	}
	z1, _ := n.Zones.Get("Z1")
	z2, _ := n.Zones.Get("Z2")
	r2, _ := n.Runs.Get("R2")
	if z1.Control != "" || !z1.Dimmed || z2.Control != "G2" || r2.With != "" {
		t.Errorf("Z1 %+v, Z2 %+v, R2 with %q", z1, z2, r2.With)
	}
	if err := doc.Validate(n); err != nil {
		t.Error(err)
	}
}
