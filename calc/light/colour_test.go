package light

import (
	"image"
	"math"
	"slices"
	"testing"

	q "duskwire/calc/quantity"
)

// matching holds the colour matching functions x̄, ȳ, z̄ of the CIE 1931 observer in
// ten-thousandths from 380 to 780 nm every 5 nm (published by the CIE in its no. 15;
// found, as printed with a public program on the colours of spectra).
var matching = [...][3]float64{
	{14, 0, 65}, {22, 1, 105}, {42, 1, 201}, {76, 2, 362}, {143, 4, 679}, {232, 6, 1102}, {435, 12, 2074}, {776, 22, 3713}, {1344, 40, 6456},
	{2148, 73, 10391}, {2839, 116, 13856}, {3285, 168, 16230}, {3483, 230, 17471}, {3481, 298, 17826}, {3362, 380, 17721}, {3187, 480, 17441},
	{2908, 600, 16692}, {2511, 739, 15281}, {1954, 910, 12876}, {1421, 1126, 10419}, {956, 1390, 8130}, {580, 1693, 6162}, {320, 2080, 4652},
	{147, 2586, 3533}, {49, 3230, 2720}, {24, 4073, 2123}, {93, 5030, 1582}, {291, 6082, 1117}, {633, 7100, 782}, {1096, 7932, 573},
	{1655, 8620, 422}, {2257, 9149, 298}, {2904, 9540, 203}, {3597, 9803, 134}, {4334, 9950, 87}, {5121, 10000, 57}, {5945, 9950, 39},
	{6784, 9786, 27}, {7621, 9520, 21}, {8425, 9154, 18}, {9163, 8700, 17}, {9786, 8163, 14}, {10263, 7570, 11}, {10567, 6949, 10},
	{10622, 6310, 8}, {10456, 5668, 6}, {10026, 5030, 3}, {9384, 4412, 2}, {8544, 3810, 2}, {7514, 3210, 1}, {6424, 2650, 0},
	{5419, 2170, 0}, {4479, 1750, 0}, {3608, 1382, 0}, {2835, 1070, 0}, {2187, 816, 0}, {1649, 610, 0}, {1212, 446, 0}, {874, 320, 0},
	{636, 232, 0}, {468, 170, 0}, {329, 119, 0}, {227, 82, 0}, {158, 57, 0}, {114, 41, 0}, {81, 29, 0}, {58, 21, 0}, {41, 15, 0},
	{29, 10, 0}, {20, 7, 0}, {14, 5, 0}, {10, 4, 0}, {7, 2, 0}, {5, 2, 0}, {3, 1, 0}, {2, 1, 0}, {2, 1, 0}, {1, 0, 0}, {1, 0, 0}, {1, 0, 0}, {0, 0, 0},
}

// body returns the chromaticity of a black body by summing Planck's law
// λ^-5/(exp(c2/λT)-1), c2 1.438776877e-2 m·K, with the matching functions.
func body(t float64) (x, y float64) {
	var sum [3]float64
	for i, m := range matching {
		nm := (380 + 5*float64(i)) * 1e-9
		power := math.Pow(nm*1e6, -5) / math.Expm1(1.438776877e-2/(nm*t))
		for k := range sum {
			sum[k] += power * m[k]
		}
	}
	all := sum[0] + sum[1] + sum[2]
	return sum[0] / all, sum[1] / all
}

// TestPlanckTable holds every row of the table from 1500 to 10000 K, and the way
// between the rows, to the sum over the observer's published functions, within 1e-4
// in x and y.
func TestPlanckTable(t *testing.T) {
	for k := 1500.0; k <= 10000; k += 12.5 {
		x, y := Planck(q.Kelvin(k))
		wantX, wantY := body(k)
		if math.Abs(x-wantX) > 1e-4 || math.Abs(y-wantY) > 1e-4 {
			t.Errorf("%g K: (%.5f, %.5f), expected (%.5f, %.5f)", k, x, y, wantX, wantY)
		}
	}
}

// TestRational1985: the rational approximation of 1985 gives the printed u, v of
// 1960 at three temperatures to the last digit, and the table lies within 0.0002 of
// it from 1000 to 10000 K: an independent way to the locus. Coefficients and printed
// values found in an open colour library and its tests.
func TestRational1985(t *testing.T) {
	uv := func(k float64) (u, v float64) {
		return (0.860117757 + 1.54118254e-4*k + 1.28641212e-7*k*k) / (1 + 8.42420235e-4*k + 7.08145163e-7*k*k),
			(0.317398726 + 4.22806245e-5*k + 4.20481691e-8*k*k) / (1 - 2.89741816e-5*k + 1.61456053e-7*k*k)
	}
	for _, c := range [][3]float64{{1000, 0.448087794140145, 0.354731965027727}, {7000, 0.198152565091092, 0.307023596915037}, {15000, 0.185675876767054, 0.282233658593898}} {
		u, v := uv(c[0])
		near(t, "u by the rational of 1985", u, c[1], 1e-14)
		near(t, "v by the rational of 1985", v, c[2], 1e-14)
	}
	for k := 1000.0; k <= 10000; k += 25 {
		x, y := Planck(q.Kelvin(k))
		u, v := uv(k)
		d := -2*x + 12*y + 3
		near(t, "u against the rational of 1985", 4*x/d, u, 0.0002)
		near(t, "v against the rational of 1985", 6*y/d, v, 0.0002)
	}
}

// TestCubic2002: the cubic of 2002 gives the printed x, y at 4000 K, and the table
// lies within 1e-4 of them.
func TestCubic2002(t *testing.T) {
	const k = 1000.0 / 4000
	cx := ((-0.2661239*k-0.2343589)*k+0.8776956)*k + 0.179910
	cy := ((-0.9549476*cx-1.37418593)*cx+2.09137015)*cx - 0.16748867
	near(t, "x by the cubic of 2002", cx, 0.3805282828125, 1e-14)
	near(t, "y by the cubic of 2002", cy, 0.376733530961114, 1e-14)
	x, y := Planck(4000)
	near(t, "x against the cubic of 2002", x, cx, 1e-4)
	near(t, "y against the cubic of 2002", y, cy, 1e-4)
}

// TestExitance: a flat diffuser of 100 cd/m² and 0.1 m² leaves 314 lm/m² (printed on a
// page on the cosine law); close before it, the light is its exitance: the whole
// opening is split into parts, and on the axis of a disc of radius R it is
// π·L·R²/(R² + h²) (derived).
func TestExitance(t *testing.T) {
	const area, luminance = 0.1, 100.0
	d, err := Beam(q.Lumen(math.Pi*luminance*area), 120)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "intensity", float64(d.Intensity(0, 0)), luminance*area, 0.002)
	near(t, "exitance, lm/m²", float64(d.Flux())/area, 314, 0.5)
	r := math.Sqrt(area / math.Pi)
	l := Lamp{At: Vec{0, 0, 0.06}, Dist: d, Share: 1, Opening: Opening{X: 2 * r, Y: 2 * r, Round: true}}
	want := math.Pi * luminance * r * r / (r*r + 0.06*0.06)
	near(t, "light 6 cm before the face", float64(scene(t, []Lamp{l}).At(Vec{}, Up)), want, 0.03*want)
}

// TestLevels: the lines are those of the request, none left out and none added.
func TestLevels(t *testing.T) {
	if want := []float64{0.5, 1, 2, 5, 10, 20, 50, 100}; !slices.Equal(Levels[:], want) {
		t.Errorf("levels %v, expected %v", Levels, want)
	}
}

// TestDither: the offsets of an 8 x 8 block are all 64 steps between -½ and ½ once,
// so that a flat field of any value keeps its mean, and a value between two steps
// shows both.
func TestDither(t *testing.T) {
	seen := map[float64]bool{}
	for y := range 8 {
		for x := range 8 {
			d := dither(x, y)
			if d <= -0.5 || d >= 0.5 || d != dither(x+8, y+16) {
				t.Fatalf("dither(%d, %d) is %g", x, y, d)
			}
			seen[d] = true
		}
	}
	if len(seen) != 64 {
		t.Errorf("%d offsets, expected 64", len(seen))
	}
	for _, want := range []float64{10.1, 10.5, 10.9, 200.25} {
		sum, values := 0.0, map[uint8]bool{}
		for y := range 8 {
			for x := range 8 {
				v := level(want/255, dither(x, y))
				sum += float64(v)
				values[v] = true
			}
		}
		near(t, "mean of a flat field", sum/64, want, 1.0/64)
		if len(values) != 2 {
			t.Errorf("%g of 255 shows %d values, expected both neighbours", want, len(values))
		}
	}
	// What is painted is dithered: ground of one kind under the moon alone.
	sheet, err := NewSheet(scene(t, nil), Grid{Step: 1, W: 16, H: 16})
	if err != nil {
		t.Fatal(err)
	}
	sheet.Fill()
	ground := Ground{Kind: make([]uint8, 256), Rho: []RGB{{0.14, 0.13, 0.11}}}
	painted := image.NewRGBA(image.Rect(0, 0, 16, 16))
	sheet.Paint(Night, ground, painted)
	for name, img := range map[string]*image.RGBA{"Paint": painted, "Picture": sheet.Picture(Night, func(int, int) RGB { return ground.Rho[0] })} {
		kinds := map[[3]uint8]bool{}
		for i := 0; i < len(img.Pix); i += 4 {
			kinds[[3]uint8(img.Pix[i:i+3])] = true
		}
		if len(kinds) < 2 {
			t.Errorf("%s: a flat field shows one colour: no dither", name)
		}
	}
}

// TestMoon: moonlight lies within what is recommended for such pictures (0.1 to 0.3 lx
// of 4100 to 7500 K, from memory), and is enough for kinds of ground to be told apart
// where no lamp shines: by four steps of a channel at least.
func TestMoon(t *testing.T) {
	if Night.Moon < 0.1 || Night.Moon > 0.3 || Night.MoonWhite < 4100 || Night.MoonWhite > 7500 {
		t.Errorf("moon of %v, %v", Night.Moon, Night.MoonWhite)
	}
	moon := Stimulus(Night.MoonWhite, float64(Night.Moon))
	for _, c := range [][2]RGB{{{0.06, 0.12, 0.04}, {0.10, 0.10, 0.06}}, {{0.14, 0.13, 0.11}, {0.10, 0.10, 0.06}}, {{0.30, 0.29, 0.27}, {0.14, 0.13, 0.11}}} {
		a, b := Night.Develop(moon, c[0]), Night.Develop(moon, c[1])
		most := 0.0
		for k := range a {
			most = math.Max(most, 255*math.Abs(a[k]-b[k]))
		}
		if most < 4 {
			t.Errorf("ground %v and %v differ by %.1f of 255 under the moon", c[0], c[1], most)
		}
	}
}
