//go:build e2e

package main_test

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"duskwire/layout/geom"
)

// testPicture writes a picture that is white with a violet block in its middle.
func testPicture(t *testing.T, path string) {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, 600, 450))
	draw.Draw(img, img.Rect, image.White, image.Point{}, draw.Src)
	draw.Draw(img, image.Rect(220, 165, 380, 285), image.NewUniform(color.RGBA{R: 0xFF, B: 0xFF, A: 0xFF}), image.Point{}, draw.Src)
	out, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer out.Close()
	if err := png.Encode(out, img); err != nil {
		t.Fatal(err)
	}
}

// violet counts the pixels on the screen that show the block, faded or not.
func violet(t *testing.T, path string) (n int) {
	t.Helper()
	in, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	img, err := png.Decode(in)
	if err != nil {
		t.Fatal(err)
	}
	for y := img.Bounds().Min.Y; y < img.Bounds().Max.Y; y++ {
		for x := img.Bounds().Min.X; x < img.Bounds().Max.X; x++ {
			if c := color.RGBAModel.Convert(img.At(x, y)).(color.RGBA); c.R > 220 && c.B > 220 && c.G < 160 {
				n++
			}
		}
	}
	return n
}

// menu opens the menu of so many from the left by the keys and takes the entry
// of so many from the top.
func (s *screen) menu(fromLeft, fromTop int) {
	s.t.Helper()
	s.key("alt")
	for range fromLeft {
		s.key("Right")
	}
	for range fromTop {
		s.key("Down")
	}
	s.key("Return")
}

// pictureMenu is how many menus stand left of the one for the picture.
const pictureMenu = 6

// TestPicture lays a picture under the plan by the menu keys, scales it by two
// points, checks the scale wrongly and rightly, and saves.
func TestPicture(t *testing.T) {
	s := newScreen(t, 1280, 800)
	path := emptyPlan(t, false)
	testPicture(t, filepath.Join(filepath.Dir(path), "survey.png"))
	p := s.run("1", path)
	bare := violet(t, p.picture("picture-before.png"))
	p.menu(pictureMenu, 1)
	p.typed("survey.png")
	p.key("Return")
	says := func(text string) {
		t.Helper()
		p.await("CIR-10 to say: "+text, func(f *frame) bool { return !f.Preview && strings.Contains(f.text("CIR-10"), text) })
	}
	says("has no scale yet")
	p.length(0.3, 0.3, 0.7, 0.3, 1.1)
	says("was not compared with a second one")
	p.length(0.4, 0.4, 0.4, 0.6, 1.1) // 10 % off
	says("in truth")
	p.menu(pictureMenu, 3)
	p.length(0.4, 0.4, 0.4, 0.6, 1)
	p.await("CIR-10 to go", func(f *frame) bool { return f.text("CIR-10") == "" && !f.Preview })

	p.key("ctrl+s")
	p.await("the file to be saved", func(f *frame) bool { return !f.Unsaved })
	p.moveTo(p.pixel(p.spot(0.1, 0.95)))
	if n := violet(t, p.picture("picture.png")); n < bare+1000 {
		t.Errorf("%d pixels show the picture, %d did before there was one", n, bare)
	}
	p.quit()
	u := read(t, path).Plan.Underlay
	part, _, ok := u.CheckError()
	if !ok || math.Abs(part) > 0.01 || filepath.Base(u.File) != "survey.png" || u.Width != 600 || u.Sum == "" {
		t.Errorf("the file says %+v, off by %g", u, part)
	}
	if got := float64(u.Pixel) * u.Known.Pixels(); math.Abs(got-u.Known.Length.Metres()) > 0.001 {
		t.Errorf("the known length measures %g m on the picture, typed %g m", got, u.Known.Length.Metres())
	}
}

// length clicks two places of the board, given as shares of it, and types that
// they are so many times as far apart as they are drawn.
func (p *program) length(right, down, toRight, toDown, times float64) {
	p.t.Helper()
	x, y := p.spot(right, down)
	toX, toY := p.spot(toRight, toDown)
	p.click(x, y)
	p.click(toX, toY)
	d := geom.Metres(times * math.Hypot(toX-x, toY-y)).Metres()
	p.typed(fmt.Sprintf("%.3fm", d))
	p.key("Return")
}

// text returns what the first finding of a code says, "" when there is none.
func (f *frame) text(code string) string {
	for _, x := range f.Findings {
		if x.Code == code {
			return x.Text
		}
	}
	return ""
}
