package output

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	under "duskwire/layout/picture"
	"duskwire/layout/scene"
)

// A picture that begins left of the sheet or above it, as under a part of a plan,
// is cut off there and not moved: of one that is red and then blue and reaches from
// 60 mm left of the sheet to 60 mm on it, blue alone shows.
func TestPictureBeginsBesideTheSheet(t *testing.T) {
	m := image.NewRGBA(image.Rect(0, 0, 120, 120))
	for i := range 120 * 120 {
		c := color.RGBA{255, 0, 0, 255}
		if i%120 >= 60 && i/120 >= 60 {
			c = color.RGBA{0, 0, 255, 255}
		}
		m.SetRGBA(i%120, i/120, c)
	}
	l := &scene.List{Width: 100, Height: 100, Items: []scene.Item{{Kind: scene.Image, Image: under.Of(m),
		Points: []scene.XY{{X: -60, Y: -60}, {X: 60, Y: -60}, {X: -60, Y: 60}, {X: 0, Y: 0}, {X: 100, Y: 100}}}}}
	var b bytes.Buffer
	if err := WritePDF(&b, []*scene.List{l}, "x"); err != nil {
		t.Fatal(err)
	}
	path := temp(t, "a.pdf", b.Bytes())
	out := filepath.Join(filepath.Dir(path), "a")
	run(t, "pdftoppm", "-png", "-r", "50.8", "-singlefile", path, out) // two dots a millimetre
	data, err := os.ReadFile(out + ".png")
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	for at, blue := range map[image.Point]bool{{10, 10}: true, {50, 10}: true, {10, 50}: true, {50, 50}: true, {70, 10}: false, {10, 70}: false} {
		r, g, b, _ := img.At(2*at.X, 2*at.Y).RGBA()
		if got := r>>8 < 40 && g>>8 < 40 && b>>8 > 200; got != blue || !blue && r>>8 < 250 {
			t.Errorf("%v mm shows %d %d %d", at, r>>8, g>>8, b>>8)
		}
	}
}

// Several pictures of one width come into the file in one order, whatever the
// writer does with them, and each is shown in its own place and colour.
func TestPicturesOfOneWidth(t *testing.T) {
	colours := []color.RGBA{{255, 0, 0, 255}, {0, 255, 0, 255}, {0, 0, 255, 255}, {0, 0, 0, 255}, {255, 0, 0, 255}}
	page := func() []byte {
		l := &scene.List{Width: 100, Height: 100}
		for n, c := range colours {
			m := image.NewRGBA(image.Rect(0, 0, 64, 32))
			for i := range 64 * 32 {
				m.SetRGBA(i%64, i/64, c)
			}
			y := float64(20 * n)
			l.Items = append(l.Items, scene.Item{Kind: scene.Image, Image: under.Of(m),
				Points: []scene.XY{{X: 10, Y: y}, {X: 50, Y: y}, {X: 10, Y: y + 20}, {X: 0, Y: 0}, {X: 100, Y: 100}}})
		}
		var b bytes.Buffer
		if err := WritePDF(&b, []*scene.List{l}, "x"); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	first := page()
	for range 20 { // with four pictures in any order one in 24 would be like the first
		if !bytes.Equal(first, page()) {
			t.Fatal("other bytes the next time")
		}
	}
	path := temp(t, "b.pdf", first)
	out := filepath.Join(filepath.Dir(path), "b")
	run(t, "pdftoppm", "-png", "-r", "254", "-singlefile", path, out) // ten dots a millimetre
	data, err := os.ReadFile(out + ".png")
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	for n, c := range colours {
		for x, want := range map[int]color.RGBA{95: {255, 255, 255, 255}, 105: c, 495: c, 505: {255, 255, 255, 255}} {
			r, g, b, _ := img.At(x, 200*n+100).RGBA()
			for k, v := range [3]uint32{r >> 8, g >> 8, b >> 8} {
				if d := int(v) - int([3]uint8{want.R, want.G, want.B}[k]); d > 12 || d < -12 {
					t.Errorf("picture %d at %d tenths of a millimetre shows %d %d %d, want %v", n, x, r>>8, g>>8, b>>8, want)
					break
				}
			}
		}
	}
}
