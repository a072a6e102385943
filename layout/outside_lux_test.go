package layout

import (
	"math"
	"testing"

	"duskwire/calc/light"
	q "duskwire/calc/quantity"
	"duskwire/layout/internal/outside"
)

// TestOutsideLux holds the light of point lamps to printed examples; the
// printed answers that are wrong are kept at a distance.
func TestOutsideLux(t *testing.T) {
	outside.Each(t, "lux", func(in *outside.Input) float64 {
		lamp, to, normal := spotOrPoint(t, in)
		scene, err := light.NewScene([]light.Lamp{lamp}, nil, 1)
		if err != nil {
			t.Fatal(err)
		}
		return float64(scene.At(to, normal))
	})
}

// spotOrPoint returns the lamp of a row, the point and the normal of the
// surface there.
func spotOrPoint(t *testing.T, in *outside.Input) (light.Lamp, light.Vec, light.Vec) {
	t.Helper()
	or0 := func(key string) float64 {
		if in.Has(key) {
			return in.Num(key)
		}
		return 0
	}
	if in.Has("spot") {
		d, err := light.Beam(500, 24)
		if err != nil {
			t.Fatal(err)
		}
		lamp := light.Lamp{ID: "spot", At: light.Vec{Z: 3}, Dist: d, Share: 1, White: 2700}
		lamp.Bearing, lamp.Tilt = light.AimAt(lamp.At, light.Vec{X: 2})
		return lamp, light.Vec{X: in.Num("spot"), Y: in.Num("y")}, light.Up
	}
	flux := or0("lumen")
	if in.Has("candela") {
		flux = 4 * math.Pi * in.Num("candela")
	}
	d, err := light.Even(q.Lumen(flux))
	if err != nil {
		t.Fatal(err)
	}
	sin, cos := math.Sincos(or0("tilt") * math.Pi / 180)
	return light.Lamp{ID: "point", At: light.Vec{Z: in.Num("height")}, Dist: d, Share: 1, White: 3000},
		light.Vec{X: or0("aside")}, light.Vec{X: sin, Z: cos}
}

// TestOutsideWhites holds the colours of white light to printed tables.
func TestOutsideWhites(t *testing.T) {
	outside.Each(t, "whites", func(in *outside.Input) float64 {
		if in.Has("y") {
			return float64(light.Correlated(in.Num("x"), in.Num("y")))
		}
		white := light.Stimulus(q.Kelvin(in.Num("kelvin")), 1)
		if in.Has("with") {
			white = white.Add(light.Stimulus(q.Kelvin(in.Num("with")), 1))
		}
		x, y := white.Chromaticity()
		rgb := white.Linear()
		return map[string]float64{"x": x, "y": y, "u": 4 * x / (-2*x + 12*y + 3), "v": 6 * y / (-2*x + 12*y + 3), "red": rgb[0], "green": rgb[1], "blue": rgb[2]}[in.Text("want")]
	})
}

// TestOutsideContours holds the areas within lines of equal light to those of
// another library.
func TestOutsideContours(t *testing.T) {
	var lamps []light.Lamp
	for _, l := range [][4]float64{{-3, -1, 2, 500}, {2.5, 1, 3, 800}, {0.5, 4, 1.5, 120}} {
		d, err := light.Even(q.Lumen(4 * math.Pi * l[3]))
		if err != nil {
			t.Fatal(err)
		}
		lamps = append(lamps, light.Lamp{At: light.Vec{X: l[0], Y: l[1], Z: l[2]}, Dist: d, Share: 1, White: 3000})
	}
	scene, err := light.NewScene(lamps, nil, 1)
	if err != nil {
		t.Fatal(err)
	}
	g := light.Grid{X0: -30, Y0: -30, Step: 0.25, W: 240, H: 240}
	values := make([]float64, g.W*g.H)
	for i := range values {
		values[i] = float64(scene.At(g.Middle(i%g.W, i/g.W), light.Up))
	}
	outside.Each(t, "contours", func(in *outside.Input) float64 {
		area := 0.0
		for _, c := range light.Contours(g, values, in.Num("level")) {
			area += c.Area()
		}
		return area
	})
}
