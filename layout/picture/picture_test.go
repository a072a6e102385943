package picture

import (
	"bytes"
	"compress/zlib"
	"context"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// quarters is a picture of w by h whose quarters are red, green, blue and
// white, from the upper left in the way of reading.
func quarters(w, h int) *image.RGBA {
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
	return m
}

func pngOf(t testing.TB, m image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func jpegOf(t testing.TB, m image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// chunk returns one chunk of a PNG (PNG specification, third edition, 5.3).
func chunk(name string, data []byte) []byte {
	b := binary.BigEndian.AppendUint32(nil, uint32(len(data)))
	b = append(append(b, name...), data...)
	return binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(b[4:]))
}

// header returns the start of a PNG that claims a size and depth.
func header(w, h uint32, depth, kind byte) []byte {
	d := binary.BigEndian.AppendUint32(nil, w)
	d = binary.BigEndian.AppendUint32(d, h)
	d = append(d, depth, kind, 0, 0, 0)
	return append([]byte("\x89PNG\r\n\x1a\n"), chunk("IHDR", d)...)
}

// bomb is a PNG whose pixels would unpack to far more than its size asks for.
func bomb(t testing.TB) []byte {
	var z bytes.Buffer
	w := zlib.NewWriter(&z)
	zeros := make([]byte, 1<<20)
	for range 200 {
		if _, err := w.Write(zeros); err != nil {
			t.Fatal(err)
		}
	}
	w.Close()
	out := append(header(16, 16, 8, 2), chunk("IDAT", z.Bytes())...)
	return append(out, chunk("IEND", nil)...)
}

// turnedJPEG puts an Exif segment with an orientation into a JPEG.
func turnedJPEG(t testing.TB, m image.Image, turn byte, order string) []byte {
	tiff := []byte("II*\x00\x08\x00\x00\x00\x01\x00\x12\x01\x03\x00\x01\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00")
	tiff[18] = turn
	if order == "MM" {
		tiff = []byte("MM\x00*\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00\x00\x00\x00\x00\x00\x00\x00")
		tiff[19] = turn
	}
	body := append([]byte("Exif\x00\x00"), tiff...)
	seg := binary.BigEndian.AppendUint16([]byte{0xFF, 0xE1}, uint16(len(body)+2))
	data := jpegOf(t, m)
	return bytes.Join([][]byte{data[:2], seg, body, data[2:]}, nil)
}

func write(t testing.TB, name string, data []byte) string {
	t.Helper()
	p := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(p, data, 0o644); err != nil {
		t.Fatal(err)
	}
	return p
}

func read(path string) (*Picture, error) { return Read(context.Background(), path) }

// What is broken, too large or no picture is refused in one line that says
// what was found and what was expected.
func TestHostile(t *testing.T) {
	whole := jpegOf(t, quarters(64, 64))
	big := filepath.Join(t.TempDir(), "big.png")
	f, err := os.Create(big)
	if err != nil {
		t.Fatal(err)
	}
	if err := f.Truncate(MostBytes + 1); err != nil {
		t.Fatal(err)
	}
	f.Close()
	for _, c := range []struct{ name, path, want string }{
		{"100000 a side", write(t, "a.png", header(100000, 100000, 8, 2)), "found 100000 × 100000 pixels, expected at most 30000 a side"},
		{"many pixels", write(t, "a.png", header(20000, 20000, 8, 2)), "(400 million), expected at most 64 million"},
		{"16 bit", write(t, "a.png", header(8000, 7500, 16, 6)), "of a 16 bit picture (60 million), expected at most 41 million"},
		{"header only", write(t, "a.png", header(100, 100, 8, 2)), "cut off"},
		{"cut JPEG", write(t, "a.jpg", whole[:len(whole)/2]), "found a JPEG that is cut off"},
		{"JPEG start", write(t, "a.jpg", whole[:20]), "found a JPEG that is cut off"},
		{"bomb", write(t, "a.png", bomb(t)), "found a broken PNG"},
		{"empty", write(t, "a.png", nil), "found an empty file"},
		{"text", write(t, "a.png", []byte("not a picture")), "found neither PNG nor JPEG nor PDF by its content"},
		{"folder", t.TempDir(), "found a folder"},
		{"missing", filepath.Join(t.TempDir(), "no.png"), "there is no such file"},
		{"file of 64 MB and a byte", big, "found 65 MB, expected at most 64 MB"},
		{"one pixel", write(t, "a.png", pngOf(t, image.NewGray(image.Rect(0, 0, 1, 1)))), "found 1 × 1 pixels, expected at least 2 × 2"},
	} {
		p, err := read(c.path)
		if err == nil {
			t.Errorf("%s: read as %d × %d", c.name, p.Width, p.Height)
			continue
		}
		if msg := err.Error(); !strings.Contains(msg, c.want) || strings.Contains(msg, "\n") || strings.Contains(msg, filepath.Dir(c.path)) {
			t.Errorf("%s: %q, want %q", c.name, msg, c.want)
		}
	}
	if _, err := read("no.png"); !errors.Is(err, fs.ErrNotExist) {
		t.Error("a missing file is not fs.ErrNotExist")
	}
}

// The bomb is not unpacked: refusing it takes little memory.
func TestBombStaysPacked(t *testing.T) {
	path := write(t, "a.png", bomb(t))
	got := testing.Benchmark(func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			_, _ = read(path)
		}
	})
	if n := got.AllocedBytesPerOp(); n > 16<<20 {
		t.Errorf("took %d MB to refuse", n>>20)
	}
}

// The content counts, not the ending; a link is followed.
func TestWrongEndingAndLink(t *testing.T) {
	path := write(t, "plan.jpg", pngOf(t, quarters(40, 20)))
	link := filepath.Join(t.TempDir(), "link.png")
	if err := os.Symlink(path, link); err != nil {
		t.Skip("no links here")
	}
	for _, p := range []string{path, link} {
		got, err := read(p)
		if err != nil || got.Width != 40 || got.Height != 20 {
			t.Errorf("%s: %v, %v", p, got, err)
		}
	}
	loop := filepath.Join(t.TempDir(), "loop.png")
	if err := os.Symlink(loop, loop); err != nil {
		t.Fatal(err)
	}
	if _, err := read(loop); err == nil {
		t.Error("a link to itself was read")
	}
}

// Exif 2.3, 4.6.4, Orientation: where row 0 and column 0 are in the upright
// picture. The stored picture has red upper left, green upper right, blue lower
// left, white lower right.
func TestOrientation(t *testing.T) {
	const r, g, b, w = 'r', 'g', 'b', 'w'
	for turn, want := range map[byte]string{
		1: "rgbw", 2: "grwb", 3: "wbgr", 4: "bwrg", 5: "rbgw", 6: "brwg", 7: "wgbr", 8: "gwrb", 9: "rgbw",
	} {
		for _, order := range []string{"II", "MM"} {
			p, err := read(write(t, "a.jpg", turnedJPEG(t, quarters(64, 32), turn, order)))
			if err != nil {
				t.Fatal(err)
			}
			ww, hh := 64, 32
			if turn >= 5 && turn <= 8 {
				ww, hh = 32, 64
			}
			if p.Width != ww || p.Height != hh {
				t.Errorf("%s %d: %d × %d", order, turn, p.Width, p.Height)
			}
			got := ""
			for _, at := range []image.Point{{ww / 4, hh / 4}, {3 * ww / 4, hh / 4}, {ww / 4, 3 * hh / 4}, {3 * ww / 4, 3 * hh / 4}} {
				c := p.Level(0).RGBAAt(at.X, at.Y)
				switch {
				case c.R > 128 && c.G > 128:
					got += string(rune(w))
				case c.R > 128:
					got += string(rune(r))
				case c.G > 128:
					got += string(rune(g))
				case c.B > 128:
					got += string(rune(b))
				}
			}
			if got != want {
				t.Errorf("%s %d: %s, want %s", order, turn, got, want)
			}
		}
	}
}

// A large picture is kept smaller but says its true size; the mean of every
// level is that of the picture, and see-through becomes white.
func TestShrinking(t *testing.T) {
	p, err := read(write(t, "a.png", pngOf(t, quarters(4000, 3000))))
	if err != nil {
		t.Fatal(err)
	}
	top := p.Level(0).Rect
	if p.Width != 4000 || p.Height != 3000 || top.Dx()*top.Dy() > working || top.Dx() < 3200 {
		t.Errorf("%d × %d kept as %v", p.Width, p.Height, top)
	}
	want := (0.2126 + 0.7152 + 0.0722 + 1) / 4
	for n := range p.Levels() {
		if got := mean(p.Level(n)); got < want-0.02 || got > want+0.02 {
			t.Errorf("level %d has mean %.3f, want %.3f", n, got, want)
		}
	}
	clear, err := read(write(t, "b.png", pngOf(t, image.NewNRGBA(image.Rect(0, 0, 8, 8)))))
	if err != nil || clear.Level(0).RGBAAt(3, 3) != (color.RGBA{255, 255, 255, 255}) || !clear.Light {
		t.Errorf("see-through: %v", err)
	}
}

// Every source pixel is shared out in full.
func TestSpans(t *testing.T) {
	for _, c := range [][2]int{{7, 3}, {4000, 3265}, {5, 5}, {64, 1}, {65, 33}} {
		sum := make([]float64, c[1]+1)
		for _, s := range spans(c[0], c[1]) {
			sum[s.at] += float64(s.first)
			sum[s.at+1] += float64(s.rest)
		}
		for i, v := range sum[:c[1]] {
			if v < 0.999 || v > 1.001 {
				t.Errorf("%v: pixel %d gets %g", c, i, v)
			}
		}
	}
}

func TestCacheKeepsWhatIsTheSame(t *testing.T) {
	path := write(t, "a.png", pngOf(t, quarters(32, 32)))
	var c Cache
	a, err := c.Read(context.Background(), path)
	if err != nil {
		t.Fatal(err)
	}
	if b, _ := c.Read(context.Background(), path); b != a {
		t.Error("decoded again")
	}
	if err := os.WriteFile(path, pngOf(t, quarters(32, 16)), 0o644); err != nil {
		t.Fatal(err)
	}
	if b, err := c.Read(context.Background(), path); err != nil || b == a || b.Sum == a.Sum {
		t.Errorf("a changed file gave the old picture (%v)", err)
	}
}

// onePage is a PDF of one A4 page with a black square of 100 points at the lower left.
func onePage() []byte {
	return []byte("%PDF-1.4\n1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj\n2 0 obj<</Type/Pages/Kids[3 0 R]/Count 1>>endobj\n" +
		"3 0 obj<</Type/Page/Parent 2 0 R/MediaBox[0 0 842 595]/Contents 4 0 R>>endobj\n" +
		"4 0 obj<</Length 14>>stream\n0 0 100 100 re f\nendstream endobj\ntrailer<</Root 1 0 R>>\n")
}

func TestPDFPage(t *testing.T) {
	if _, err := exec.LookPath(renderer); err != nil {
		if os.Getenv("CI") != "" {
			t.Fatalf("poppler is not installed (make test-packages installs it): %v", err)
		}
		t.Skip("SKIPPED: poppler is not installed, so no page of a PDF was read")
	}
	p, err := read(write(t, "a.pdf", onePage()))
	if err != nil {
		t.Fatal(err)
	}
	if max(p.Width, p.Height) != pageSide || p.Width < p.Height {
		t.Errorf("page of %d × %d", p.Width, p.Height)
	}
	m := p.Level(0)
	if c := m.RGBAAt(5, m.Rect.Dy()-5); c.R > 40 {
		t.Errorf("lower left is %v, want black", c)
	}
	if c := m.RGBAAt(m.Rect.Dx()-5, 5); c.R < 250 {
		t.Errorf("upper right is %v, want white", c)
	}
	if _, err := read(write(t, "b.pdf", []byte("%PDF-1.4\nrubbish"))); err == nil || !strings.Contains(err.Error(), "cannot be drawn") {
		t.Errorf("a broken page: %v", err)
	}
	old := renderer
	defer func() { renderer = old }()
	renderer = "no-such-program"
	if _, err := read(write(t, "a.pdf", onePage())); err == nil || !strings.Contains(err.Error(), "poppler-utils") {
		t.Errorf("without poppler: %v", err)
	}
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Read(ctx, write(t, "a.png", pngOf(t, quarters(32, 32)))); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}

func FuzzDecode(f *testing.F) {
	f.Add(pngOf(f, quarters(4, 4)))
	f.Add(turnedJPEG(f, quarters(8, 8), 6, "MM"))
	f.Add(header(100000, 100000, 8, 2))
	f.Fuzz(func(t *testing.T, data []byte) {
		if bytes.Contains(data, []byte("%PDF-")) {
			return // not ours to fuzz
		}
		if c, _, err := image.DecodeConfig(bytes.NewReader(data)); err == nil && c.Width*c.Height > 1<<20 && c.Width*c.Height <= MostPixels {
			return // allowed, but slow
		}
		p, err := decode(context.Background(), data)
		if err == nil && (p.Width < 2 || p.Height < 2 || p.Levels() < 1) {
			t.Errorf("%d × %d, %d levels", p.Width, p.Height, p.Levels())
		}
	})
}

// BenchmarkRead reads a photo of 12 million pixels.
func BenchmarkRead(b *testing.B) {
	path := write(b, "a.jpg", jpegOf(b, quarters(4000, 3000)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := read(path); err != nil {
			b.Fatal(err)
		}
	}
}
