package light

import (
	"image"
	"testing"
)

// TestPaintIsPicture: painting by tables gives the picture, a step of a channel
// apart at most, in the dark, in bright light and in every white.
func TestPaintIsPicture(t *testing.T) {
	s, err := NewSheet(scene(t, garden(t, 30, 4), walls()...), Grid{X0: -2, Y0: -2, Step: 0.3, W: 110, H: 90})
	if err != nil {
		t.Fatal(err)
	}
	s.Fill()
	g := Ground{Kind: make([]uint8, 110*90), Rho: []RGB{{0.3, 0.29, 0.27}, {0.06, 0.12, 0.04}, {0, 0, 0}}}
	for i := range g.Kind {
		g.Kind[i] = uint8(i / 7 % 3)
	}
	want := s.Picture(Night, func(x, y int) RGB { return g.Rho[g.Kind[y*110+x]] })
	got := image.NewRGBA(want.Rect)
	s.Paint(Night, g, got)
	off, lit := 0, 0
	for i, v := range want.Pix {
		d := int(got.Pix[i]) - int(v)
		if d < -1 || d > 1 {
			t.Fatalf("byte %d: %d, expected %d", i, got.Pix[i], v)
		}
		if d != 0 {
			off++
		}
		if v > 100 && i%4 < 3 {
			lit++
		}
	}
	if lit < 1000 || off > len(want.Pix)/50 {
		t.Errorf("%d channels are bright and %d of %d differ by a step", lit, off, len(want.Pix))
	}
}

// BenchmarkPaint paints 512 x 512 cells of three whites.
func BenchmarkPaint(b *testing.B) {
	s, _ := NewSheet(scene(b, garden(b, 40, 4)), Grid{Step: 0.06, W: 512, H: 512})
	s.Fill()
	g := Ground{Kind: make([]uint8, 512*512), Rho: []RGB{{0.3, 0.29, 0.27}}}
	out := image.NewRGBA(image.Rect(0, 0, 512, 512))
	for b.Loop() {
		s.Paint(Night, g, out)
	}
}

// BenchmarkContours draws all levels through 512 x 512 cells of 40 lamps.
func BenchmarkContours(b *testing.B) {
	s, _ := NewSheet(scene(b, garden(b, 40, 4)), Grid{Step: 0.06, W: 512, H: 512})
	s.Fill()
	values := s.All()
	for b.Loop() {
		for _, l := range Levels {
			Contours(s.Grid(), values, l)
		}
	}
}
