package derive_test

import (
	"math"
	"testing"

	"duskwire/assets"
	"duskwire/calc/network"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
	"duskwire/layout/file"
	"duskwire/layout/geom"
)

// TestLooseRises: of the vertical steps of a run nobody clips what is below ground,
// nor what goes up in the foot of a lamp that stands in the ground. By hand, from a
// box 300 mm above ground along a bed 500 mm deep to a lamp 300 mm above ground:
// 1.6 m rise, of that 1 m below ground; at a spike the whole 0.8 m of its side.
func TestLooseRises(t *testing.T) {
	rules, err := file.Rules(assets.FS)
	if err != nil {
		t.Fatal(err)
	}
	stock := &doc.Stock{Lamps: []doc.LampStock{{Key: "wall", Kind: "wall"}, {Key: "spike", Kind: "spike"}, {Key: "bollard", Kind: "bollard"}}}
	const mm = geom.Millimetre
	for _, c := range []struct {
		kind        string
		leg         doc.Leg
		rise, loose float64
	}{
		{"wall", doc.Leg{Support: network.Buried, Depth: 500 * mm}, 1.6, 1.0},
		{"spike", doc.Leg{Support: network.Buried, Depth: 500 * mm}, 1.6, 1.3},
		{"bollard", doc.Leg{Support: network.InDuct, Depth: 500 * mm}, 1.6, 1.3},
		{"wall", doc.Leg{Support: network.Clipped, Height: 2000 * mm}, 3.4, 0},
		{"spike", doc.Leg{Support: network.Clipped, Height: 500 * mm}, 0.4, 0.2},
	} {
		at := func(x, up geom.Length) doc.Place { return doc.Place{At: geom.Point{X: x}, Height: up} }
		s := doc.New("uk-18")
		s.Boxes = doc.NewSet(&doc.Box{ID: "B1", Tag: "B1", Place: at(0, 300*mm)})
		s.Lamps = doc.NewSet(&doc.Lamp{ID: "L1", Tag: "L1", Stock: c.kind, Place: at(2000*mm, 300*mm)})
		s.Runs = doc.NewSet(&doc.Run{ID: "R1", Tag: "R1", From: doc.End{On: "B1"}, To: doc.End{On: "L1"}, Legs: []doc.Leg{c.leg}})
		legs := derive.Scheme(s, stock, rules[0], nil).Legs(0)
		last := legs[len(legs)-1]
		if !last.Rise || math.Abs(float64(last.Length)-c.rise) > 1e-9 || math.Abs(float64(last.Loose)-c.loose) > 1e-9 {
			t.Errorf("%s, %+v: rise %v, loose %v, by hand %v and %v", c.kind, c.leg, last.Length, last.Loose, c.rise, c.loose)
		}
	}
}
