package scene_test

import (
	"bytes"
	"context"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/picture"
	"duskwire/layout/scene"
)

// quarters is a picture whose quarters are red, green, blue and white.
func quarters(t testing.TB, w, h int) *picture.Picture {
	t.Helper()
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			c := color.RGBA{255, 0, 0, 255}
			switch {
			case x >= w/2 && y >= h/2:
				c = color.RGBA{255, 255, 255, 255}
			case y >= h/2:
				c = color.RGBA{0, 0, 255, 255}
			case x >= w/2:
				c = color.RGBA{0, 255, 0, 255}
			}
			m.SetRGBA(x, y, c)
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "p.png")
	if err := os.WriteFile(path, b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	p, err := picture.Read(context.Background(), path)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// over is a plan over a picture of 8 m by 6 m, seen at 1:50 on 200 by 160 mm
// with the plan's origin at the lower left.
func over(t testing.TB, w, h int) (scene.Input, scene.View) {
	p := quarters(t, w, h)
	s := doc.New("uk-18")
	s.Plan.Underlay = doc.Underlay{File: "p.png", Sum: p.Sum, Width: p.Width, Height: p.Height, At: geom.Pt(1, 7)}
	s.Plan.Underlay.Pixel = 8 / q.Metre(w)
	return scene.Input{Scheme: s, Picture: p, Show: map[scene.Layer]bool{scene.LayerPicture: true}},
		scene.View{Denominator: 50, Origin: geom.Pt(0, 8)}
}

func draw(in scene.Input, view scene.View, k float64) *image.RGBA {
	dst := image.NewRGBA(image.Rect(0, 0, int(200*k), int(160*k)))
	scene.NewRasteriser().Draw(dst, scene.Build(in, view, 200, 160), k)
	return dst
}

// Each quarter of the picture shows where the plan says that it lies, however
// it is turned, at any resolution and from any level of the pyramid.
func TestPictureLiesWhereItShould(t *testing.T) {
	want := map[doc.Spot]color.RGBA{{X: .25, Y: .25}: {255, 0, 0, 255}, {X: .75, Y: .25}: {0, 255, 0, 255}, {X: .25, Y: .75}: {0, 0, 255, 255}}
	for _, size := range []int{8, 80, 1600} {
		in, view := over(t, size, size*3/4)
		for _, turn := range []float64{0, 17, 90, -135, 180} {
			s := *in.Scheme
			s.Plan.Underlay.Turn = turn
			s.Plan.Underlay.At = geom.Pt(4, 4)
			s.Plan.Underlay.Pixel = 4 / q.Metre(size)
			in.Scheme = &s
			for _, k := range []float64{1, 5.2} {
				img := draw(in, view, k)
				for at, c := range want {
					p := s.Plan.Underlay.Place(doc.Spot{X: at.X * float64(size), Y: at.Y * float64(size) * 3 / 4})
					xy := view.Paper(p)
					if got := img.RGBAAt(int(xy.X*k), int(xy.Y*k)); got != c {
						t.Errorf("%d pixels turned %g at %g: %v at %v, want %v", size, turn, k, got, at, c)
					}
				}
				out := s.Plan.Underlay.Place(doc.Spot{X: -0.05 * float64(size), Y: -0.05 * float64(size)})
				xy := view.Paper(out)
				if got := img.RGBAAt(int(xy.X*k), int(xy.Y*k)); got != (color.RGBA{255, 255, 255, 255}) {
					t.Errorf("beside the picture: %v", got)
				}
			}
		}
	}
}

// Fade 0.35 leaves 65 % of the colour on white paper; a dark screen turns what
// is light and dims what is not; fade 1 draws nothing.
func TestPictureFadeAndDark(t *testing.T) {
	in, view := over(t, 80, 60)
	red := func(in scene.Input) color.RGBA { return draw(in, view, 2).RGBAAt(2*2*20+8, 2*2*10+8) }
	near := func(a, b color.RGBA) bool {
		d := func(x, y uint8) int { return max(int(x)-int(y), int(y)-int(x)) }
		return d(a.R, b.R) <= 2 && d(a.G, b.G) <= 2 && d(a.B, b.B) <= 2
	}
	s := *in.Scheme
	s.Plan.Underlay.Fade = 0.35
	in.Scheme = &s
	if got := red(in); !near(got, color.RGBA{255, 89, 89, 255}) { // 255·0.35
		t.Errorf("faded red is %v", got)
	}
	s.Plan.Underlay.Fade = 1
	if l := scene.Build(in, view, 200, 160); len(l.Items) != 0 {
		t.Errorf("a picture faded away is drawn: %d items", len(l.Items))
	}
	s.Plan.Underlay.Fade = 0
	in.Palette = scene.Dark()
	in.Picture.Light = false
	if got := red(in); !near(got, color.RGBA{159, 0, 0, 255}) { // five eighths
		t.Errorf("dimmed red is %v", got)
	}
	in.Picture.Light = true
	// Red has the largest channel 255 and the smallest 0: turned it stays red. As it
	// is 53 light, it is mixed with white to three fifths of 202, by 68 of 202.
	if got := red(in); !near(got, color.RGBA{255, 86, 86, 255}) {
		t.Errorf("turned red is %v", got)
	}
	white := draw(in, view, 2).RGBAAt(300, 200)
	if white.R > 10 || white.G > 10 {
		t.Errorf("white on a dark screen is %v", white)
	}
}

// A second drawing in the same view copies the first, and is the same to the
// pixel; another view, or another fade, is drawn anew.
func TestPictureIsKept(t *testing.T) {
	in, view := over(t, 160, 120)
	r := scene.NewRasteriser()
	paint := func(v scene.View) []byte {
		dst := image.NewRGBA(image.Rect(0, 0, 400, 320))
		r.Draw(dst, scene.Build(in, v, 200, 160), 2)
		return dst.Pix
	}
	one := paint(view)
	if !bytes.Equal(one, paint(view)) {
		t.Error("the second drawing differs")
	}
	moved := view
	moved.Origin = geom.Pt(1, 8)
	if two := paint(moved); bytes.Equal(one, two) || !bytes.Equal(two, draw(in, moved, 2).Pix) {
		t.Error("another view shows the old picture")
	}
	s := *in.Scheme
	s.Plan.Underlay.Fade = 0.5
	in.Scheme = &s
	if !bytes.Equal(paint(moved), draw(in, moved, 2).Pix) {
		t.Error("another fade shows the old picture")
	}
	in.Picture = nil
	for _, v := range paint(moved)[:4000] {
		if v != 255 {
			t.Fatal("a picture that is gone still shows")
		}
	}
}

// Ground lets the picture shine through, and only when there is one.
func TestGroundOverPicture(t *testing.T) {
	in, view := over(t, 80, 60)
	s := *in.Scheme
	s.Areas = doc.NewSet(&doc.Area{ID: "A1", Tag: "A1", Kind: "lawn", Ring: []geom.Point{geom.Pt(1, 1), geom.Pt(9, 1), geom.Pt(9, 7)}})
	in.Scheme, in.Show = &s, nil
	fill := func() uint8 {
		for _, it := range scene.Build(in, view, 200, 160).Items {
			if it.Layer == scene.LayerGround && it.Style.Fill.A > 0 {
				return it.Style.Fill.A
			}
		}
		return 0
	}
	if a := fill(); a == 0 || a > 128 {
		t.Errorf("over a picture: %d", a)
	}
	in.Picture = nil
	if a := fill(); a != 255 {
		t.Errorf("without: %d", a)
	}
}

// BenchmarkPicture draws a picture of 12 million pixels over 1472 by 992
// pixels, a board of 1280 by 800 with its margins: in a new view each time, and
// in the same one.
func BenchmarkPicture(b *testing.B) {
	in, view := over(b, 4000, 3000)
	s := *in.Scheme
	s.Plan.Underlay.Fade, s.Plan.Underlay.Turn = 0.35, 5
	in.Scheme = &s
	dst := image.NewRGBA(image.Rect(0, 0, 1472, 992))
	r := scene.NewRasteriser()
	view.Denominator = 40
	list := scene.Build(in, view, 200, 160)
	list.Items[0].Points[4] = scene.XY{X: 500, Y: 500}
	b.Run("new view", func(b *testing.B) {
		for i := 0; b.Loop(); i++ {
			list.Items[0].Points[0].X += 0.01 * float64(i%2*2-1)
			r.Draw(dst, list, 7)
		}
	})
	b.Run("same view", func(b *testing.B) {
		for b.Loop() {
			r.Draw(dst, list, 7)
		}
	})
}

// TestGridOverPicture: over the picture the grid is half transparent, beside it as
// on plain paper, and every line is whole; the picture may be turned.
func TestGridOverPicture(t *testing.T) {
	for _, turn := range []float64{0, 30, -90} {
		in, v := over(t, 80, 60)
		in.Show[scene.LayerGrid] = true
		in.Scheme.Plan.Underlay.Turn = turn
		var corners []scene.XY
		for _, c := range in.Scheme.Plan.Underlay.Corners() {
			corners = append(corners, v.Paper(c))
		}
		inside := func(p scene.XY) (in, edge bool) { // by the side of every edge that it lies on
			side := 0
			for i, a := range corners {
				c := corners[(i+1)%len(corners)]
				d := (c.X-a.X)*(p.Y-a.Y) - (c.Y-a.Y)*(p.X-a.X)
				edge = edge || math.Abs(d) < 1e-6
				if d > 0 {
					side++
				}
			}
			return side == 0 || side == len(corners), edge
		}
		length, pieces := map[bool]float64{}, 0
		for _, it := range scene.Build(in, v, 200, 160).Items {
			if it.Layer != scene.LayerGrid {
				continue
			}
			faint := it.Style.Stroke.A < 255
			for i := 0; i < len(it.Points); i += 2 {
				p, q := it.Points[i], it.Points[i+1]
				m := scene.XY{X: (p.X + q.X) / 2, Y: (p.Y + q.Y) / 2}
				if in, edge := inside(m); in != faint && !edge {
					t.Errorf("turned by %g°: the line at %v is faint: %v", turn, m, faint)
				}
				length[faint] += math.Hypot(q.X-p.X, q.Y-p.Y)
				pieces++
			}
		}
		plain := 0.0
		in.Picture = nil
		for _, it := range scene.Build(in, v, 200, 160).Items {
			for i := 0; i < len(it.Points); i += 2 {
				plain += math.Hypot(it.Points[i+1].X-it.Points[i].X, it.Points[i+1].Y-it.Points[i].Y)
			}
		}
		if length[true] == 0 || math.Abs(length[true]+length[false]-plain) > 1e-6*plain {
			t.Errorf("turned by %g°: %.1f mm faint and %.1f mm full, expected %.1f mm in all", turn, length[true], length[false], plain)
		}
	}
}
