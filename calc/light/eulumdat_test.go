package light

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// ldtFile writes a file of 24 planes and 19 angles: lamps holds the lines from
// the number of sets on, planes the C of the stored planes.
func ldtFile(sym int, ratio, factor float64, lamps string, planes []float64, cd func(c, g float64) float64) []byte {
	var b strings.Builder
	fmt.Fprintf(&b, "invented\r\n3\r\n%d\r\n24\r\n15\r\n19\r\n10\r\n\r\nname\r\n\r\n\r\n\r\n", sym)
	fmt.Fprintf(&b, "600\r\n100\r\n50\r\n500\r\n80\r\n0\r\n0\r\n0\r\n0\r\n100\r\n%g\r\n%g\r\n0\r\n", ratio, factor)
	b.WriteString(strings.ReplaceAll(lamps, " ", "\r\n") + "\r\n")
	b.WriteString(strings.Repeat("0\r\n", 10))
	for c := 0; c < 360; c += 15 {
		fmt.Fprintf(&b, "%d\r\n", c)
	}
	for g := 0; g <= 180; g += 10 {
		fmt.Fprintf(&b, "%d\r\n", g)
	}
	for _, c := range planes {
		for g := 0.0; g <= 180; g += 10 {
			b.WriteString(strings.Replace(fmt.Sprintf("%.6f", cd(c, g)), ".", ",", 1) + "\r\n")
		}
	}
	return []byte(b.String())
}

func steps(from, to float64) (out []float64) {
	for c := from; c <= to; c += 15 {
		out = append(out, c)
	}
	return out
}

// TestSymmetries: each symmetry stores its own planes of a light that has it;
// read back, every direction has the value of the light. The rules are those of
// the format table named in the formats page.
func TestSymmetries(t *testing.T) {
	sin := func(d float64) float64 { return math.Sin(d * degree) }
	cos := func(d float64) float64 { return math.Cos(d * degree) }
	for _, c := range []struct {
		sym    int
		planes []float64
		shape  func(c float64) float64 // 0 to 1, has the symmetry
	}{
		{0, steps(0, 345), func(c float64) float64 { return 0.5 + 0.2*sin(c) + 0.3*cos(2*c+20) }},
		{1, []float64{0}, func(float64) float64 { return 0.7 }},
		{2, steps(0, 180), func(c float64) float64 { return 0.5 + 0.4*cos(c) }},
		{3, append(steps(270, 345), steps(0, 90)...), func(c float64) float64 { return 0.5 + 0.4*sin(c) }},
		{4, steps(0, 90), func(c float64) float64 { return 0.5 + 0.4*cos(2*c) }},
	} {
		light := func(p, g float64) float64 { return 300 * (1 + sin(g)*c.shape(p)) }
		p, err := Read(ldtFile(c.sym, 0, 1, "1 -1 LED 2000 2700 80 25", c.planes, light), How{})
		if err != nil {
			t.Errorf("symmetry %d: %v", c.sym, err)
			continue
		}
		for at := 0.0; at < 360; at += 15 {
			for g := 0.0; g <= 180; g += 10 {
				near(t, fmt.Sprintf("symmetry %d, C %g, γ %g", c.sym, at, g), float64(p.Dist.Intensity(at, g)), 2*light(at, g), 1e-4)
				near(t, fmt.Sprintf("symmetry %d, between C %g and the next, γ %g", c.sym, at, g), float64(p.Dist.Intensity(at+7.5, g)), light(at, g)+light(at+15, g), 1e-4)
			}
		}
		if !p.Absolute || p.Watts.Value != 25 || p.White.Value != 2700 {
			t.Errorf("symmetry %d: absolute %v, %v, %v", c.sym, p.Absolute, p.Watts, p.White)
		}
		// The length lies along C90.
		if want := (Opening{X: 0.08, Y: 0.5}); p.Opening != want {
			t.Errorf("opening %+v, expected %+v", p.Opening, want)
		}
	}
}

// TestLampSets: sets are alternatives, the first counts; a flux of words is told.
func TestLampSets(t *testing.T) {
	even := func(float64, float64) float64 { return 1000 / (4 * math.Pi) }
	p, err := Read(ldtFile(1, 100, 1, "2 1 A 500 3000K 80 10 2 B 900 4000K 80 20", []float64{0}, even), How{})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "flux of the first set", float64(p.Dist.Flux()), 500, 0.01)
	if len(p.Sets) != 2 || p.Sets[1].Flux != 900 || p.White.Value != 3000 || !strings.Contains(strings.Join(p.Guesses, "\n"), "2 lamp sets") {
		t.Errorf("sets %+v, white %v, guesses %q", p.Sets, p.White, p.Guesses)
	}
	// The second one chosen: its flux, white and watts, and nothing left open.
	p, err = Read(ldtFile(1, 100, 1, "2 1 A 500 3000K 80 10 2 B 900 4000K 80 20", []float64{0}, even), How{Set: 2})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "flux of the second set", float64(p.Dist.Flux()), 900, 0.02)
	if p.Set != 2 || p.White.Value != 4000 || p.Watts.Value != 20 || p.Declared.Value != 900 || strings.Contains(strings.Join(p.Guesses, "\n"), "lamp sets") {
		t.Errorf("second set: %+v", p)
	}
	for _, set := range []int{-1, 3} {
		if _, err := Read(ldtFile(1, 100, 1, "2 1 A 500 3000K 80 10 2 B 900 4000K 80 20", []float64{0}, even), How{Set: set}); err == nil || !strings.Contains(err.Error(), "expected 1 to 2") {
			t.Errorf("set %d: %v", set, err)
		}
	}
	// Value by value: both numbers of lamps, both types, ...
	p, err = Read(ldtFile(1, 100, 1, "2 1 2 A B 500 900 3000K 4000K 80 80 10 20", []float64{0}, even), How{})
	if err != nil {
		t.Fatal(err)
	}
	if p.Sets[0].Flux != 500 || p.Sets[1].Watts != 20 {
		t.Errorf("value by value: %+v", p.Sets)
	}
}

// TestConversion: the factor is applied only where the output ratio asks for it.
func TestConversion(t *testing.T) {
	even := func(float64, float64) float64 { return 1000 / (4 * math.Pi) }
	for _, c := range []struct{ ratio, factor, flux float64 }{{100, 0.8, 1000}, {80, 0.8, 800}, {80, 1, 1000}, {0, 0.8, 1000}} {
		p, err := Read(ldtFile(1, c.ratio, c.factor, "1 1 LED 1000 3000 80 10", []float64{0}, even), How{})
		if err != nil {
			t.Fatal(err)
		}
		near(t, fmt.Sprintf("ratio %g, factor %g", c.ratio, c.factor), float64(p.Dist.Flux()), c.flux, 0.01)
		if told := strings.Contains(strings.Join(p.Guesses, "\n"), "header says"); told != (c.ratio == 80 && c.factor == 1) {
			t.Errorf("ratio %g, factor %g: guesses %q", c.ratio, c.factor, p.Guesses)
		}
	}
}
