package scene_test

import (
	"bytes"
	"image"
	"math"
	"testing"

	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"

	"duskwire/layout/doc"
	"duskwire/layout/internal/garden"
	"duskwire/layout/scene"
)

var (
	white = scene.Colour{R: 255, G: 255, B: 255, A: 255}
	black = scene.Colour{A: 255}
)

// paint draws items on white, 100 x 100 mm at k pixels a millimetre.
func paint(k float64, items ...scene.Item) *image.RGBA {
	n := int(100 * k)
	img := image.NewRGBA(image.Rect(0, 0, n, n))
	scene.NewRasteriser().Draw(img, &scene.List{Width: 100, Height: 100, Background: white, Items: items}, k)
	return img
}

// ink returns the blackened area in square millimetres.
func ink(img *image.RGBA, k float64) (area float64) {
	for i := 0; i < len(img.Pix); i += 4 {
		area += float64(255-img.Pix[i]) / 255
	}
	return area / (k * k)
}

// TestAreas compares the ink of each shape with its area by elementary
// geometry; tolerances in percent.
func TestAreas(t *testing.T) {
	pts := func(v ...float64) (ps []scene.XY) {
		for i := 0; i < len(v); i += 2 {
			ps = append(ps, scene.XY{X: v[i], Y: v[i+1]})
		}
		return ps
	}
	stroke := func(w float64, dash ...float64) scene.Style {
		return scene.Style{Stroke: black, Width: w, Dash: dash}
	}
	fill := scene.Style{Fill: black}
	cap1 := math.Pi / 4 // two round ends of a stroke 1 mm wide
	tests := []struct {
		name      string
		item      scene.Item
		want      float64
		tolerance float64
	}{
		{"level stroke, length x width + round ends", scene.Item{Kind: scene.Polyline, Points: pts(10, 20, 70, 20), Style: stroke(1)}, 60 + cap1, 0.5},
		{"upright stroke", scene.Item{Kind: scene.Polyline, Points: pts(20.3, 10, 20.3, 70), Style: stroke(1)}, 60 + cap1, 0.5},
		{"slanted stroke, 3-4-5", scene.Item{Kind: scene.Polyline, Points: pts(10, 10, 55, 70), Style: stroke(1)}, 75 + cap1, 0.5},
		{"dot", scene.Item{Kind: scene.Segments, Points: pts(50, 50, 50, 50), Style: stroke(4)}, 4 * math.Pi, 1},
		{"hairline under a pixel", scene.Item{Kind: scene.Polyline, Points: pts(10, 33.3, 90, 33.3), Style: stroke(0.1)}, 8, 2},
		{"dashes 4 on 6 off, 6 dashes with ends", scene.Item{Kind: scene.Polyline, Points: pts(10, 20, 70, 20), Style: stroke(1, 4, 6)}, 6 * (4 + cap1), 1},
		{"dashes run on round a corner", scene.Item{Kind: scene.Polyline, Points: pts(10, 20, 35, 20, 35, 55), Style: stroke(1, 4, 6)}, 6 * (4 + cap1), 1},
		{"square", scene.Item{Kind: scene.Polygon, Points: pts(10.1, 10.1, 50.1, 10.1, 50.1, 50.1, 10.1, 50.1), Style: fill}, 1600, 0.1},
		{"triangle", scene.Item{Kind: scene.Polygon, Points: pts(10, 10, 90, 20, 30, 80), Style: fill}, 0.5 * (80*70 - 20*10), 0.2},
		{"even-odd star: the pentagon inside stays empty", star(), starPoints(40), 0.3},
		{"polygon larger than the sheet", scene.Item{Kind: scene.Polygon, Points: pts(-900, -900, 1000, -900, 1000, 1000, -900, 1000), Style: fill}, 10000, 0.01},
		{"disc", scene.Item{Kind: scene.Circle, Points: pts(50, 50), Size: 20, Style: fill}, 400 * math.Pi, 0.1},
		{"ring", scene.Item{Kind: scene.Circle, Points: pts(50, 50), Size: 20, Style: stroke(2)}, math.Pi * (21*21 - 19*19), 0.3},
		{"half transparent square", scene.Item{Kind: scene.Polygon, Points: pts(10, 10, 50, 10, 50, 50, 10, 50), Style: scene.Style{Fill: scene.Colour{A: 128}}}, 1600 * 128 / 255.0, 0.5},
	}
	for _, test := range tests {
		got := ink(paint(4, test.item), 4)
		if math.Abs(got-test.want) > test.want*test.tolerance/100 {
			t.Errorf("%s: %.2f mm² of ink, want %.2f ± %g %%", test.name, got, test.want, test.tolerance)
		}
	}
}

// star returns a five-pointed star drawn in one go, radius 40.
func star() scene.Item {
	it := scene.Item{Kind: scene.Polygon, Style: scene.Style{Fill: black}}
	for i := range 5 {
		sin, cos := math.Sincos(float64(i) * 4 * math.Pi / 5)
		it.Points = append(it.Points, scene.XY{X: 50 + 40*sin, Y: 50 - 40*cos})
	}
	return it
}

// starPoints is the area of the five points of a pentagram without its inner
// pentagon: inner radius r' = R·cos 72°/cos 36°; whole 5·R·r'·sin 36°; the
// pentagon 5/2·r'²·sin 72°.
func starPoints(r float64) float64 {
	const deg = math.Pi / 180
	in := r * math.Cos(72*deg) / math.Cos(36*deg)
	return 5*r*in*math.Sin(36*deg) - 2.5*in*in*math.Sin(72*deg)
}

// TestFillAgainstVector compares a fill with golang.org/x/image/vector.
func TestFillAgainstVector(t *testing.T) {
	const k = 3
	ps := []scene.XY{{X: 7.3, Y: 12.9}, {X: 88.1, Y: 3.2}, {X: 61.7, Y: 91.4}, {X: 30.2, Y: 55.5}}
	got := paint(k, scene.Item{Kind: scene.Polygon, Points: ps, Style: scene.Style{Fill: black}})
	v := vector.NewRasterizer(300, 300)
	for i, p := range ps {
		if i == 0 {
			v.MoveTo(float32(p.X*k), float32(p.Y*k))
		} else {
			v.LineTo(float32(p.X*k), float32(p.Y*k))
		}
	}
	v.ClosePath()
	mask := image.NewAlpha(got.Rect)
	v.Draw(mask, mask.Rect, image.Opaque, image.Point{})
	for i, a := range mask.Pix {
		if d := int(255-got.Pix[4*i]) - int(a); d > 40 || d < -40 { // four sample lines a row: steps of a quarter at shallow edges
			t.Fatalf("pixel %d, %d: coverage %d, want %d", i%300, i/300, 255-got.Pix[4*i], a)
		}
	}
}

// TestTextWidth compares with the opentype package's own measuring.
func TestTextWidth(t *testing.T) {
	for _, s := range []string{"L7/2", "R3 · 3 × 1.5 mm² · 8.5 m", "1.20 Ω −5 °C", "ÄÖÜ ≤ √3 →"} {
		for _, bold := range []bool{false, true} {
			ttf := goregular.TTF
			if bold {
				ttf = gobold.TTF
			}
			f, err := opentype.Parse(ttf)
			if err != nil {
				t.Fatal(err)
			}
			face, err := opentype.NewFace(f, &opentype.FaceOptions{Size: 1000, DPI: 72})
			if err != nil {
				t.Fatal(err)
			}
			var sum fixed.Int26_6 // advances only: kerning is left out on purpose
			for _, r := range s {
				a, ok := face.GlyphAdvance(r)
				if !ok {
					t.Errorf("no letter for %q", r)
				}
				sum += a
			}
			want := float64(sum) / 64 / float64(face.Metrics().CapHeight) * 64 * 2.5
			if got := scene.TextWidth(s, 2.5, bold); math.Abs(got-want) > 0.005*want {
				t.Errorf("%q bold %v: %.3f mm, want %.3f", s, bold, got, want)
			}
		}
	}
}

// TestLetters draws text and looks where the ink is: cap height, turn,
// anchors.
func TestLetters(t *testing.T) {
	box := func(it scene.Item) (x0, y0, x1, y1 float64) {
		const k = 10
		img := paint(k, it)
		r := image.Rectangle{}
		for i := 0; i < len(img.Pix); i += 4 {
			if img.Pix[i] < 128 {
				x, y := i/4%img.Rect.Dx(), i/4/img.Rect.Dx()
				r = r.Union(image.Rect(x, y, x+1, y+1))
			}
		}
		return float64(r.Min.X) / k, float64(r.Min.Y) / k, float64(r.Max.X) / k, float64(r.Max.Y) / k
	}
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 0.25 {
			t.Errorf("%s at %.2f mm, want %.2f", what, got, want)
		}
	}
	h := scene.Item{Kind: scene.Text, Points: []scene.XY{{X: 50, Y: 50}}, Text: "HHHH", Size: 3, Style: scene.Style{Fill: black}}
	w := scene.TextWidth("HHHH", 3, false)
	x0, y0, x1, y1 := box(h)
	near("top of level capitals", y0, 47)
	near("foot", y1, 50)
	near("start", x0, 50+0.3)
	near("end", x1, 50+w-0.3)
	h.Anchor = scene.Right
	_, _, x1, _ = box(h)
	near("end of right text", x1, 50-0.3)
	h.Anchor, h.Turn = scene.Middle, 90
	x0, y0, x1, y1 = box(h)
	near("side of text reading upward", x0, 47)
	near("baseline of text reading upward", x1, 50)
	near("end of upward text", y0, 50-w/2+0.3)
	near("start of upward text", y1, 50+w/2-0.3)
}

// TestBandsDoNotShow draws the garden in one and in many goroutines' shares.
func TestBandsDoNotShow(t *testing.T) {
	in := small()
	l := scene.Build(in, scene.Fit(in.Scheme, 280, 240), 280, 240)
	whole := image.NewRGBA(image.Rect(0, 0, 840, 720))
	r := scene.NewRasteriser()
	r.Draw(whole, l, 3)
	again := image.NewRGBA(whole.Rect)
	r.Draw(again, l, 3)
	if !bytes.Equal(whole.Pix, again.Pix) {
		t.Error("a second Draw with warm caches differs")
	}
	strip := image.NewRGBA(image.Rect(0, 0, 840, 60)) // under 64 rows: one band
	r.Draw(strip, l, 3)
	if !bytes.Equal(strip.Pix, whole.Pix[:len(strip.Pix)]) {
		t.Error("a strip drawn alone differs from the same rows of the whole")
	}
}

// TestDrawAllocates nothing to speak of once the letters are known.
func TestDrawAllocates(t *testing.T) {
	in := scene.Input{Scheme: garden.Large(200), Stock: garden.Stock()}
	l := scene.Build(in, scene.Fit(in.Scheme, 280, 240), 280, 240)
	img := image.NewRGBA(image.Rect(0, 0, 560, 480))
	r := scene.NewRasteriser()
	r.Draw(img, l, 2)
	if n := testing.AllocsPerRun(10, func() { r.Draw(img, l, 2) }); n > 10 {
		t.Errorf("%g allocations a Draw, want only those of the goroutines", n)
	}
}

// TestExtremeLists must end and not panic.
func TestExtremeLists(t *testing.T) {
	far := 1e7
	paint(1,
		scene.Item{Kind: scene.Polyline, Points: []scene.XY{{X: -far, Y: -far}, {X: far, Y: far}}, Style: scene.Style{Stroke: black, Width: 1, Dash: []float64{0.2, 0.2}}},
		scene.Item{Kind: scene.Polyline, Style: scene.Style{Stroke: black, Width: 1}},
		scene.Item{Kind: scene.Polygon, Style: scene.Style{Fill: black}},
		scene.Item{Kind: scene.Segments, Points: []scene.XY{{X: 1, Y: 1}}, Style: scene.Style{Stroke: black, Width: 1}},
		scene.Item{Kind: scene.Polyline, Points: []scene.XY{{X: 1, Y: 1}, {X: 9, Y: 1}}, Style: scene.Style{Stroke: black, Width: 1, Dash: []float64{0, 0}}},
		scene.Item{Kind: scene.Circle, Points: []scene.XY{{X: far, Y: 0}}, Size: 3, Style: scene.Style{Fill: black}},
		scene.Item{Kind: scene.Circle, Points: []scene.XY{{X: 50, Y: 50}}, Size: 0, Style: scene.Style{Fill: black}},
		scene.Item{Kind: scene.Text, Points: []scene.XY{{X: 5, Y: 5}}, Text: "\u4e2d\U0001F333\x00", Size: 3, Halo: true, Style: scene.Style{Fill: black}})
	var none doc.Scheme
	l := scene.Build(scene.Input{Scheme: &none}, scene.Fit(&none, 10, 10), 10, 10)
	if len(l.Items) != 0 {
		t.Errorf("an empty scheme draws %d items", len(l.Items))
	}
}
