package light

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	q "duskwire/calc/quantity"
)

// sample reads a synthetic file of ours.
func sample(t testing.TB, name string) *Photometry {
	t.Helper()
	b, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	p, err := Read(b, How{})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// near fails unless got is within tol of want.
func near(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: found %.7g, expected %.7g ± %g", what, got, want, tol)
	}
}

// TestSamples: flux of the synthetic files. The closed form is that of the
// README of the samples; table is the figure given there for the table, which is
// its integral. The zonal rule comes to the closed form where I is in proportion
// to cos γ, of which the bilateral light is a turn.
func TestSamples(t *testing.T) {
	for _, c := range []struct {
		file, format  string
		table, tol    float64
		zonal, zonal2 float64 // closed form, tolerance
		watts         float64
	}{
		{"synthetic_lambert_typeC_1deg.ies", "LM-63-2019", 314.159, 0.01, 100 * math.Pi, 0.001, 10},
		{"synthetic_cosn_24deg_500lm.ies", "LM-63-2002", 500.1, 0.01, 500, 0.25, 6},
		{"synthetic_bilateral_C90-C270.ies", "LM-63-1995", 313.96, 0.01, 100 * math.Pi, 0.001, 10},
		{"synthetic_same_full_0-360.ies", "LM-63-1995", 313.96, 0.01, 100 * math.Pi, 0.001, 10},
		{"synthetic_same_isym3.ldt", "EULUMDAT", 0.9994 * 314.1593, 0.02, 100 * math.Pi, 0.001, 10},
		{"synthetic_isotropic_isym1_comma.ldt", "EULUMDAT", 1000, 0.001, 1000, 0.001, 8.5},
		{"synthetic_typeB_cosV_cos3H.ies", "LM-63-2002", 75 * math.Pi, 0.5, 75 * math.Pi, 0.5, 10},
	} {
		p := sample(t, c.file)
		if p.Format != c.format {
			t.Errorf("%s: format %s, expected %s", c.file, p.Format, c.format)
		}
		near(t, c.file+" flux", float64(p.Dist.Flux()), c.table, c.tol)
		near(t, c.file+" zonal flux", float64(p.Dist.ZonalFlux()), c.zonal, c.zonal2)
		near(t, c.file+" watts", float64(p.Watts.Value), c.watts, 0)
	}
	iso := sample(t, "synthetic_isotropic_isym1_comma.ldt")
	near(t, "isotropic cd", float64(iso.Dist.Intensity(123, 77)), 79.5775, 1e-9)
	near(t, "DFF", iso.Dist.DownwardShare(), 0.5, 1e-9)
	if iso.White.Value != 3000 || !iso.White.Known {
		t.Errorf("white of the isotropic file: %v, expected 3000 K", iso.White)
	}
}

// TestSameLight: three files of one light give the same intensity everywhere.
// Isym 3 read 90 up to 270 would turn the beam by 180°.
func TestSameLight(t *testing.T) {
	full := sample(t, "synthetic_same_full_0-360.ies").Dist
	for _, name := range []string{"synthetic_bilateral_C90-C270.ies", "synthetic_same_isym3.ldt"} {
		d := sample(t, name).Dist
		for c := 0.0; c < 360; c += 7 {
			for g := 0.0; g <= 90; g += 3 {
				near(t, fmt.Sprintf("%s C%g γ%g", name, c, g), float64(d.Intensity(c, g)), float64(full.Intensity(c, g)), 2e-4)
			}
		}
	}
	if one, other := full.Intensity(90, 45), full.Intensity(270, 45); one == other {
		t.Error("the sample is the same on both sides: it cannot tell the reading of Isym 3")
	}
}

// TestTypeB: the axis of Type B, I = 100 cosV cos³H (closed form of the sample).
func TestTypeB(t *testing.T) {
	d := sample(t, "synthetic_typeB_cosV_cos3H.ies").Dist
	for c := 0.0; c < 360; c += 30 {
		for g := 0.0; g < 85; g += 9 {
			s, k := math.Sincos(g * degree)
			sc, cc := math.Sincos(c * degree)
			h, v := math.Asin(s*sc), math.Atan2(s*cc, k)
			near(t, fmt.Sprintf("C%g γ%g", c, g), float64(d.Intensity(c, g)), 100*math.Cos(v)*math.Pow(math.Cos(h), 3), 0.8)
		}
	}
}

const head63 = "IESNA:LM-63-2002\n[TEST] x\nTILT=NONE\n"

// TestRefused: one line that says what was found and expected.
func TestRefused(t *testing.T) {
	ldt, _ := os.ReadFile("testdata/synthetic_same_isym3.ldt")
	line := func(n int, s string) []byte {
		l := strings.Split(strings.ReplaceAll(string(ldt), "\r", ""), "\n")
		l[n-1] = s
		return []byte(strings.Join(l, "\n"))
	}
	oneZero := strings.Replace(string(ldt), "\r\n", "\n", -1)
	for _, c := range []struct {
		name   string
		file   []byte
		ending string
		want   string
	}{
		{"nothing", nil, "", "LM-63: found no line TILT=, expected one"},
		{"nothing, ldt", nil, ".ldt", "EULUMDAT: company"},
		{"prose, ies", []byte("a\nb\n"), ".ies", "LM-63: found no line TILT=, expected one"},
		{"prose, ldt", []byte("a\nb\nc\nd\ne\nf\ng\nh\ni\n"), ".LDT", `EULUMDAT: line 2, kind of lamp: found "b", expected a number from 0 to 3`},
		{"too few", []byte(head63 + "1 -1 1 3 1 1 2 0 0 0 1 1 10 0 45 90 0 100 50"), "", "found 2 numbers before the end of the file, expected 3"},
		{"many planes", []byte(head63 + "1 -1 1 3 1000000000 1 2 0 0 0 1 1 10"), "", "found 1e+09, expected a whole number from 1 to 2000"},
		{"large table", []byte(head63 + "1 -1 1 2000 2000 1 2 0 0 0 1 1 10"), "", "found 2000 x 2000 intensities, expected at most 1000000"},
		{"nan", []byte(head63 + "1 -1 1 3 1 1 2 0 0 0 1 1 10 0 45 90 0 100 nan 3"), "", `found "nan" as number 2 of 3`},
		{"negative", []byte(head63 + "1 -1 1 3 1 1 2 0 0 0 1 1 10 0 45 90 0 100 -5 3"), "", "found -5 cd, expected 0 or more"},
		{"falling", []byte(head63 + "1 -1 1 3 1 1 2 0 0 0 1 1 10 0 95 90 0 100 5 3"), "", "found 90° after 95°, expected rising angles"},
		{"part circle", []byte(head63 + "1 -1 1 2 2 1 2 0 0 0 1 1 10 0 90 0 270 1 2 3 4"), "", "found 0° to 270°, expected 0, 0-90, 0-180, 90-270 or 0-360"},
		{"type A, one plane", []byte(head63 + "1 -1 1 2 1 3 2 0 0 0 1 1 10 0 90 0 1 2"), "", "horizontal angles: found 1, expected 2 or more in Type A"},
		{"type B, one plane", []byte(head63 + "1 -1 1 2 1 2 2 0 0 0 1 1 10 0 90 0 1 2"), "", "horizontal angles: found 1, expected 2 or more in Type B"},
		{"type A, angles", []byte(head63 + "1 -1 1 2 2 3 2 0 0 0 1 1 10 10 90 0 90 1 2 3 4"), "", "angles of Type A: found a start at 0° horizontal, 10° vertical"},
		{"multiplier", []byte(head63 + "1 -1 0 2 1 1 2 0 0 0 1 1 10 0 90 0 1 2"), "", "multiplier: found 0, expected more than 0"},
		{"word", []byte(head63 + "1 -1 1 2 x"), "", `found "x" as number 1 of 1`},
		{"dark", []byte(head63 + "1 -1 1 3 1 1 2 0 0 0 1 1 10 0 45 90 0 0 0 0"), "", "intensities: found 0 cd in all directions, expected light in some"},
		{"dark B", []byte(head63 + "1 -1 1 2 2 2 2 0 0 0 1 1 10 0 90 0 90 0 0 0 0"), "", "intensities: found 0 cd in all directions"},
		// Decimal commas make two numbers of one: 100, 5, 50 where 100.5, 50.2 is meant.
		{"decimal commas", []byte(head63 + "1 -1 1 3 1 1 2 0 0 0 1 1 10\n0 45 90\n0\n100,5 50,2 0,0"), "", `found 3 numbers more than the counts ask for, and commas between digits as in "100,5", expected points`},
		{"decimal comma, once", []byte(head63 + "1 -1 1 3 1 1 2 0 0 0 1 1 10\n0 45 90\n0\n100 50 10,5"), "", `found 1 numbers more than the counts ask for, and commas between digits as in "10,5"`},
		{"decimal commas in the values", []byte(head63 + "1 500,0 1,0 3 1 1 2 0,1 0,1 0,0\n1,0 1,0 10,5\n0 45 90\n0\n100 50 0"), "", `number of vertical angles: found 1, expected a whole number from 2 to 2000, and commas between digits as in "500,0", expected points`},
		{"points in the values", []byte(head63 + "1 500.0 1.0 0 1 1 2 0 0 0\n1 1 10\n0 45 90\n0\n100,5 50 0"), "", "number of vertical angles: found 0, expected a whole number from 2 to 2000"},
		{"ldt symmetry", line(3, "7"), ".ldt", "EULUMDAT: line 3, symmetry: found \"7\", expected a number from 0 to 4"},
		{"ldt symmetry, named ies", line(3, "7"), ".ies", "EULUMDAT: line 3, symmetry: found \"7\", expected a number from 0 to 4"},
		{"ldt symmetry, name not known", line(3, "7"), "", "EULUMDAT: line 3, symmetry"},
		{"ldt without planes", line(4, "x"), ".ldt", `EULUMDAT: line 4, number of C planes: found "x", expected a number from 1 to 2000`},
		{"ldt short", ldt[:len(ldt)/2], ".ldt", "EULUMDAT: intensity: found "},
		{"ldt planes", line(4, "22"), "", "expected"},
		{"ldt flux", line(29, "0"), "", "lamp flux of set 1: found 0 lm, expected more than 0"},
		{"ldt word", line(60, "many"), "", `found "many", expected a number from 0 to 360`},
		{"ldt dark", darkLDT(oneZero), ".ldt", "EULUMDAT: intensities: found 0 cd in all directions"},
	} {
		p, err := Read(c.file, How{Ending: c.ending})
		if err == nil || p != nil || !strings.Contains(err.Error(), c.want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v, expected one line with %q", c.name, err, c.want)
		}
	}
	// What is not one format by its name is read as the one that it is.
	if p, err := Read(ldt, How{Ending: ".ies"}); err != nil || p.Format != "EULUMDAT" {
		t.Errorf("an .ldt named .ies: %v", err)
	}
	if _, err := Read([]byte(head63+"1 -1 1 2 1 1 2 0 0 0 1 1 10 0 90 0 100 0"), How{Ending: ".ldt"}); err != nil {
		t.Errorf("an .ies named .ldt: %v", err)
	}
	if _, err := Read([]byte(strings.ReplaceAll(head63, "\n", "\r")+"1 -1 1 2 1 1 2 0 0 0 1 1 10 0 90 0 100 0"), How{Ending: ".ldt"}); err != nil {
		t.Errorf("an .ies named .ldt with lone carriage returns: %v", err)
	}
	if _, err := Read([]byte(head63+"1 -1 1 2 1 1 2 0 0 0 1 1 10 0 90 0 100 0"), How{Set: 2}); err == nil || !strings.Contains(err.Error(), "lamp set: found 2, expected none") {
		t.Errorf("a lamp set of LM-63: %v", err)
	}
}

// darkLDT takes the light out of a file.
func darkLDT(text string) []byte {
	l := strings.Split(strings.TrimSpace(text), "\n")
	angles := 26 + 6 + 10
	mc, ng := 0, 0
	fmt.Sscan(l[3], &mc)
	fmt.Sscan(l[5], &ng)
	for i := angles + mc + ng; i < len(l); i++ {
		l[i] = "0"
	}
	return []byte(strings.Join(l, "\n"))
}

// TestSloppy: what real writers get wrong, read as it is meant and said so.
func TestSloppy(t *testing.T) {
	for _, c := range []struct {
		name, file string
		cd         float64 // at C 0, γ 0
		guess      string
	}{
		{"1986, ballast and future multiply", "free text\nTILT=NONE\n1 1000 2 3 1 1 2 0 0 0\n0.5 0.9 40\n0 45 90\n0\n100 50 0", 90, ""},
		{"future 0 kills nothing", "IESNA91\nTILT=NONE\n1 1000 1 3 1 1 2 0 0 0 1 0 40 0 45 90 0 100 50 0", 100, ""},
		{"1995 has no factor there", "IESNA95\nTILT=NONE\n1 1000 1 3 1 1 2 0 0 0 1 0.5 40 0 45 90 0 100 50 0", 100, ""},
		{"space in the version, lower case tilt", "IESNA: LM-63-2002 \r\n[_A B ] c\r\n\r\n tilt = none\r\n1,-1,1.0,3.0,1,1,2,0,0,0,1,1,40\r0,45,90,0\r.1e3,5.e1,0", 100, ""},
		{"latin-1", "IESNA:LM-63-2002\n[LAMP] 2700K wei\xdf\nTILT=NONE\n1 -1 1 3 1 1 2 0 0 0 1 1 40 0 45 90 0 100 50 0", 100, "2700 K"},
		{"circle left open", head63 + "1 -1 1 2 3 1 2 0 0 0 1 1 10 0 90 0 120 240 100 1 100 2 100 3", 100, "closed with the first"},
		{"commas where the counts fit", head63 + "1,-1,1.0,3,1,1,2,0,0,0,1,1,40\n0,45,90\n0\n100.5,50.2,0.0", 100.5, ""},
		{"no lumens in the label", head63[:22] + "[LAMP] LED 90 lm/W\nTILT=NONE\n1 -1 1 3 1 1 2 0 0 0 1 1 10 0 45 90 0 100 50 0", 100, ""},
		{"lumens of a label, absolute", "IESNA:LM-63-2002\n[LAMP] LED 3000K,2,200 lm\nTILT=NONE\n1 -1 1 3 1 1 2 0 0 0 1 1 10 0 45 90 0 100 50 0", 100, "of the 2200 lm that the label LAMP names"},
		{"lumens of a label, relative", "IESNA:LM-63-2002\n[LAMP] LED 650lm\nTILT=NONE\n1 300 1 3 1 1 2 0 0 0 1 1 10 0 45 90 0 100 50 0", 100, "label LAMP names 650 lm, the numbers declare 300 lm"},
		{"absolute lumens", "IESNA:LM-63-2002\n[_ABSOLUTELUMENS] 400\nTILT=NONE\n1 -1 1 3 1 1 2 0 0 0 1 1 10 0 45 90 0 100 50 0", 100, "the file says 400 lm of the luminaire"},
		{"near field", "IESNA:LM-63-2002\n[NEARFIELD] 1 1 1\nTILT=NONE\n1 -1 1 3 1 1 2 0 0 0 1 1 10 0 45 90 0 100 50 0", 100, "NEARFIELD"},
		{"more than counted", head63 + "1 -1 1 2 1 1 2 0 0 0 1 1 10 0 90 0 100 0 7 7", 100, "2 values after the last"},
		{"0 and 360 differ", head63 + "1 -1 1 2 3 1 2 0 0 0 1 1 10 0 90 0 180 360 100 10 100 20 100 30", 100, "differ by up to 20 cd"},
		{"tilt file", "TILT=lamp.tlt\n1 -1 1 2 1 1 2 0 0 0 1 1 10 0 90 0 100 0", 100, "lamp.tlt"},
	} {
		p, err := ReadLM63([]byte(c.file))
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		near(t, c.name, float64(p.Dist.Intensity(0, 0)), c.cd, 1e-9)
		if !strings.Contains(strings.Join(p.Guesses, "\n"), c.guess) {
			t.Errorf("%s: guesses %q lack %q", c.name, p.Guesses, c.guess)
		}
	}
	p, err := ReadLM63([]byte("TILT=INCLUDE\n1 3 0 45 90 1 .9 .8\n1 -1 1 2 1 1 2 0 0 0 1 1 10 0 90 0 100 0"))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "tilt factor", p.Tilt.Factor(67.5), 0.85, 1e-12)
	near(t, "no tilt table", (*TiltTable)(nil).Factor(30), 1, 0)
}

// TestLabelLumens: what a label says of the flux is compared and, where it fits,
// says nothing.
func TestLabelLumens(t *testing.T) {
	for text, want := range map[string]float64{"LED 1200 lm": 1200, "1,200 lm": 1200, "LED 12 W, 840 lumens, 3000 K": 840, "LED 3000K,650lm": 650, "95 lm/W": 0, "CRI 90": 0, "95.5 LM each": 95.5} {
		p := &Photometry{Labels: []Label{{"OTHER", "7 lm"}, {"LAMP", text}}}
		if got := p.labelled(); float64(got.Or(0)) != want {
			t.Errorf("%q: %v, expected %g lm", text, got, want)
		}
	}
	for _, text := range []string{"[LAMP] two of 150 lm", "[LAMP] 300 lm in all"} {
		p, err := ReadLM63([]byte("IESNA:LM-63-2002\n" + text + "\nTILT=NONE\n2 150 1 3 1 1 2 0 0 0 1 1 10 0 45 90 0 100 50 0"))
		if err != nil || strings.Contains(strings.Join(p.Guesses, "\n"), "label LAMP") {
			t.Errorf("%s: %v, %q", text, err, p.Guesses)
		}
	}
}

// TestTypeA: I = 100 cosH cos³V, straight ahead along the axis: the polar axis of
// Type A is the other one of Type B (formats page), so that the closed form of the
// Type B sample holds with V and H changed, 75π lm.
func TestTypeA(t *testing.T) {
	var b strings.Builder
	b.WriteString(head63 + "1 -1 1 37 37 3 2 0 0 0 1 1 10\n")
	for range 2 {
		for a := -90; a <= 90; a += 5 {
			fmt.Fprintf(&b, " %d", a)
		}
	}
	for h := -90.0; h <= 90; h += 5 {
		for v := -90.0; v <= 90; v += 5 {
			// Twice as bright above as below, so that up is told from down.
			k := 1.0
			if v >= 0 {
				k = math.Min(2, 1.5+v)
			}
			fmt.Fprintf(&b, " %.6f", k*100*math.Cos(h*degree)*math.Pow(math.Cos(v*degree), 3)/1.5)
		}
	}
	p, err := Read([]byte(b.String()), How{})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "flux", float64(p.Dist.Flux()), 75*math.Pi, 4)
	for _, d := range []Vec{{0.3, 0.5, -0.8}, {-0.3, 0.5, -0.8}, {0.7, 0.2, -0.6}, {0.3, -0.5, -0.8}, {0, -0.8, -0.5}} {
		e := d.Unit()
		v, h := math.Asin(e.Y), math.Atan2(e.X, -e.Z)
		k := 1.0
		if v > 0 {
			k = 2
		}
		near(t, fmt.Sprintf("towards %v", d), p.Dist.along(e), k*100*math.Cos(h)*math.Pow(math.Cos(v), 3)/1.5, 1.2)
	}
	if !strings.Contains(strings.Join(p.Guesses, "\n"), "Type A") {
		t.Errorf("guesses %q lack the warning", p.Guesses)
	}
	half, err := Read([]byte(head63+"1 -1 1 2 2 3 2 0 0 0 1 1 10 0 90 0 90 100 0 50 0"), How{})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "halves are mirrored", half.Dist.along(Vec{-0.3, -0.4, -0.8}.Unit()), half.Dist.along(Vec{0.3, 0.4, -0.8}.Unit()), 1e-6)
}

// TestTiltFile: the file that TILT= names holds what TILT=INCLUDE would.
func TestTiltFile(t *testing.T) {
	file := []byte("TILT=lamp.tlt\n1 -1 1 2 1 1 2 0 0 0 1 1 10 0 90 0 100 0")
	p, err := ReadLM63(file)
	if err != nil || p.TiltFile != "lamp.tlt" || p.Tilt != nil {
		t.Fatalf("%v, %+v", err, p)
	}
	with, err := p.WithTilt([]byte("1\r\n3\r\n0 45 90\r\n1 .9\r\n.8\r\n"))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "factor", with.Tilt.Factor(67.5), 0.85, 1e-12)
	if s := strings.Join(with.Guesses, "\n"); strings.Contains(s, "was not read") || len(with.Guesses) != len(p.Guesses)-1 || p.Tilt != nil {
		t.Errorf("guesses %q of %q", with.Guesses, p.Guesses)
	}
	for text, want := range map[string]string{
		"":                      "lamp geometry of TILT: found 0 numbers before the end of the file, expected 1",
		"4 3 0 45 90 1 1 1":     "lamp geometry of TILT: found 4, expected a whole number from 1 to 3",
		"1 3 0 45 90 1 1":       "factors of TILT: found 2 numbers before the end of the file, expected 3",
		"1 2 0 90 1 -1":         "factors of TILT: found -1, expected 0 or more",
		"1 2 90 0 1 1":          "found 0° after 90°",
		"1\n2\n0 x 1 1":         `found "x" as number 2 of 2 (line 3 of the TILT file)`,
		"1 2 0 90 1 1 1":        "found 1 numbers after the last factor",
		"1 1000000000 0 90 1 1": "found 1e+09, expected a whole number from 1 to 2000",
	} {
		if with, err := p.WithTilt([]byte(text)); err == nil || with != nil || !strings.Contains(err.Error(), want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%q: %v, expected %q", text, err, want)
		}
	}
}

// TestQuadrants: each symmetry against the rule it stands for.
func TestQuadrants(t *testing.T) {
	quarter, err := ReadLM63([]byte(head63 + "1 -1 1 2 3 1 2 0 0 0 1 1 10 0 90 0 30 90 100 10 100 20 100 60"))
	if err != nil {
		t.Fatal(err)
	}
	half, err := ReadLM63([]byte(head63 + "1 -1 1 2 3 1 2 0 0 0 1 1 10 0 90 0 30 180 100 10 100 20 100 60"))
	if err != nil {
		t.Fatal(err)
	}
	for c := 0.0; c < 360; c += 10 {
		at := func(d *Distribution, c float64) float64 { return float64(d.Intensity(c, 60)) }
		near(t, "180-C", at(quarter.Dist, 180-c), at(quarter.Dist, c), 1e-9)
		near(t, "360-C", at(quarter.Dist, 360-c), at(quarter.Dist, c), 1e-9)
		near(t, "360-C, half", at(half.Dist, 360-c), at(half.Dist, c), 1e-9)
	}
	near(t, "value at C 60 of the quarter", float64(quarter.Dist.Intensity(60, 90)), 40, 1e-9)
	turned := half.Dist.Turned(40)
	mirrored := half.Dist.Mirrored()
	for c := 0.0; c < 360; c += 10 {
		near(t, "turned", float64(turned.Intensity(c+40, 60)), float64(half.Dist.Intensity(c, 60)), 1e-9)
		near(t, "mirrored", float64(mirrored.Intensity(-c, 60)), float64(half.Dist.Intensity(c, 60)), 1e-9)
	}
	near(t, "flux kept by turning", float64(turned.Flux()), float64(half.Dist.Flux()), 1e-9)
}

// TestOpenings: round shapes as 1995 and 2002 mark them.
func TestOpenings(t *testing.T) {
	for _, c := range []struct {
		w, l, h float64
		units   int
		want    Opening
	}{
		{0, 0, 0, 2, Opening{}},
		{0.1, 0.6, 0, 2, Opening{X: 0.6, Y: 0.1}},
		{1, 2, 0, 1, Opening{X: 0.6096, Y: 0.3048}},
		{-0.2, 0, 0, 2, Opening{X: 0.2, Y: 0.2, Round: true}},
		{-0.092, -0.092, 0, 2, Opening{X: 0.092, Y: 0.092, Round: true}},
		{0, 0.5, -0.04, 2, Opening{X: 0.5, Y: 0.04, Z: 0.04}},
	} {
		if got := lm63Opening(c.w, c.l, c.h, c.units); got != c.want {
			t.Errorf("%g %g %g: %+v, expected %+v", c.w, c.l, c.h, got, c.want)
		}
	}
}

// FuzzRead: no file breaks the readers, and what they take can be drawn.
func FuzzRead(f *testing.F) {
	names, _ := os.ReadDir("testdata")
	for _, n := range names {
		if b, err := os.ReadFile("testdata/" + n.Name()); err == nil {
			f.Add(b)
		}
	}
	f.Add([]byte(head63 + "1 -1 1 2 3 2 2 0 0 0 1 1 10 0 90 -90 0 90 1 2 3 4 5 6"))
	f.Add([]byte("TILT=INCLUDE\n1 3 0 45 90 1 .9 .8\n1 -1 1 2 1 1 2 0 0 0 1 1 10 0 90 0 100 0"))
	f.Fuzz(func(t *testing.T, b []byte) {
		set := 0
		if len(b) > 0 {
			set = int(b[len(b)-1]) % 4
		}
		for _, read := range []func() (*Photometry, error){
			func() (*Photometry, error) { return Read(b, How{Ending: ".ldt", Set: set}) },
			func() (*Photometry, error) { return ReadLM63(b) },
			func() (*Photometry, error) { return ReadEULUMDAT(b, 0) },
		} {
			p, err := read()
			if err != nil {
				if p != nil || strings.Contains(err.Error(), "\n") {
					t.Fatalf("error %q with %v", err, p)
				}
				continue
			}
			flux := float64(p.Dist.Flux())
			if math.IsNaN(flux) || math.IsInf(flux, 0) || flux < -1e-6 {
				t.Fatalf("flux %g", flux)
			}
			for _, g := range []float64{0, 30, 90, 180} {
				if i := float64(p.Dist.Intensity(200, g)); !(i >= 0) {
					t.Fatalf("%g cd at γ %g", i, g)
				}
			}
			if l := (Lamp{Dist: p.Dist, Share: 1, Opening: p.Opening}); l.check() != nil {
				t.Fatal(l.check())
			}
			p.Dist.BeamAngle(0)
			_ = q.Lumen(flux)
		}
	})
}
