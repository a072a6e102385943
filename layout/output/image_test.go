package output

import (
	"bytes"
	"context"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
	under "duskwire/layout/picture"
)

// redSheet is ten metres of wall over a red picture of 10 m by 5 m that is
// turned by 30°.
func redSheet(t *testing.T) Sheet {
	t.Helper()
	m := image.NewRGBA(image.Rect(0, 0, 200, 100))
	for i := range 20000 {
		m.SetRGBA(i%200, i/200, color.RGBA{255, 0, 0, 255})
	}
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	p, err := under.Read(context.Background(), temp(t, "p.png", b.Bytes()))
	if err != nil {
		t.Fatal(err)
	}
	s := tenMetres()
	s.Plan.Picture = p
	s.Plan.Scheme.Plan.Underlay = doc.Underlay{File: "p.png", Sum: p.Sum, Width: 200, Height: 100, Pixel: 0.05, Turn: 30, At: geom.Pt(5, 7), Fade: 0.5}
	return s
}

// In every format the picture lies where the plan says, half faded to 255 128
// 128, and not beside that.
func TestPictureInEveryFormat(t *testing.T) {
	s := redSheet(t)
	l, err := Page(s)
	if err != nil {
		t.Fatal(err)
	}
	u := s.Plan.Scheme.Plan.Underlay
	folder := t.TempDir()
	check := func(name string, img image.Image) {
		t.Helper()
		k := float64(img.Bounds().Dx()) / l.Width
		for at, red := range map[doc.Spot]bool{{X: 20, Y: 20}: true, {X: 180, Y: 10}: true, {X: 10, Y: 90}: true, {X: -12, Y: 30}: false, {X: 150, Y: -12}: false} {
			xy := l.View.Paper(u.Place(at))
			r, g, b, _ := img.At(int(xy.X*k), int(xy.Y*k)).RGBA()
			got := r>>8 > 245 && g>>8 > 110 && g>>8 < 145 && b>>8 > 110 && b>>8 < 145
			if got != red {
				t.Errorf("%s: %v shows %d %d %d", name, at, r>>8, g>>8, b>>8)
			}
		}
	}
	img, err := png.Decode(bytes.NewReader(picture(t, "png", s)))
	if err != nil {
		t.Fatal(err)
	}
	check("png", img)
	pdf := filepath.Join(folder, "a.pdf")
	if err := os.WriteFile(pdf, picture(t, "pdf", s), 0o644); err != nil {
		t.Fatal(err)
	}
	run(t, "pdftoppm", "-png", "-r", "100", "-singlefile", pdf, filepath.Join(folder, "a"))
	data, err := os.ReadFile(filepath.Join(folder, "a.png"))
	if err != nil {
		t.Fatal(err)
	}
	if img, err = png.Decode(bytes.NewReader(data)); err != nil {
		t.Fatal(err)
	}
	check("pdf", img)
	svg := string(picture(t, "svg", s))
	for _, want := range []string{`<g class="picture">`, `opacity="0.5"`, `href="data:image/jpeg;base64,`, `clip-path="url(#under)"`} {
		if !strings.Contains(svg, want) {
			t.Errorf("the SVG lacks %s", want)
		}
	}
	if !bytes.Equal(picture(t, "pdf", s), picture(t, "pdf", s)) {
		t.Error("the same sheet gives other bytes")
	}
}
