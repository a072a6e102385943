package scene_test

import (
	"math"
	"testing"

	"duskwire/calc"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

// drawnOf returns the items of an entity on a plan of two lamps, L1 of known light and
// L2 of not known, and a strip of 4 m, L3.
func drawnOf(id string, look scene.Look, change func(*scene.Input)) (out []scene.Item) {
	stock := &doc.Stock{Lamps: []doc.LampStock{{Key: "spot", Kind: "spike", Flux: 400}, {Key: "tape", Kind: "strip", Flux: 800, Length: 1}}}
	lamp := func(id doc.ID, x float64, key string) *doc.Lamp {
		return &doc.Lamp{ID: id, Tag: string(id), Stock: key, Place: doc.Place{At: geom.Pt(x, 2)}}
	}
	tape := lamp("L3", 6, "tape")
	tape.Aim, tape.Tilt, tape.Length = 90, -30, q.Some(q.Metre(4))
	in := scene.Input{Scheme: &doc.Scheme{Lamps: doc.NewSet(lamp("L1", 1, "spot"), lamp("L2", 3, "spot"), tape)}, Stock: stock, Look: look,
		Results: []*calc.Result{{Points: []calc.Point{{ID: "L1", Kind: network.LampNode, Light: q.Some(1.0)}, {ID: "L2", Kind: network.LampNode}, {ID: "L3", Kind: network.LampNode, Light: q.Some(0.8)}}}}}
	if change != nil {
		change(&in)
	}
	for _, it := range scene.Build(in, scene.View{Denominator: 50, Origin: geom.Pt(0, 4)}, 200, 80).Items {
		if it.Entity == id {
			out = append(out, it)
		}
	}
	return out
}

// marked reports whether a lamp has the ring in eight strokes and the question mark.
func marked(items []scene.Item) bool {
	ring, asked := false, false
	for _, it := range items {
		ring = ring || it.Kind == scene.Segments && len(it.Points) == 32
		asked = asked || it.Kind == scene.Text && it.Text == "?"
	}
	if ring != asked {
		panic("half a mark")
	}
	return ring
}

// TestDoubtMark: in the dusk look alone, and told by shape, a lamp whose light is not
// known is marked; so is one of no known light, unless a photometric file in use has it.
func TestDoubtMark(t *testing.T) {
	dark := func(in *scene.Input) { in.Stock.Lamps[0].Flux = 0 }
	broken := func(in *scene.Input) {
		dark(in)
		in.Scheme.Lights = []doc.LightFile{{Lamp: "spot", File: "spot.ies"}}
	}
	filed := func(in *scene.Input) {
		broken(in)
		in.Stock.Lamps[0].Filed = &doc.FiledLight{}
	}
	peaked := func(in *scene.Input) {
		dark(in)
		in.Stock.Lamps[0].Beam, in.Stock.Lamps[0].Peak = 24, 900
	}
	for _, c := range []struct {
		id     string
		look   scene.Look
		change func(*scene.Input)
		want   bool
	}{
		{"L1", scene.LookDusk, nil, false}, {"L2", scene.LookDusk, nil, true}, {"L2", scene.LookPlan, nil, false},
		{"L1", scene.LookDusk, dark, true}, {"L1", scene.LookDusk, filed, false}, {"L1", scene.LookDusk, broken, true}, {"L1", scene.LookDusk, peaked, false}, {"L2", scene.LookDusk, filed, true},
	} {
		if got := marked(drawnOf(c.id, c.look, c.change)); got != c.want {
			t.Errorf("%s, look %v: marked %v, expected %v", c.id, c.look, got, c.want)
		}
	}
	said := func(look scene.Look) bool {
		in := scene.Input{Scheme: &doc.Scheme{Lamps: doc.NewSet(&doc.Lamp{ID: "L1", Stock: "spot"})}, Stock: &doc.Stock{Lamps: []doc.LampStock{{Key: "spot"}}}, Look: look}
		for _, e := range scene.Legend(in) {
			if e.Words == "Light not known at its volts, or at all" {
				return true
			}
		}
		return false
	}
	if !said(scene.LookDusk) || said(scene.LookPlan) {
		t.Error("the legend explains the mark where there is none, or does not where there is")
	}
}

// TestStripDrawn: 4 m at 1:50 are 80 mm, square to the aim, a dot at the near end: aimed
// to the right it lies up the sheet, its near end above.
func TestStripDrawn(t *testing.T) {
	long, dot := 0.0, scene.XY{}
	for _, it := range drawnOf("L3", scene.LookPlan, nil) {
		if it.Kind == scene.Polyline && len(it.Points) == 2 {
			a, b := it.Points[0], it.Points[1]
			if math.Abs(a.X-b.X) < 1e-9 {
				long = math.Max(long, math.Abs(a.Y-b.Y))
			}
		}
		if it.Kind == scene.Circle && it.Size == 0.6 {
			dot = it.Points[0]
		}
	}
	if math.Abs(long-80) > 0.01 || math.Abs(dot.X-120) > 0.01 || math.Abs(dot.Y-0) > 0.01 {
		t.Errorf("%g mm long, its near end at %v, expected 80 mm and 120, 0", long, dot)
	}
}
