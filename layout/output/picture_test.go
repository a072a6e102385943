package output

import (
	"bytes"
	"encoding/xml"
	"flag"
	"image/png"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/internal/garden"
	"duskwire/layout/scene"
)

var update = flag.Bool("update", false, "rewrite the golden files")

func gardenSheet() Sheet {
	s, lengths, findings := garden.Small()
	return Sheet{Plan: scene.Input{Scheme: s, Stock: garden.Stock(), Lengths: lengths, Findings: findings},
		Date: "2026-01-31", Rules: "UK, 18th edition"}
}

func picture(t *testing.T, format string, s Sheet) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Picture(&b, format, s); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// tool returns the path of a program or skips the test loudly.
func tool(t *testing.T, name string) string {
	t.Helper()
	p, err := exec.LookPath(name)
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatalf("%s is not installed: %v", name, err)
		}
		t.Skipf("SKIPPED: %s is not installed, so this picture was not checked from outside", name)
	}
	return p
}

// temp writes a picture into a fresh folder and returns its path.
func temp(t *testing.T, name string, data []byte) string {
	t.Helper()
	p := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(p, data, 0o644); err != nil {
		t.Fatal(err)
	}
	return p
}

func run(t *testing.T, name string, args ...string) string {
	t.Helper()
	out, err := exec.Command(tool(t, name), args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s %v: %v\n%s", name, args, err, out)
	}
	return string(out)
}

// tenMetres is a scheme with one boundary line of exactly 10 m.
func tenMetres() Sheet {
	s := &doc.Scheme{Title: "Ten metres", Rules: "uk-18", Plan: doc.Plan{Scale: 50},
		Lines: doc.NewSet(&doc.Line{ID: "N1", Tag: "N1", Kind: "wall", Path: []geom.Point{geom.Pt(3, 2), geom.Pt(13, 2)}})}
	return Sheet{Plan: scene.Input{Scheme: s}, Paper: "A3"}
}

func TestSVGGolden(t *testing.T) {
	got := picture(t, "svg", gardenSheet())
	path := filepath.Join("testdata", "garden.svg")
	if *update {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		g, w := strings.Split(string(got), "\n"), strings.Split(string(want), "\n")
		for i := range w {
			if i >= len(g) || g[i] != w[i] {
				t.Fatalf("garden.svg differs from line %d on (look, then -update):\nwant %s\ngot  %s", i+1, w[i], g[min(i, len(g)-1)])
			}
		}
		t.Fatal("garden.svg is longer than wanted")
	}
}

// TestSVGMeasuresTrue reads the wall back from the file: 10 m at 1:50 are
// 200 mm, by definition of the scale; the sheet is an A3 of ISO 216.
func TestSVGMeasuresTrue(t *testing.T) {
	text := string(picture(t, "svg", tenMetres()))
	if !strings.Contains(text, `width="420mm" height="297mm" viewBox="0 0 420 297"`) {
		t.Error("the picture does not have the size of an A3 sheet in millimetres")
	}
	m := regexp.MustCompile(`<path d="M(\S+) (\S+)L(\S+) (\S+)" stroke="#3c4148"[^>]*data-id="N1"`).FindStringSubmatch(text)
	if m == nil {
		t.Fatal("the wall is not in the picture")
	}
	if d := number(t, m[3]) - number(t, m[1]); math.Abs(d-200) > 0.001 {
		t.Errorf("10 m at 1:50 is %g mm, want 200", d)
	}
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// TestViewOfPage says that a page's own View gives places on the sheet.
func TestViewOfPage(t *testing.T) {
	l, err := Page(tenMetres())
	if err != nil {
		t.Fatal(err)
	}
	a, b := l.View.Paper(geom.Pt(3, 2)), l.View.Paper(geom.Pt(13, 2))
	for _, it := range l.Items {
		if it.Entity == "N1" && it.Kind == scene.Polyline {
			for i, want := range []scene.XY{a, b} {
				if got := it.Points[i]; math.Hypot(got.X-want.X, got.Y-want.Y) > 1e-6 {
					t.Errorf("end %d drawn at %v, the view says %v", i, got, want)
				}
			}
			return
		}
	}
	t.Error("the wall is not on the page")
}

func TestSVGRenders(t *testing.T) {
	path := temp(t, "garden.svg", picture(t, "svg", gardenSheet()))
	out := filepath.Join(t.TempDir(), "out.png")
	run(t, "rsvg-convert", "-o", out, path)
	if i, err := os.Stat(out); err != nil || i.Size() < 10_000 {
		t.Errorf("rsvg-convert drew nothing of use: %v", err)
	}
}

// hostile titles try to break out of the formats.
var hostile = []string{
	`</title><script>alert("x")</script>`, `a & b < c > d "e" 'f'`, "]]>", "<!-- ", "\x00\x01\x1b[31m", "line\nbreak\ttab",
	`\) Tj ET (`, "\xff\xfe broken", strings.Repeat("long ", 200), strings.Repeat("W", 500), "garden 🌳 and 庭", "", "\u202Eright to left",
}

func TestHostileTitles(t *testing.T) {
	for _, title := range hostile {
		s := gardenSheet()
		own := *s.Plan.Scheme
		own.Title, own.Author = title, title
		s.Plan.Scheme, s.Date, s.Rules = &own, title, title
		data := picture(t, "svg", s)
		for d := xml.NewDecoder(bytes.NewReader(data)); ; {
			token, err := d.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatalf("title %q: not well-formed: %v", title, err)
			}
			if e, ok := token.(xml.StartElement); ok && e.Name.Local == "script" {
				t.Errorf("title %q became a script", title)
			}
		}
		picture(t, "pdf", s)
		l, err := Page(s)
		if err != nil {
			t.Fatal(err)
		}
		for _, it := range l.Items {
			if it.Kind != scene.Text || it.Layer != scene.LayerFrame {
				continue
			}
			from := scene.Start(&it).X
			if to := from + scene.TextWidth(it.Text, it.Size, it.Bold); from < edge || to > l.Width-edge {
				t.Errorf("title %q: %q runs over the frame, %.1f to %.1f mm", title, it.Text, from, to)
			}
		}
	}
}

func TestPNG(t *testing.T) {
	s := gardenSheet()
	s.PixelsPerMM = 4
	data := picture(t, "png", s)
	c, err := png.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if c.Width != 1680 || c.Height != 1188 { // A3 at 4 px/mm
		t.Errorf("picture is %d x %d, want 1680 x 1188", c.Width, c.Height)
	}
	if i := bytes.Index(data, []byte("pHYs")); i < 0 || !bytes.Equal(data[i+4:i+13], []byte{0, 0, 15, 160, 0, 0, 15, 160, 1}) {
		t.Error("no pHYs chunk with 4000 pixels a metre")
	}
	if !bytes.Equal(data, picture(t, "png", s)) {
		t.Error("the same sheet gives other bytes")
	}
}

func TestChoosesPaper(t *testing.T) {
	plot := func(w, h float64, scale int) *doc.Scheme {
		return &doc.Scheme{Plan: doc.Plan{Scale: scale}, Areas: doc.NewSet(&doc.Area{ID: "A1", Kind: "lawn",
			Ring: []geom.Point{geom.Pt(0, 0), geom.Pt(w, 0), geom.Pt(w, h), geom.Pt(0, h)}})}
	}
	tests := []struct {
		name       string
		s          Sheet
		wide, tall float64
		scale      float64
		wantError  string
	}{
		{"small", Sheet{Plan: scene.Input{Scheme: plot(8, 7, 50)}}, 297, 210, 50, ""},
		{"tall", Sheet{Plan: scene.Input{Scheme: plot(7, 9, 50)}}, 210, 297, 50, ""},
		{"needs A3", Sheet{Plan: scene.Input{Scheme: plot(14, 10, 50)}}, 420, 297, 50, ""},
		{"own scale does not fit", Sheet{Plan: scene.Input{Scheme: plot(60, 40, 50)}}, 420, 297, 200, ""},
		{"asked scale does not fit", Sheet{Plan: scene.Input{Scheme: plot(60, 40, 50)}, Denominator: 50}, 0, 0, 0, "largest scale that fits is 1:200"},
		{"bad paper", Sheet{Plan: scene.Input{Scheme: plot(8, 7, 50)}, Paper: "B5"}, 0, 0, 0, "expected A4 or A3"},
		{"too big", Sheet{Plan: scene.Input{Scheme: plot(6000, 6000, 0)}}, 0, 0, 0, "does not fit the paper"},
		{"empty", Sheet{Plan: scene.Input{Scheme: &doc.Scheme{}}}, 297, 210, 50, ""},
	}
	for _, test := range tests {
		l, err := Page(test.s)
		if test.wantError != "" {
			if err == nil || !strings.Contains(err.Error(), test.wantError) {
				t.Errorf("%s: error %v, want %q", test.name, err, test.wantError)
			}
			continue
		}
		if err != nil || l.Width != test.wide || l.Height != test.tall || l.View.Denominator != test.scale {
			t.Errorf("%s: %v; %+v", test.name, err, l)
		}
	}
	if err := Picture(io.Discard, "bmp", gardenSheet()); err == nil || !strings.Contains(err.Error(), "expected png, svg or pdf") {
		t.Errorf("unknown format: %v", err)
	}
}

// TestLook leaves pictures to look at when LOOK names a folder.
func TestLook(t *testing.T) {
	dir := os.Getenv("LOOK")
	if dir == "" {
		t.Skip("set LOOK to a folder to get pictures to look at")
	}
	for _, format := range []string{"png", "svg", "pdf"} {
		if err := os.WriteFile(filepath.Join(dir, "page."+format), picture(t, format, gardenSheet()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	s := gardenSheet()
	s.Turn, s.Plan.Palette = "portrait", scene.Light().Grey()
	if err := os.WriteFile(filepath.Join(dir, "portrait.png"), picture(t, "png", s), 0o644); err != nil {
		t.Fatal(err)
	}
	s.Turn, s.Paper = "", "A4"
	if err := os.WriteFile(filepath.Join(dir, "a4.png"), picture(t, "png", s), 0o644); err != nil {
		t.Fatal(err)
	}
}
