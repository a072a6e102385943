package output_test

import (
	"bytes"
	"context"
	"image/png"
	"math"
	"strings"
	"testing"

	"duskwire/calc/light"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
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

// drawn returns a night picture as it is written.
func drawn(t *testing.T, f *layout.Frame, o output.Dusk) ([]byte, output.DuskMade) {
	t.Helper()
	var out bytes.Buffer
	made, err := output.DuskOf(context.Background(), &out, f, o)
	if err != nil {
		t.Fatal(err)
	}
	return out.Bytes(), made
}

// TestDusk: the picture is bright under L7, dark in the far corner, the contours
// change it, and it says what it is and is not.
func TestDusk(t *testing.T) {
	f, _ := night(t)
	plain, made := drawn(t, f, output.Dusk{})
	lined, _ := drawn(t, f, output.Dusk{Contours: true})
	again, _ := drawn(t, f, output.Dusk{Contours: true})
	if bytes.Equal(plain, lined) {
		t.Error("contours change nothing")
	}
	if !bytes.Equal(lined, again) {
		t.Error("the same frame gives another picture")
	}
	for _, part := range []string{layout.NightCaveat, "Photopic", "direct light only", "maintained: ×0.8"} {
		if !strings.Contains(made.Caption, part) {
			t.Errorf("caption %q lacks %q", made.Caption, part)
		}
	}
	if made.Title == "" || made.Title != f.Scheme.Title {
		t.Errorf("title %q, want %q", made.Title, f.Scheme.Title)
	}
	img, err := png.Decode(bytes.NewReader(plain))
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

// pale counts pixels of the grey that lines and symbols of the plan have by night.
func pale(t *testing.T, data []byte) (n int) {
	t.Helper()
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	b := img.Bounds()
	for y := range b.Dy() - 40 { // the caption has such letters too
		for x := range b.Dx() {
			if r, g, bl, _ := img.At(x, y).RGBA(); bl > 0x7000 && r > 0x7000 && g > 0x7000 && max(r, g, bl)-min(r, g, bl) < 0x2800 {
				n++
			}
		}
	}
	return n
}

// TestDuskPlan: the lines and lamps of the plan lie over the night picture: without
// the lamps' circuits and ground there would be next to nothing grey in it.
func TestDuskPlan(t *testing.T) {
	f, _ := night(t)
	data, _ := drawn(t, f, output.Dusk{})
	if n := pale(t, data); n < 3000 {
		t.Errorf("%d grey pixels, expected lines and symbols of the plan", n)
	}
}

// TestDuskAfterCurfew: with the zones of the path and the terrace off the picture is
// another one, and its caption tells what still burns.
func TestDuskAfterCurfew(t *testing.T) {
	f, desk := night(t)
	all, _ := drawn(t, f, output.Dusk{})
	_, made := drawn(t, f, output.Dusk{AfterCurfew: true})
	if !strings.Contains(made.Caption, "After curfew: 15 of 15 lamps burn on at 23:00") {
		t.Errorf("caption %q", made.Caption)
	}
	z := *f.Scheme.Zones.All()[0]
	z.Off = doc.Off{Set: true, Minute: 22 * 60}
	if err := desk.Commit(edit.ChangeZone{Zone: &z}); err != nil {
		t.Fatal(err)
	}
	before, _ := drawn(t, desk.Frame(), output.Dusk{})
	after, made := drawn(t, desk.Frame(), output.Dusk{AfterCurfew: true})
	if !bytes.Equal(before, all) {
		t.Error("when a zone goes out changes the picture before curfew")
	}
	if bytes.Equal(after, before) || strings.Contains(made.Caption, "15 of 15") {
		t.Errorf("after curfew nothing is darker: %q", made.Caption)
	}
}

// TestDuskCancelled: who waits no longer gets no picture.
func TestDuskCancelled(t *testing.T) {
	f, _ := night(t)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := output.DuskOf(ctx, &bytes.Buffer{}, f, output.Dusk{}); err == nil {
		t.Error("cancelled, and still a picture")
	}
}
