package layout_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"duskwire/calc/light"
	q "duskwire/calc/quantity"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/file"
	"duskwire/layout/geom"
)

// stripText is a strip of 5 m on 12 V behind 5 m of cable.
const stripText = `duskwire: 1
title: strip
rules: uk-18
survey: {conductor: 20 °C, waste: 0 %}
plan: {scale: "1:50", grid: 250 mm, checked: true}
supplies:
  - {id: SP1, at: [0 m, 0 m], height: 450 mm, kind: own way, nominal: 230 V, earthing: TN-S, ze: 0.35 ohm, fault_current: 1050 A, upstream: b6-rcbo-30, indoor: {cable: te-2.5, length: 3 m, method: C}}
lamps:
  - {id: L1, at: [7 m, 0 m], height: 300 mm, length: 5 m, stock: strip-10w-m-12, aim: 360 deg, tilt: -90 deg}
sources:
  - {id: S1, at: [2 m, 0 m], height: 300 mm, stock: src-12dc-100}
runs:
  - {id: R1, cable: swa-3x1.5, from: {on: SP1}, to: {on: S1}, legs: [{support: clipped, height: 450 mm}]}
  - {id: R2, cable: elv-2x2.5, from: {on: S1}, to: {on: L1}, legs: [{support: clipped, height: 300 mm}]}
`

func stripScheme(t *testing.T, text string) *doc.Scheme {
	t.Helper()
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	s, err := file.ReadScheme("strip", []byte(text), stock, file.Keys(rules)...)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// TestNightStrip: a strip has the flux of its length, lies as long as it is, and each
// place of it gives the light of its volts: (u - 9.3)/2.7 (trade notes 4, D) with
// u - 9.3 = A·cosh ξ + B·sinh ξ along it (derived; compared with a ladder of 400
// pieces in calc/solve). The ground under its ends differs by that.
func TestNightStrip(t *testing.T) {
	far := strings.Replace(stripText, "to: {on: L1}", "to: {on: L1, side: far end}", 1)
	for _, c := range []struct {
		name, text string
		left       bool // the end that is fed lies on the left
	}{
		{"fed at its near end", stripText, true},
		{"fed at its far end", far, false},
		{"turned round", strings.Replace(stripText, "tilt: -90 deg", "tilt: -90 deg, spin: 180 deg", 1), false},
	} {
		f := frameFrom(t, stripScheme(t, c.text))
		n := nightOf(t, f)
		l := n.Scene.Lamp(0)
		if flux := float64(l.Dist.Flux()); math.Abs(flux-5*800) > 0.01 || math.Abs(l.Opening.Size()-5) > 1e-12 {
			t.Fatalf("%s: %g lm over %g m, expected 4000 lm over 5 m", c.name, flux, l.Opening.Size())
		}
		near, end := float64(point(t, f, "L1").Voltage), float64(point(t, f, "L1 far end").Voltage)
		if math.Abs(near-end) < 0.3 {
			t.Fatalf("%s: %g V and %g V at its ends: nothing to see", c.name, near, end)
		}
		theta := 5 * math.Sqrt(0.1*0.8/2.7) // ℓ·sqrt(r·g): 100 mΩ/m, 9.6 W/m on 12 V over 2.7 V
		glow := func(x float64) float64 {   // x from the near end, 0 to 1
			return ((near-9.3)*math.Sinh(theta*(1-x)) + (end-9.3)*math.Sinh(theta*x)) / math.Sinh(theta) / 2.7
		}
		for k, w := range l.Profile {
			if want := glow(float64(k) / 8); math.Abs(w*l.Share-want) > 1e-9 {
				t.Errorf("%s: place %d gives %g of its light, expected %g", c.name, k, w*l.Share, want)
			}
		}
		// Parts of 5 mm under a model of 120°, cos γ, 800/π cd/m in its axis.
		lux := func(x float64) float64 {
			sum := 0.0
			for k := range 1000 {
				at := (float64(k) + 0.5) / 1000
				side := -2.5 + 5*at
				if c.name == "turned round" {
					side = -side
				}
				d2 := 0.3*0.3 + (7+side-x)*(7+side-x)
				sum += 0.8 * glow(at) * 800 / math.Pi * 0.005 * 0.3 * 0.3 / (d2 * d2)
			}
			return sum
		}
		left, right := float64(n.Probe(geom.Pt(4.6, 0)).Lux), float64(n.Probe(geom.Pt(9.4, 0)).Lux)
		if math.Abs(left-lux(4.6)) > 0.01*left || math.Abs(right-lux(9.4)) > 0.01*right {
			t.Errorf("%s: %g and %g lx under its ends, expected %g and %g", c.name, left, right, lux(4.6), lux(9.4))
		}
		if c.left != (left > 1.15*right) || c.left == (right > 1.15*left) {
			t.Errorf("%s: %g lx under the left end, %g under the right one", c.name, left, right)
		}
	}
}

// TestStripLies: a strip lies square to its aim, level however it is tilted, near end
// on the left as seen along the aim; spin turns it clockwise as seen from behind.
func TestStripLies(t *testing.T) {
	for _, c := range []struct {
		aim, tilt, spin float64
		near            light.Vec // for a length of 2 m
	}{
		{360, -30, 0, light.Vec{X: -1}}, {360, 0, 0, light.Vec{X: -1}}, {360, -90, 0, light.Vec{X: -1}}, {360, 45, 0, light.Vec{X: -1}},
		{90, -30, 0, light.Vec{Y: 1}}, {180, -30, 0, light.Vec{X: 1}}, {270, -90, 0, light.Vec{Y: -1}}, {45, 10, 0, light.Vec{X: -math.Sqrt2 / 2, Y: math.Sqrt2 / 2}},
		{90, 0, 90, light.Vec{Z: 1}}, {90, 0, 180, light.Vec{Y: -1}}, {360, -90, 90, light.Vec{Y: 1}},
		{0, 0, 0, light.Vec{X: -1}}, // not aimed: across the sheet
	} {
		s := stripScheme(t, stripText)
		l := *s.Lamps.All()[0]
		l.Aim, l.Tilt, l.Spin, l.Length = c.aim, c.tilt, c.spin, q.Some(q.Metre(2))
		s.Lamps = doc.NewSet(&l)
		f := frameFrom(t, s)
		lamp := nightOf(t, f).Scene.Lamp(0)
		if got := lamp.Out(light.Vec{Y: lamp.Opening.Y / 2}); got.Sub(c.near).Len() > 1e-9 {
			t.Errorf("aim %g°, tilt %g°, spin %g°: near end at %v, expected %v", c.aim, c.tilt, c.spin, got, c.near)
		}
	}
}

// TestStripOnPlan: the plan draws a strip where its light comes from.
func TestStripOnPlan(t *testing.T) {
	base := stripScheme(t, stripText)
	stock := frameFrom(t, base).Stock
	item, _ := stock.Lamp("strip-10w-m-12")
	rapid.Check(t, func(t *rapid.T) {
		l := *base.Lamps.All()[0]
		l.Aim, l.Tilt = rapid.Float64Range(0, 360).Draw(t, "aim"), rapid.Float64Range(-90, 90).Draw(t, "tilt")
		l.Spin, l.Length = rapid.Float64Range(-180, 180).Draw(t, "spin"), q.Some(q.Metre(rapid.Float64Range(0.1, 20).Draw(t, "length")))
		s := *base
		s.Lamps, s.Runs = doc.NewSet(&l), doc.NewSet[*doc.Run]()
		n, err := layout.NightOf(&layout.Frame{Scheme: &s, Stock: stock})
		if err != nil {
			t.Fatal(err)
		}
		lamp := n.Scene.Lamp(0)
		v, ok := l.StripEnd(&item)
		want := lamp.Out(light.Vec{Y: lamp.Opening.Y / 2})
		if !ok || (light.Vec{X: v[0], Y: v[1], Z: v[2]}).Sub(want).Len() > 1e-9 {
			t.Fatalf("drawn to %v, lit to %v", v, want)
		}
		other := item // by a file with its long side on X
		other.Filed = &doc.FiledLight{Opening: light.Opening{X: 1}}
		if w, _ := l.StripEnd(&other); math.Hypot(w[0]-v[0], math.Hypot(w[1]-v[1], w[2]-v[2])) > 1e-9 {
			t.Fatalf("drawn to %v, by a file turned to %v", v, w)
		}
		near, far, _ := l.StripEnds(&item)
		if math.Abs(near.X.Metres()-lamp.At.X-want.X) > 1e-5 || math.Abs(far.Y.Metres()-lamp.At.Y+want.Y) > 1e-5 {
			t.Fatalf("on the plan from %v to %v", near, far)
		}
	})
}
