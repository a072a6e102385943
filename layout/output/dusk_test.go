package output_test

import (
	"bytes"
	"image/png"
	"math"
	"testing"

	"duskwire/calc/light"
	"duskwire/layout"
	"duskwire/layout/file"
	"duskwire/layout/output"
)

// night returns the frame of the shipped example.
func night(t *testing.T) (*layout.Frame, *layout.Desk) {
	t.Helper()
	scheme, stock, rules, err := file.Open("../../assets/examples/townhouse.yaml", "", "")
	if err != nil {
		t.Fatal(err)
	}
	desk := layout.NewDesk(stock, rules, scheme, "")
	return desk.Frame(), desk
}

// TestLux: L7 of the example, a 36° beam of 400 lm 2.1 m above the plan's
// (3.25, 11.5) that shines straight down (not aimed): I0 = Φ(n+1)/2π, E = 0.8·I0/h²
// by the formula, with 0.2 lx left for the others.
func TestLux(t *testing.T) {
	f, desk := night(t)
	r, err := output.LuxOf(f, output.RulesOf(desk.Rules(), f.Scheme), light.Vec{X: 3.25, Y: 11.5, Z: 0})
	if err != nil {
		t.Fatal(err)
	}
	n := math.Log(0.5) / math.Log(math.Cos(18*math.Pi/180))
	want := 0.8 * 400 * (n + 1) / (2 * math.Pi) / (2.1 * 2.1)
	if math.Abs(r.Horizontal-want) > 0.2+0.002*want {
		t.Errorf("below L7: %g lx, expected %g", r.Horizontal, want)
	}
	sum := 0.0
	for _, l := range r.Lamps {
		sum += l.Horizontal
	}
	if math.Abs(sum-r.Horizontal) > 1e-3 {
		t.Errorf("the lamps give %g lx, the point has %g", sum, r.Horizontal)
	}
	if r.Kelvin == nil || math.Abs(*r.Kelvin-3000) > 30 {
		t.Errorf("mixed white %v, expected about 3000 K", r.Kelvin)
	}
	if len(r.Assumed) == 0 || r.Caveat == "" {
		t.Error("nothing assumed and no caveat, though no lamp is aimed")
	}
}

// TestDusk: the picture is bright under L7, dark in the far corner, and the
// contours change it.
func TestDusk(t *testing.T) {
	f, _ := night(t)
	var plain, lined, again bytes.Buffer
	if _, err := output.DuskOf(&plain, f, false); err != nil {
		t.Fatal(err)
	}
	if _, err := output.DuskOf(&lined, f, true); err != nil {
		t.Fatal(err)
	}
	if _, err := output.DuskOf(&again, f, true); err != nil {
		t.Fatal(err)
	}
	if bytes.Equal(plain.Bytes(), lined.Bytes()) {
		t.Error("contours change nothing")
	}
	if !bytes.Equal(lined.Bytes(), again.Bytes()) {
		t.Error("the same frame gives another picture")
	}
	img, err := png.Decode(&plain)
	if err != nil {
		t.Fatal(err)
	}
	b := img.Bounds()
	if b.Dy() != 1024 {
		t.Fatalf("picture %v, expected 1024 pixels high", b)
	}
	most, least := uint32(0), uint32(math.MaxUint32)
	for y := range b.Dy() {
		r, g, _, _ := img.At(b.Dx()/2, y).RGBA()
		most, least = max(most, r+g), min(least, r+g)
	}
	if most < 60000 || least > 20000 {
		t.Errorf("down the middle from %d to %d, expected dark and bright", least, most)
	}
}
