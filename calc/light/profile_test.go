package light

import (
	"math"
	"math/rand"
	"slices"
	"testing"

	q "duskwire/calc/quantity"
)

// slope is a diffuse line of 5 m along Y, 100 cd, h over the origin, its light going
// from 1+k at the positive end to 1-k at the negative one.
func slope(t testing.TB, h, k float64) Lamp {
	t.Helper()
	d, err := Beam(q.Lumen(math.Pi*100), 120)
	if err != nil {
		t.Fatal(err)
	}
	l := Lamp{At: Vec{Z: h}, Dist: d, Share: 1, White: 3000, Opening: Opening{Y: 5}}
	var places [Along]float64
	for i := range places {
		places[i] = 1 + k*(1-2*float64(i)/(Along-1))
	}
	var mean float64
	if l.Profile, mean = ProfileOf(places); math.Abs(mean-1) > 1e-12 {
		t.Fatalf("mean %g, expected 1", mean)
	}
	return l
}

// slopeLux is E below a slope at y, by the integral of I0/L·w(s)·h²/(h²+(s-y)²)² over
// the line, w = 1 + 2k·s/L, which has a closed form (derived).
func slopeLux(h, k, y float64) float64 {
	const i0, long = 100.0, 5.0
	a := func(u float64) float64 { return u/(2*(h*h+u*u)) + math.Atan(u/h)/(2*h) } // ∫ h²/(h²+u²)²
	b := func(u float64) float64 { return -h * h / (2 * (h*h + u*u)) }             // ∫ u·h²/(h²+u²)²
	u0, u1 := -long/2-y, long/2-y
	return i0 / long * ((1+2*k*y/long)*(a(u1)-a(u0)) + 2*k/long*(b(u1)-b(u0)))
}

// TestProfileClosedForm: a line whose light falls evenly from end to end against its
// closed form; parts of a fifth of the distance leave 0.5 %. The ends of a strip at
// 83 % and 60 % of its light differ by that.
func TestProfileClosedForm(t *testing.T) {
	for _, h := range []float64{0.3, 1, 3} {
		for _, k := range []float64{0, 0.16, 1, -0.6} { // 0.16: (83-60)/(83+60)
			s := scene(t, []Lamp{slope(t, h, k)})
			for _, y := range []float64{-2.5, -1, 0, 0.7, 2.5} {
				want := slopeLux(h, k, y)
				near(t, "under a slope", float64(s.At(Vec{Y: y}, Up)), want, 0.005*want+0.002)
			}
		}
	}
	s := scene(t, []Lamp{slope(t, 0.3, 0.16)})
	bright, dim := float64(s.At(Vec{Y: 2.5}, Up)), float64(s.At(Vec{Y: -2.5}, Up))
	near(t, "end over end", bright/dim, slopeLux(0.3, 0.16, 2.5)/slopeLux(0.3, 0.16, -2.5), 0.005)
	if bright < 1.3*dim {
		t.Errorf("%g lx under the bright end, %g lx under the dim one", bright, dim)
	}
}

// TestProfileFar: from more than five lengths the light comes from the middle of the
// profile; a slope to nothing has it a sixth of its length off (∫w·s/∫w, derived).
func TestProfileFar(t *testing.T) {
	l := slope(t, 26, 1)
	s := scene(t, []Lamp{l})
	near(t, "middle of the light", s.lamps[0].heart.Y, 5.0/6, 1e-12)
	for _, y := range []float64{-20, -3, 0, 8, 20} {
		want := slopeLux(26, 1, y)
		if s.Near(0, Vec{Y: y}) {
			t.Fatalf("%g m aside is near", y)
		}
		near(t, "far under a slope", float64(s.At(Vec{Y: y}, Up)), want, 0.007*want)
	}
	bright := slope(t, 31, 1) // from 30 m on a sheet takes whole lamps
	bright.Share = 100
	sheet, err := NewSheet(scene(t, []Lamp{bright}), Grid{X0: -0.5, Y0: -16, Step: 1, W: 1, H: 32})
	if err != nil {
		t.Fatal(err)
	}
	sheet.Fill()
	for y := range 32 {
		m := sheet.Ground(0, y)
		want := 100 * slopeLux(31, 1, m.Y)
		near(t, "far under a slope, on a sheet", float64(sheet.Lux(0, y)), want, 0.007*want)
	}
	cd, d := s.Seen(0, Vec{Y: 5.0 / 6})
	if math.Abs(d-26) > 1e-9 || math.Abs(float64(cd)-100) > 0.01 {
		t.Errorf("seen from below the middle of its light: %v at %g m", cd, d)
	}
}

// TestProfileKeepsFlux: however the light is spread, a closed sphere collects the
// flux of the lamp within 0.5 %, and the same light along X, turned by a quarter, is
// the same.
func TestProfileKeepsFlux(t *testing.T) {
	at := Vec{1, 2, 3}
	l := slope(t, 3, 0.9)
	l.At, l.Opening, l.Tilt, l.Spin = at, Opening{Y: 1}, 0.7, 0.4
	flux := float64(l.Dist.Flux())
	near(t, "in a sphere", gather(scene(t, []Lamp{l}), at, 2, false), flux, 0.005*flux)
	turned := l
	turned.Opening, turned.Spin = Opening{X: 1}, l.Spin+math.Pi/2
	p := Vec{1.5, 2.6, 2}
	a, b := float64(scene(t, []Lamp{l}).At(p, Up)), float64(scene(t, []Lamp{turned}).At(p, Up))
	near(t, "along X", b, a, 1e-6*a)
}

// TestProfileOf: means, and what is even or dark has no profile.
func TestProfileOf(t *testing.T) {
	if p, mean := ProfileOf([Along]float64{0.7, 0.7, 0.7, 0.7, 0.7, 0.7, 0.7, 0.7, 0.7}); p != (Profile{}) || mean != 0.7 {
		t.Errorf("even light: %v, mean %g", p, mean)
	}
	if p, mean := ProfileOf([Along]float64{}); p != (Profile{}) || mean != 0 {
		t.Errorf("no light: %v, mean %g", p, mean)
	}
	p, mean := ProfileOf([Along]float64{0: 1})
	near(t, "mean of one end", mean, 1.0/16, 1e-15)
	near(t, "weight there", p[0], 16, 1e-12)
	l := slope(t, 1, 0.5)
	l.Profile[3] = -0.1
	if _, err := NewScene([]Lamp{l}, nil, 1); err == nil {
		t.Error("a negative weight was taken")
	}
}

// TestProfileSheet: sheets of uneven lines keep to the error that is stated, and
// exchanging lamps gives the sheet of the new scene, unit for unit, over level ground
// and over decks.
func TestProfileSheet(t *testing.T) {
	g := Grid{X0: -5, Y0: -5, Step: 0.4, W: 101, H: 97}
	relief := Relief{Kind: make([]uint8, g.W*g.H), Z: []float64{0, 0.12, 1}}
	for i := range relief.Kind {
		x, y := i%g.W, i/g.W
		switch {
		case x > 30 && x < 53 && y > 20 && y < 61:
			relief.Kind[i] = 1
		case x >= 64 && x < 80 && y >= 64 && y < 80: // whole squares
			relief.Kind[i] = 2
		}
	}
	all := garden(t, 12, 3)
	r := rand.New(rand.NewSource(7))
	for range 4 {
		lamps := append([]Lamp(nil), all...)
		for i := range lamps {
			if i%3 == 0 {
				var places [Along]float64
				for k := range places {
					places[k] = r.Float64()
				}
				lamps[i].Opening = Opening{Y: 0.2 + 4.8*r.Float64()}
				lamps[i].Profile, lamps[i].Share = ProfileOf(places)
			}
		}
		sc, err := NewScene(lamps, walls(), 1)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range []Relief{{}, relief} {
			s, err := NewSheetOn(sc, g, r)
			if err != nil {
				t.Fatal(err)
			}
			s.Fill()
			if share, at := worst(s); share > 1 {
				t.Fatalf("%.2f of the error allowed at %v", share, at)
			}
			moved := lamps[0]
			moved.At.X, moved.Profile = moved.At.X+0.7, Profile{}
			if err := s.Exchange(0, moved); err != nil {
				t.Fatal(err)
			}
			fresh, _ := NewSheetOn(s.Scene(), g, r)
			fresh.Fill()
			if !slices.Equal(s.All(), fresh.All()) {
				t.Fatal("a lamp exchanged leaves another sheet than a new one")
			}
		}
	}
}
