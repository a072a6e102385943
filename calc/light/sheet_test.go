package light

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	q "duskwire/calc/quantity"
)

// garden is lamps of several kinds at random over a 30 m square, the same for
// the same seed. All is invented.
func garden(t testing.TB, n int, seed int64) []Lamp {
	t.Helper()
	r := rand.New(rand.NewSource(seed))
	spot, _ := Beam(400, 36)
	flood, _ := Beam(800, 100)
	globe, _ := Even(300)
	wash, _ := Ellipse(500, 30, 90)
	file := sample(t, "synthetic_same_full_0-360.ies").Dist
	dists := []*Distribution{spot, flood, globe, wash, file}
	whites := []q.Kelvin{2700, 3000, 4000}
	lamps := make([]Lamp, n)
	for i := range lamps {
		l := Lamp{ID: fmt.Sprint("L", i), At: Vec{30 * r.Float64(), 30 * r.Float64(), 0.2 + 3*r.Float64()}, Dist: dists[i%len(dists)], Share: 1, White: whites[i%3],
			Bearing: 6 * r.Float64(), Tilt: 1.2 * r.Float64(), Spin: 3 * r.Float64()}
		if i%10 == 7 {
			l.Opening = Opening{X: 0.5}
		}
		lamps[i] = l
	}
	return lamps
}

func walls() []Blocker {
	return []Blocker{
		{Outline: []Spot{{5, 5}, {12, 5}, {12, 9}, {5, 9}}, Closed: true, Top: 6},
		{Outline: []Spot{{0, 20}, {18, 21}}, Top: 1.8},
		{Outline: []Spot{{20, 20}, {24, 20}, {24, 24}, {20, 24}}, Closed: true, Base: 1.5, Top: 5, Pass: 0.4},
	}
}

// worst compares a sheet with the sum over all lamps at every third cell and
// returns the greatest share of what is allowed, the larger of 1 % and 0.05 lx.
func worst(s *Sheet) (share float64, at Vec) {
	g := s.Grid()
	for y := 0; y < g.H; y += 3 {
		for x := 0; x < g.W; x += 3 {
			p := s.Ground(x, y)
			want := float64(s.Scene().At(p, Up))
			off := math.Abs(float64(s.Lux(x, y))-want) / math.Max(0.01*want, LeftOut)
			if off > share {
				share, at = off, p
			}
		}
	}
	return share, at
}

// TestSheetIsSum: culling keeps to the error that is stated.
func TestSheetIsSum(t *testing.T) {
	for seed := int64(1); seed <= 3; seed++ {
		for _, blockers := range [][]Blocker{nil, walls()} {
			s, err := NewSheet(scene(t, garden(t, 40, seed), blockers...), Grid{X0: -5, Y0: -5, Step: 0.4, W: 101, H: 97, Z: 0.1})
			if err != nil {
				t.Fatal(err)
			}
			s.Fill()
			if share, at := worst(s); share > 1 {
				t.Errorf("seed %d, %d blockers: %.2f of the error allowed at %v", seed, len(blockers), share, at)
			}
		}
	}
}

// TestLeftOut: with one faint lamp far away something is in fact left out.
func TestLeftOut(t *testing.T) {
	d, _ := Beam(100, 120)
	s, err := NewSheet(scene(t, []Lamp{{Dist: d, Share: 1, At: Vec{0, 0, 0.5}}}), Grid{Step: 1, W: 64, H: 64})
	if err != nil {
		t.Fatal(err)
	}
	s.Fill()
	if s.Lux(63, 63) != 0 || s.Scene().At(s.Grid().Middle(63, 63), Up) <= 0 {
		t.Error("a faint lamp was not left out")
	}
	if s.Lux(0, 0) == 0 {
		t.Error("the lamp is dark at its foot")
	}
}

// TestExchange: moving lamps about gives the sheet of the new scene, unit for
// unit, and back again the old one.
func TestExchange(t *testing.T) {
	t.Run("worked out again", func(t *testing.T) { exchanged(t, func(*Sheet) {}) })
	t.Run("kept", func(t *testing.T) {
		exchanged(t, func(s *Sheet) {
			if s.Keep(); s.kept == nil {
				t.Fatal("a small sheet does not keep")
			}
		})
	})
}

func exchanged(t *testing.T, begin func(*Sheet)) {
	lamps := garden(t, 20, 5)
	lamps[3].Share = 1e4 // more in a cell than fits into 32 bits
	g := Grid{X0: -2, Y0: -2, Step: 0.5, W: 70, H: 66}
	s, _ := NewSheet(scene(t, lamps, walls()...), g)
	begin(s)
	s.Fill()
	before := s.All()
	r := rand.New(rand.NewSource(9))
	now := append([]Lamp(nil), lamps...)
	for k := 0; k < 25; k++ {
		i := r.Intn(len(lamps))
		now[i].At = now[i].At.Add(Vec{r.Float64() - 0.5, r.Float64() - 0.5, 0})
		now[i].Tilt += 0.3 * (r.Float64() - 0.5)
		now[i].White = []q.Kelvin{2200, 3000, 5000}[r.Intn(3)]
		if err := s.Exchange(i, now[i]); err != nil {
			t.Fatal(err)
		}
	}
	fresh, _ := NewSheet(scene(t, now, walls()...), g)
	fresh.Fill()
	same := func(what string, a, b []float64) {
		for i := range a {
			if a[i] != b[i] {
				t.Fatalf("%s: cell %d has %g lx, expected %g", what, i, a[i], b[i])
			}
		}
	}
	same("moved", s.All(), fresh.All())
	x, y := 30, 30
	a, b := s.Stimulus(x, y), fresh.Stimulus(x, y)
	if a != b {
		t.Errorf("colour %v, expected %v", a, b)
	}
	for i, l := range lamps {
		if err := s.Exchange(i, l); err != nil {
			t.Fatal(err)
		}
	}
	same("moved back", s.All(), before)
	bad := lamps[0]
	bad.Share = -1
	if err := s.Exchange(0, bad); err == nil {
		t.Error("a negative share was taken")
	}
}

// TestBands: bands in any order make the whole.
func TestBands(t *testing.T) {
	sc := scene(t, garden(t, 10, 2))
	g := Grid{Step: 0.5, W: 50, H: 50}
	a, _ := NewSheet(sc, g)
	a.Fill()
	b, _ := NewSheet(sc, g)
	for k := b.Bands() - 1; k >= 0; k-- {
		b.Band(k)
		b.Band(k)
	}
	for i, v := range a.All() {
		if v != b.All()[i] {
			t.Fatalf("cell %d: %g lx, expected %g", i, b.All()[i], v)
		}
	}
	for _, bad := range []Grid{{}, {Step: 1, W: 1 << 20, H: 1 << 20}, {Step: math.NaN(), W: 1, H: 1}, {Step: 1, W: -1, H: -1}} {
		if _, err := NewSheet(sc, bad); err == nil {
			t.Errorf("grid %+v was taken", bad)
		}
	}
}

// TestCircles: contours of a lamp of even intensity are circles of
// E = I h/(h²+r²)^1.5: area in closed form. A sum over small cells is the
// second, independent measure, for a mixture that has no closed form.
func TestCircles(t *testing.T) {
	l := isotropic(t, 500, Vec{0.3, -0.2, 2})
	sc := scene(t, []Lamp{l})
	g := Grid{X0: -30, Y0: -30, Step: 0.1, W: 600, H: 600}
	values := make([]float64, g.W*g.H)
	for i := range values {
		values[i] = float64(sc.At(g.Middle(i%g.W, i/g.W), Up))
	}
	for _, level := range Levels {
		r2 := math.Pow(500*2/level, 2.0/3) - 4
		lines := Contours(g, values, level)
		if len(lines) != 1 || !lines[0].Closed {
			t.Fatalf("%g lx: %d lines, expected one closed", level, len(lines))
		}
		near(t, fmt.Sprintf("area within %g lx", level), lines[0].Area(), math.Pi*r2, 0.002*math.Pi*r2+g.Step*g.Step)
	}
	if got := Contours(g, values, 1000); len(got) != 0 {
		t.Errorf("1000 lx: %d lines, expected none", len(got))
	}
}

// TestContourAreas: areas of any mixture against counting small cells of the
// same bilinear light, dark islands counted off.
func TestContourAreas(t *testing.T) {
	lamps := garden(t, 6, 4)
	g := Grid{X0: -20, Y0: -20, Step: 0.15, W: 330, H: 330} // dark at its edge
	for i := range lamps {
		lamps[i].Tilt = 0
		lamps[i].At.X, lamps[i].At.Y = lamps[i].At.X/3, lamps[i].At.Y/3
		lamps[i].At.Z += 0.5
	}
	sc := scene(t, lamps)
	values := make([]float64, g.W*g.H)
	for i := range values {
		values[i] = float64(sc.At(g.Middle(i%g.W, i/g.W), Up))
	}
	for _, level := range []float64{0.5, 1, 2, 5, 10} {
		area := 0.0
		for _, c := range Contours(g, values, level) {
			if !c.Closed {
				t.Fatalf("%g lx: a line reaches the edge", level)
			}
			area += c.Area()
		}
		count := 0
		const fine = 4
		for y := 0; y+1 < g.H; y++ {
			for x := 0; x+1 < g.W; x++ {
				for k := 0; k < fine*fine; k++ {
					u, v := (float64(k%fine)+0.5)/fine, (float64(k/fine)+0.5)/fine
					a := values[y*g.W+x]*(1-u) + values[y*g.W+x+1]*u
					b := values[(y+1)*g.W+x]*(1-u) + values[(y+1)*g.W+x+1]*u
					if a*(1-v)+b*v >= level {
						count++
					}
				}
			}
		}
		want := float64(count) * g.Step * g.Step / fine / fine
		near(t, fmt.Sprintf("area within %g lx", level), area, want, 0.01*want)
	}
}

// TestSaddle: two bright corners across, joined or apart by the mean.
func TestSaddle(t *testing.T) {
	g := Grid{Step: 1, W: 4, H: 4}
	values := []float64{
		0, 0, 0, 0,
		0, 9, 1, 0,
		0, 1, 9, 0,
		0, 0, 0, 0}
	if n := len(Contours(g, values, 4)); n != 1 {
		t.Errorf("mean 5 above level 4: %d lines, expected 1", n)
	}
	if n := len(Contours(g, values, 6)); n != 2 {
		t.Errorf("mean 5 below level 6: %d lines, expected 2", n)
	}
	open := Contours(Grid{Step: 1, W: 3, H: 2}, []float64{9, 0, 0, 9, 0, 0}, 3)
	if len(open) != 1 || open[0].Closed || len(open[0].Line) != 2 {
		t.Errorf("a line from edge to edge: %+v", open)
	}
}

// TestPicture: the same light looks the same whatever else is in the picture,
// warm differs from cool, moonlight keeps the ground from black.
func TestPicture(t *testing.T) {
	grey := func(int, int) RGB { return RGB{0.3, 0.3, 0.3} }
	warm := isotropic(t, 100, Vec{4, 4, 2})
	cool := isotropic(t, 100, Vec{28, 4, 2})
	warm.White, cool.White = 2700, 5000
	g := Grid{Step: 0.5, W: 64, H: 16}
	sheet := func(l ...Lamp) *Sheet {
		s, err := NewSheet(scene(t, l), g)
		if err != nil {
			t.Fatal(err)
		}
		s.Fill()
		return s
	}
	both := sheet(warm, cool).Picture(Night, grey)
	alone := sheet(warm).Picture(Night, grey)
	at := func(x, y int) [4]uint8 { return [4]uint8(both.Pix[y*both.Stride+4*x:][:4]) }
	w, c := at(8, 8), at(56, 8)
	if int(w[0])-int(w[2]) < int(c[0])-int(c[2])+40 {
		t.Errorf("warm %v and cool %v look alike", w, c)
	}
	if d := int(w[0]) - int(alone.Pix[8*alone.Stride+32]); d < -3 || d > 6 {
		t.Errorf("another lamp far away changed the picture by %d steps", d)
	}
	dark := sheet().Picture(Night, grey)
	if v := dark.Pix[2]; v < 8 || v > 80 {
		t.Errorf("moonlit ground has blue %d, expected dark but not black", v)
	}
	white := Night.Develop(Stimulus(6500, 100), RGB{0.5, 0.5, 0.5})
	near(t, "100 lx on 0.5", white.luminance(), 1, 0.06)
	// 5 lx on 0.5 is a twentieth of white: L_s = 12/20, by the curve 0.3766.
	c5 := Night.Develop(Stimulus(6500, 5), RGB{0.5, 0.5, 0.5})
	for i, v := range c5 {
		c5[i] = math.Pow((v+0.055)/1.055, 2.4) // sRGB decoded
	}
	near(t, "5 lx on 0.5", c5.luminance(), 0.6*(1+0.6/144)/1.6, 1e-4)
	sum := 0.0
	for i := 0; i < 64; i++ {
		sum += dither(i%8, i/8)
	}
	near(t, "mean of the dither", sum, 0, 1e-12)
}

// BenchmarkFill is 100 lamps by 512 x 512 cells, BenchmarkExchange one of them
// moved; compare with the plain C loop of .ci/benchlight.
func BenchmarkFill(b *testing.B) {
	s := bench(b)
	for b.Loop() {
		s.Fill()
	}
}

func BenchmarkExchange(b *testing.B) {
	s := bench(b)
	s.Fill()
	k := 0
	for b.Loop() {
		k++
		i := k % s.Scene().Len()
		l := s.Scene().Lamp(i)
		l.At.X += 0.01
		if err := s.Exchange(i, l); err != nil {
			b.Fatal(err)
		}
	}
}

func bench(b *testing.B) *Sheet {
	b.Helper()
	s, err := NewSheet(scene(b, garden(b, 100, 1)), Grid{Step: 30.0 / 512, W: 512, H: 512})
	if err != nil {
		b.Fatal(err)
	}
	return s
}
