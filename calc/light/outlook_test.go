package light

import (
	"image"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// standingScene is a garden of three lamps of two whites, a wall, a house and a
// tree, with its sheet, patches and plan picture.
func standingScene(t testing.TB) (*Outlook, *image.RGBA, Grid, []Patch) {
	t.Helper()
	spot, err := Beam(400, 40)
	if err != nil {
		t.Fatal(err)
	}
	even, err := Even(200)
	if err != nil {
		t.Fatal(err)
	}
	lamps := []Lamp{
		{ID: "a", At: Vec{2, 3, 2.2}, Dist: spot, Share: 1, White: 2700},
		{ID: "b", At: Vec{5, 2, 0.4}, Dist: even, Share: 0.8, White: 4000},
		{ID: "c", At: Vec{3, 5.2, 0.1}, Bearing: math.Pi / 2, Tilt: 2.2, Dist: spot, Share: 1, White: 2700},
	}
	wall := []Spot{{0, 6}, {8, 6}}
	house := []Spot{{5, 4}, {7, 4}, {7, 5}, {5, 5}}
	sc, err := NewScene(lamps, []Blocker{{Outline: wall, Top: 1.8}, {Outline: house, Closed: true, Top: 3}}, 0.8)
	if err != nil {
		t.Fatal(err)
	}
	grid := Grid{X0: -1, Y0: -3, Step: 0.05, W: 200, H: 200}
	sheet, err := NewSheet(sc, grid)
	if err != nil {
		t.Fatal(err)
	}
	sheet.Fill()
	bare := RGB{0.14, 0.13, 0.11}
	patches := []Patch{{Outline: []Spot{{0, 0}, {8, 0}, {8, 6}, {0, 6}}, Rho: RGB{0.06, 0.12, 0.04}}, {Outline: []Spot{{1, 0}, {3, 0}, {3, 6}, {1, 6}}, Rho: RGB{0.3, 0.29, 0.27}}}
	ground := Ground{Kind: make([]uint8, grid.W*grid.H), Rho: []RGB{bare, patches[0].Rho, patches[1].Rho}}
	for y := range grid.H {
		for x := range grid.W {
			m := grid.Middle(x, y)
			for i, p := range patches {
				if m.X > p.Outline[0].X && m.X < p.Outline[2].X && m.Y > p.Outline[0].Y && m.Y < p.Outline[2].Y {
					ground.Kind[y*grid.W+x] = uint8(i + 1)
				}
			}
		}
	}
	plan := image.NewRGBA(image.Rect(0, 0, grid.W, grid.H))
	sheet.Paint(Night, ground, plan)
	solids := []Solid{{Outline: wall, Top: 1.8, Side: RGB{0.3, 0.25, 0.2}, Cap: RGB{0.3, 0.25, 0.2}}, {Outline: house, Closed: true, Top: 3, Side: RGB{0.4, 0.4, 0.4}, Cap: RGB{0.1, 0.1, 0.1}}}
	o := NewOutlook(Night, sheet, bare, patches, solids, []Ball{{At: Vec{1, 4.5, 2}, R: 0.6, Half: 0.8, Rho: RGB{0.06, 0.1, 0.04}}})
	return o, plan, grid, patches
}

var standingEye = Eye{At: Vec{4, -2.5, 1.6}, Bearing: math.Pi / 2, Tilt: -0.1, Field: 1.2}

// within reports whether two pixels differ by at most the dither, one step for
// each of the two.
func within(a, b []uint8) bool {
	for i := range 3 {
		if d := int(a[i]) - int(b[i]); d < -1 || d > 1 {
			return false
		}
	}
	return true
}

// TestStandingGround: a pixel that shows the middle of a cell of the sheet has the
// colour of that cell on the night plan, within the dither.
func TestStandingGround(t *testing.T) {
	o, plan, g, _ := standingScene(t)
	const w, h = 1920, 1200
	v := o.Glimpse(standingEye, w, h)
	v.Columns(0, w)
	var k column
	compared, lit := 0, 0
	for x := range w {
		k.cast(v.cam.eye.At, v.cam.ray(x), o.solids, o.balls)
		for y := range h {
			s := k.look(v.cam.rise(y))
			cx, cy := (s.at.X-g.X0)/g.Step-0.5, (s.at.Y-g.Y0)/g.Step-0.5
			ix, iy := int(math.Round(cx)), int(math.Round(cy))
			if !s.level || math.Hypot(cx-float64(ix), cy-float64(iy)) > 0.02 || ix < 0 || iy < 0 || ix >= g.W || iy >= g.H {
				continue
			}
			compared++
			want, got := plan.Pix[plan.PixOffset(ix, g.H-1-iy):], v.Image.Pix[v.Image.PixOffset(x, y):]
			if want[0] > 60 {
				lit++
			}
			if !within(got, want) {
				t.Fatalf("pixel %d, %d shows cell %d, %d: colour %v, on the plan %v", x, y, ix, iy, got[:3], want[:3])
			}
		}
	}
	if compared < 800 || lit < 200 {
		t.Errorf("%d pixels compared, %d of them lit, expected more", compared, lit)
	}
}

// TestStandingSides: a pixel of a wall, of the house or of the crown has the colour
// of Scene.At on that surface with its normal, the moon added, within the dither.
func TestStandingSides(t *testing.T) {
	o, _, _, _ := standingScene(t)
	sc := o.sheet.scene
	const w, h = 240, 150
	v := o.Glimpse(standingEye, w, h)
	v.Columns(0, w)
	var k column
	walls, crowns := 0, 0
	for x := range w {
		k.cast(v.cam.eye.At, v.cam.ray(x), o.solids, o.balls)
		for y := range h {
			s := k.look(v.cam.rise(y))
			if math.IsInf(s.depth, 1) || s.level {
				continue
			}
			if s.n.Dot(v.cam.eye.At.Sub(s.at)) <= 0 {
				t.Fatalf("pixel %d, %d: normal %v looks away from the eye", x, y, s.n)
			}
			dark := o.moonOn(s.n)
			sum, lux := XYZ{}, 0.0
			for i, e := range sc.Shares(s.at, s.n) {
				sum = sum.Add(Stimulus(sc.lamps[i].White, float64(e)))
				lux += float64(e)
			}
			if got := float64(sc.At(s.at, s.n)); math.Abs(got-lux) > 1e-9*(1+lux) {
				t.Fatalf("At %g, shares %g", got, lux)
			}
			c := sum.Linear()
			for i := range c {
				c[i] = (c[i] + dark[i]) * s.rho[i]
			}
			c = Night.shown(c)
			want := []uint8{uint8(255*c[0] + 0.5), uint8(255*c[1] + 0.5), uint8(255*c[2] + 0.5)}
			if got := v.Image.Pix[v.Image.PixOffset(x, y):]; !within(got, want) {
				t.Fatalf("pixel %d, %d at %v, normal %v, %g lx: colour %v, expected %v", x, y, s.at, s.n, lux, got[:3], want)
			}
			if s.ball != nil {
				crowns++
			} else if lux > 1 {
				walls++
			}
		}
	}
	if walls < 500 || crowns < 100 {
		t.Errorf("%d lit pixels of walls and %d of the crown compared, expected more", walls, crowns)
	}
}

// TestStandingPlace: what a pixel shows stands where the camera puts it (the two
// ways through the same perspective are each other's inverse).
func TestStandingPlace(t *testing.T) {
	o, _, _, _ := standingScene(t)
	rapid.Check(t, func(t *rapid.T) {
		e := Eye{At: Vec{rapid.Float64Range(-3, 10).Draw(t, "x"), rapid.Float64Range(-5, -0.5).Draw(t, "y"), rapid.Float64Range(0.2, 6).Draw(t, "z")},
			Bearing: rapid.Float64Range(-4, 4).Draw(t, "bearing"), Tilt: rapid.Float64Range(-1, 1).Draw(t, "tilt"), Field: rapid.Float64Range(0.2, 2.6).Draw(t, "field")}
		const w, h = 160, 100
		cam := newCamera(e, w, h)
		x, y := rapid.IntRange(0, w-1).Draw(t, "column"), rapid.IntRange(0, h-1).Draw(t, "row")
		var k column
		k.cast(e.At, cam.ray(x), o.solids, o.balls)
		s := k.look(cam.rise(y))
		if math.IsInf(s.depth, 1) || s.depth > 1e5 {
			return
		}
		px, py, depth := cam.place(s.at)
		if math.Abs(px-float64(x)-0.5) > 1e-6 || math.Abs(py-float64(y)-0.5) > 1e-6 || math.Abs(depth-s.depth) > 1e-9*(1+depth) {
			t.Fatalf("pixel %d, %d shows %v, which stands at %g, %g, %g ahead, expected %g", x, y, s.at, px, py, depth, s.depth)
		}
	})
}

// TestStandingLamps: a lamp that is seen leaves a dot; one behind a wall, or one
// that shines away, none.
func TestStandingLamps(t *testing.T) {
	spot, _ := Beam(400, 40)
	even, _ := Even(300)
	wall := []Spot{{-3, 5}, {3, 5}}
	for _, c := range []struct {
		name string
		lamp Lamp
		seen bool
	}{
		{"in sight", Lamp{ID: "a", At: Vec{0, 4, 1}, Dist: even, Share: 1, White: 3000}, true},
		{"on the wall", Lamp{ID: "a", At: Vec{0, 5, 1}, Dist: even, Share: 1, White: 3000}, true},
		{"behind the wall", Lamp{ID: "a", At: Vec{0, 6, 1}, Dist: even, Share: 1, White: 3000}, false},
		{"shines away", Lamp{ID: "a", At: Vec{0, 4, 1}, Bearing: math.Pi / 2, Tilt: math.Pi / 2, Dist: spot, Share: 1, White: 3000}, false},
		{"behind the eye", Lamp{ID: "a", At: Vec{0, -4, 1}, Dist: even, Share: 1, White: 3000}, false},
		{"off", Lamp{ID: "a", At: Vec{0, 4, 1}, Dist: even, White: 3000}, false},
	} {
		sc, err := NewScene([]Lamp{c.lamp}, []Blocker{{Outline: wall, Top: 1.8}}, 0.8)
		if err != nil {
			t.Fatal(err)
		}
		sheet, err := NewSheet(sc, Grid{X0: -2, Y0: -2, Step: 1, W: 4, H: 4})
		if err != nil {
			t.Fatal(err)
		}
		sheet.Fill()
		o := NewOutlook(Night, sheet, RGB{}, nil, []Solid{{Outline: wall, Top: 1.8}}, nil)
		v := o.Glimpse(Eye{At: Vec{0, 0, 1}, Bearing: math.Pi / 2, Field: 1}, 80, 50)
		v.Columns(0, 80)
		before := append([]uint8(nil), v.Image.Pix...)
		v.Lamps()
		changed := 0
		for i := range before {
			if before[i] != v.Image.Pix[i] {
				changed++
			}
		}
		if (changed > 0) != c.seen {
			t.Errorf("lamp %s: %d bytes changed, seen expected %v", c.name, changed, c.seen)
		}
	}
}

// TestStandingWithin: who stands in a house looks out of it; from over a wall its
// far side is hidden.
func TestStandingWithin(t *testing.T) {
	house := []Solid{{Outline: []Spot{{0, 0}, {4, 0}, {4, 4}, {0, 4}}, Closed: true, Top: 3}}
	var k column
	k.cast(Vec{2, 3.8, 1.6}, Spot{0, 1}, house, nil)
	if s := k.look(-0.1); !s.level || math.Abs(s.at.Y-19.8) > 1e-9 {
		t.Errorf("from within: %+v, expected the ground 16 m ahead", s)
	}
	k.cast(Vec{2, 2, 5}, Spot{0, 1}, house, nil)
	if s := k.look(-2); s.level || s.n != Up || math.Abs(s.at.Z-3) > 1e-9 {
		t.Errorf("from over the roof: %+v, expected the roof", s)
	}
	if s := k.look(-1.5); s.level || math.Abs(s.at.Y-2-4.0/3) > 1e-9 {
		t.Errorf("from over the roof: %+v, expected its far half", s)
	}
	if s := k.look(-0.9); !s.level {
		t.Errorf("past the edge of the roof: %+v, expected the ground", s)
	}
	k.cast(Vec{2, -4, 1.6}, Spot{0, 1}, house, nil)
	if s := k.look(0.1); s.n != (Vec{Y: -1}) || math.Abs(s.depth-4) > 1e-9 {
		t.Errorf("before the house: %+v, expected its front", s)
	}
}
