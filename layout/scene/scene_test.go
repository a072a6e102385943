package scene_test

import (
	"flag"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/internal/garden"
	"duskwire/layout/scene"
)

var update = flag.Bool("update", false, "rewrite the golden files")

func small() scene.Input {
	s, lengths, findings := garden.Small()
	return scene.Input{Scheme: s, Stock: garden.Stock(), Lengths: lengths, Findings: findings}
}

// text writes a list one item a line, to a hundredth of a millimetre.
func text(l *scene.List) string {
	names := [...]string{"polyline", "polygon", "circle", "text", "segments"}
	var b strings.Builder
	fmt.Fprintf(&b, "list %.2f x %.2f mm, 1:%g\n", l.Width, l.Height, l.View.Denominator)
	for _, it := range l.Items {
		fmt.Fprintf(&b, "%s %s %s", it.Layer, names[it.Kind], it.Entity)
		st := it.Style
		if st.Width > 0 {
			fmt.Fprintf(&b, " stroke %02x%02x%02x %.2f", st.Stroke.R, st.Stroke.G, st.Stroke.B, st.Width)
		}
		if st.Dash != nil {
			fmt.Fprintf(&b, " dash %v", st.Dash)
		}
		if st.Fill.A > 0 {
			fmt.Fprintf(&b, " fill %02x%02x%02x", st.Fill.R, st.Fill.G, st.Fill.B)
		}
		if it.Size > 0 {
			fmt.Fprintf(&b, " size %.2f", it.Size)
		}
		if it.Kind == scene.Text {
			fmt.Fprintf(&b, " turn %.1f %q", it.Turn, it.Text)
		}
		if n := len(it.Points); n > 16 {
			fmt.Fprintf(&b, " (%d points)", n)
		} else {
			for _, p := range it.Points {
				fmt.Fprintf(&b, " %.2f,%.2f", p.X, p.Y)
			}
		}
		b.WriteByte('\n')
	}
	return b.String()
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if string(want) == got {
		return
	}
	w, g := strings.Split(string(want), "\n"), strings.Split(got, "\n")
	for i := range w {
		if i >= len(g) || w[i] != g[i] {
			t.Fatalf("%s differs from line %d on (run with -update after looking):\nwant %s\ngot  %s", name, i+1, w[i], g[min(i, len(g)-1)])
		}
	}
	t.Fatalf("%s: %d more lines than wanted", name, len(g)-len(w))
}

func TestGolden(t *testing.T) {
	in := small()
	golden(t, "small.txt", text(scene.Build(in, scene.Fit(in.Scheme, 280, 240), 280, 240)))
	in.Palette, in.Show, in.Screen = scene.Dark(), scene.AllLayers(), true
	in.Skip = func(id doc.ID) bool { return id == "L4" || id == "R8" }
	golden(t, "screen.txt", text(scene.Build(in, scene.Fit(in.Scheme, 120, 90), 120, 90)))
}

// TestPicture leaves pictures to look at when LOOK names a folder.
func TestPicture(t *testing.T) {
	dir := os.Getenv("LOOK")
	if dir == "" {
		t.Skip("set LOOK to a folder to get pictures to look at")
	}
	save := func(name string, in scene.Input, w, h, k float64) {
		v := scene.Fit(in.Scheme, w, h)
		if strings.HasPrefix(name, "large") {
			v = scene.Centred(in.Scheme, 250, w, h)
		}
		l := scene.Build(in, v, w, h)
		img := image.NewRGBA(image.Rect(0, 0, int(w*k), int(h*k)))
		scene.NewRasteriser().Draw(img, l, k)
		f, err := os.Create(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		if err := png.Encode(f, img); err != nil {
			t.Fatal(err)
		}
	}
	in := small()
	save("small.png", in, 280, 240, 6)
	in.Palette = scene.Light().Grey()
	save("grey.png", in, 280, 240, 6)
	in.Hatch.All = true
	save("hatch-grey.png", in, 280, 240, 6)
	in.Palette = nil
	save("hatch.png", in, 280, 240, 6)
	in.Hatch.All = false
	in.Palette, in.Screen, in.Show = scene.Dark(), true, scene.AllLayers()
	save("dark.png", in, 300, 190, 4.2)
	save("large.png", scene.Input{Scheme: garden.Large(1000), Stock: garden.Stock(), Screen: true}, 320, 200, 4)
}

// BenchmarkBuild draws 1,000 lamps and 5,000 run vertices. Budget 3 ms.
func BenchmarkBuild(b *testing.B) {
	in := scene.Input{Scheme: garden.Large(1000), Stock: garden.Stock(), Screen: true}
	v := scene.Centred(in.Scheme, 250, 1280/4.0, 800/4.0)
	b.ReportAllocs()
	for b.Loop() {
		scene.Build(in, v, 1280/4.0, 800/4.0)
	}
}

// BenchmarkRaster draws the same list as pixels; Redraw is both together,
// budget 15 ms at 1280 x 800.
func BenchmarkRaster(b *testing.B) {
	in := scene.Input{Scheme: garden.Large(1000), Stock: garden.Stock(), Screen: true}
	for _, size := range [][2]int{{1280, 800}, {2560, 1440}} {
		w, h := float64(size[0])/4, float64(size[1])/4
		v := scene.Centred(in.Scheme, 250*320/w, w, h)
		l := scene.Build(in, v, w, h)
		img := image.NewRGBA(image.Rect(0, 0, size[0], size[1]))
		r := scene.NewRasteriser()
		b.Run(fmt.Sprintf("Raster%dx%d", size[0], size[1]), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				r.Draw(img, l, 4)
			}
		})
		b.Run(fmt.Sprintf("Redraw%dx%d", size[0], size[1]), func(b *testing.B) {
			for b.Loop() {
				r.Draw(img, scene.Build(in, v, w, h), 4)
			}
		})
	}
}
