package packs

import (
	"bytes"
	"context"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/file"
	"duskwire/layout/geom"
	"duskwire/layout/output"
	"duskwire/layout/scene"
)

const (
	example  = "../../assets/examples/townhouse.yaml"
	mistakes = "../../assets/examples/townhouse-mistakes.yaml"
	sixty    = "testdata/sixty.yaml"
	three    = "testdata/three.yaml"
	terrace  = "../../testdata/scenarios/1-terrace-wall.yaml"
	bollards = "../../testdata/scenarios/6-plastic-boxes.yaml"
)

// schemes are those whose pages are looked at.
var schemes = []string{example, mistakes, sixty, three, terrace, bollards, "../../testdata/scenarios/3-tt-cottage.yaml", "../../testdata/scenarios/7-oak.yaml"}

func input(t testing.TB, path string) Input {
	t.Helper()
	s, stock, _, err := file.Open(path, "", "")
	if err != nil {
		t.Fatal(err)
	}
	return inputOf(t, s, stock, path)
}

func inputOf(t testing.TB, s *doc.Scheme, stock doc.Stock, path string) Input {
	t.Helper()
	_, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	f := layout.NewDesk(stock, rules, s, path).Frame()
	return Input{Frame: f, Rules: output.RulesOf(rules, s), Date: "2026-11-26"}
}

func makeAll(t testing.TB, in Input) []*Pack {
	t.Helper()
	all, err := Make(context.Background(), in, nil)
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// tool returns the path of a program or skips the test loudly.
func tool(t *testing.T, name string) string {
	t.Helper()
	p, err := exec.LookPath(name)
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatalf("%s is not installed: %v", name, err)
		}
		t.Skipf("SKIPPED: %s is not installed, so the pages were not read from outside", name)
	}
	return p
}

func poppler(t *testing.T, name string, args ...string) string {
	t.Helper()
	out, err := exec.Command(tool(t, name), args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s %v: %v\n%s", name, args, err, out)
	}
	return string(out)
}

func pdf(t *testing.T, p *Pack) string {
	t.Helper()
	var b bytes.Buffer
	if err := p.PDF(&b); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), p.Key+".pdf")
	if err := os.WriteFile(path, b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// TestPagesFromOutside reads the packs back with poppler: number and size of
// the pages (ISO 216), their numbers in words, signs of the trade and cautions.
func TestPagesFromOutside(t *testing.T) {
	for _, p := range makeAll(t, input(t, sixty)) {
		path := pdf(t, p)
		info := poppler(t, "pdfinfo", "-f", "1", "-l", strconv.Itoa(len(p.Pages)), path)
		if !regexp.MustCompile(`Pages:\s+` + strconv.Itoa(len(p.Pages)) + `\n`).MatchString(info) {
			t.Errorf("%s: not %d pages:\n%s", p.Key, len(p.Pages), info)
		}
		sizes := regexp.MustCompile(`size:\s+([\d.]+) x ([\d.]+) pts`).FindAllStringSubmatch(info, -1)
		if len(sizes) != len(p.Pages) {
			t.Fatalf("%s: %d sizes of %d pages", p.Key, len(sizes), len(p.Pages))
		}
		for i, m := range sizes {
			w, h := figureIn(t, m[1])*25.4/72, figureIn(t, m[2])*25.4/72
			long, short := max(w, h), min(w, h)
			if !(near(long, 297) && near(short, 210) || near(long, 420) && near(short, 297)) {
				t.Errorf("%s page %d is %.2f by %.2f mm, neither A4 nor A3", p.Key, i+1, w, h)
			}
		}
		text := poppler(t, "pdftotext", "-layout", path, "-")
		pages := strings.Split(text, "\f")
		for i := range p.Pages {
			page := strings.Join(strings.Fields(pages[i]), " ")
			for _, want := range []string{"Page " + strconv.Itoa(i+1) + " of " + strconv.Itoa(len(p.Pages)), "Do not dig on this drawing alone", "2026-11-26"} {
				if !strings.Contains(page, want) {
					t.Errorf("%s page %d lacks %q", p.Key, i+1, want)
				}
			}
		}
		wants := map[string][]string{"client": {"°", "lm"}, "site": {"mm²", "m³", "F1", "green-yellow", "nothing spare"}, "test": {"Ω", "MΩ", "°C", "IΔn", "mm²", "−"}}[p.Key]
		for _, want := range append(wants, "own electrode planned") {
			if !strings.Contains(strings.Join(strings.Fields(text), " "), want) {
				t.Errorf("%s: %q is not in its text", p.Key, want)
			}
		}
		fonts := poppler(t, "pdffonts", path)
		for _, line := range strings.Split(fonts, "\n") {
			if strings.Contains(line, "TrueType") && !strings.Contains(line, "yes") {
				t.Errorf("%s: font not embedded: %s", p.Key, line)
			}
		}
	}
}

func near(a, b float64) bool { return math.Abs(a-b) < 0.05 }

func figureIn(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// TestMeasuresTrue measures a wall of 10 m on the client plan and on the route
// drawing with poppler: 200 mm at 1:50, by definition of the scale.
func TestMeasuresTrue(t *testing.T) {
	stock, _, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	s := &doc.Scheme{Title: "Ten metres", Rules: "uk-18", Plan: doc.Plan{Scale: 50},
		Lines: doc.NewSet(&doc.Line{ID: "N1", Tag: "N1", Kind: "wall", Path: []geom.Point{geom.Pt(3, 2), geom.Pt(13, 2)}})}
	in := inputOf(t, s, stock, "")
	for _, p := range makeAll(t, in) {
		if p.Key == "test" {
			continue
		}
		path := pdf(t, p)
		out := filepath.Join(filepath.Dir(path), "page.svg")
		poppler(t, "pdftocairo", "-svg", "-f", "2", "-l", "2", path, out)
		data, err := os.ReadFile(out)
		if err != nil {
			t.Fatal(err)
		}
		best := 0.0
		for _, m := range regexp.MustCompile(`<path[^>]*?stroke-width[:=]"?([\d.]+)[^>]*? d="M ([\d.]+) ([\d.]+) L ([\d.]+) ([\d.]+) ?"`).FindAllStringSubmatch(string(data), -1) {
			if k := 25.4 / 72; math.Abs(figureIn(t, m[1])*k-1.0) < 0.02 { // the wall is drawn 1.0 mm wide
				best = max(best, math.Hypot(figureIn(t, m[4])-figureIn(t, m[2]), figureIn(t, m[5])-figureIn(t, m[3]))*k)
			}
		}
		if math.Abs(best-200) > 0.1 {
			t.Errorf("%s: 10 m at 1:50 measures %.2f mm, want 200.0", p.Key, best)
		}
		text := poppler(t, "pdftotext", "-f", "2", "-l", "2", path, "-")
		if p.Key == "client" && !strings.Contains(text, "Check: 10 m, 200.0 mm") {
			t.Errorf("no check dimension of 10 m, 200.0 mm in\n%s", text)
		}
	}
}

// Same scheme, same bytes; with another date nothing but the date differs.
func TestSameBytes(t *testing.T) {
	in := input(t, example)
	write := func(in Input) (out []string) {
		for _, p := range makeAll(t, in) {
			var b bytes.Buffer
			if err := p.PDF(&b); err != nil {
				t.Fatal(err)
			}
			out = append(out, b.String())
		}
		return out
	}
	a, b := write(in), write(in)
	for i := range a {
		if a[i] != b[i] {
			t.Errorf("pack %s: the same scheme gives other bytes", Keys[i])
		}
	}
	later := in
	later.Date = "2027-01-02"
	x, y := makeAll(t, in), makeAll(t, later)
	for i := range x {
		for n := range x[i].Pages {
			p, q := x[i].Pages[n].List, y[i].Pages[n].List
			if len(p.Items) != len(q.Items) {
				t.Fatalf("%s page %d changes with the date", Keys[i], n+1)
			}
			for k := range p.Items {
				if strings.ReplaceAll(q.Items[k].Text, "2027-01-02", "2026-11-26") != p.Items[k].Text {
					t.Errorf("%s page %d: %q changes with the date", Keys[i], n+1, p.Items[k].Text)
				}
			}
		}
	}
}

// Words of the list pages stay inside the frame and never lie on each other,
// and no table reaches into the title block.
func TestNothingOverlaps(t *testing.T) {
	for _, path := range schemes {
		for _, p := range makeAll(t, input(t, path)) {
			for n, page := range p.Pages {
				if page.List.View.Denominator != 0 {
					continue // a drawing: its labels are the plan's
				}
				where := filepath.Base(path) + ", " + p.Key + " page " + strconv.Itoa(n+1)
				apart(t, where, page.List)
			}
		}
	}
}

func apart(t *testing.T, where string, l *scene.List) {
	t.Helper()
	type rect struct {
		x0, y0, x1, y1 float64
		text           string
	}
	var all []rect
	for i := range l.Items {
		it := &l.Items[i]
		if it.Kind != scene.Text {
			continue
		}
		p := scene.Start(it)
		r := rect{p.X, p.Y - it.Size, p.X + scene.TextWidth(it.Text, it.Size, it.Bold), p.Y, it.Text}
		if r.x0 < filing || r.x1 > l.Width-edge+0.01 || r.y0 < edge || r.y1 > l.Height-edge {
			t.Errorf("%s: %q leaves the frame", where, it.Text)
		}
		if block := l.Height - edge - block(l); r.y1 > block && r.y0 < block {
			t.Errorf("%s: %q reaches into the title block", where, it.Text)
		}
		for _, o := range all {
			if r.x0 < o.x1-0.05 && r.x1 > o.x0+0.05 && r.y0 < o.y1-0.05 && r.y1 > o.y0+0.05 {
				t.Errorf("%s: %q lies on %q", where, it.Text, o.text)
			}
		}
		all = append(all, r)
	}
}

// A decision is printed with its reason in every pack, and where it matters.
func TestOverruledIsPrinted(t *testing.T) {
	for _, p := range makeAll(t, input(t, sixty)) {
		on := map[string]bool{}
		for _, page := range p.Pages {
			if strings.Contains(words(page.List), "own electrode planned") {
				on[page.Title] = true
			}
		}
		for _, want := range map[string][]string{"client": {"Contents", "Plan"}, "site": {"Contents", "Route drawing"}, "test": {"Contents", "Dead tests", "Quantities for the form", "As built", "Notes for the user"}}[p.Key] {
			if !on[want] {
				t.Errorf("%s: the decision is not on the page %s", p.Key, want)
			}
		}
	}
}

// Every pack says where the values of its rule set come from and that they are to
// be checked against the edition in force.
func TestRuleSetSpeaksInEveryPack(t *testing.T) {
	in := input(t, sixty)
	want := strings.Join(strings.Fields(in.Rules.Statement), " ")
	if !strings.Contains(want, "check every value against the current edition") {
		t.Fatalf("the rule set says %q", want)
	}
	for _, p := range makeAll(t, in) {
		said := false
		for _, page := range p.Pages {
			said = said || page.Title == "Contents" && strings.Contains(strings.Join(strings.Fields(words(page.List)), " "), want)
		}
		if !said {
			t.Errorf("%s: nothing says %q", p.Key, want)
		}
	}
}

func words(l *scene.List) string {
	var b strings.Builder
	for i := range l.Items {
		if l.Items[i].Kind == scene.Text {
			b.WriteString(l.Items[i].Text)
			b.WriteString(" ")
		}
	}
	return b.String()
}

// What cannot be made is refused in words, and a cancelled pack is none.
func TestMakeRefuses(t *testing.T) {
	in := input(t, example)
	if _, err := Make(context.Background(), in, nil, "site", "sight"); err == nil || !strings.Contains(err.Error(), "expected client, site or test") {
		t.Errorf("an unknown pack: %v", err)
	}
	in.Date = "tomorrow"
	if _, err := Make(context.Background(), in, nil); err == nil || !strings.Contains(err.Error(), "year-month-day") {
		t.Errorf("a date that is none: %v", err)
	}
	in.Date = ""
	ctx, cancel := context.WithCancel(context.Background())
	steps := 0
	all, err := Make(ctx, in, func(done float64, step string) {
		if steps++; steps == 3 {
			cancel()
		}
	})
	if err != context.Canceled || all != nil {
		t.Errorf("cancelled: %v, %v", all, err)
	}
}

// An empty scheme gives packs that say what is missing.
func TestEmptyScheme(t *testing.T) {
	stock, _, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	text := ""
	for _, p := range makeAll(t, inputOf(t, doc.New("uk-18"), stock, "")) {
		for _, page := range p.Pages {
			text += words(page.List)
		}
	}
	for _, want := range []string{"nothing fixed to measure from", "Nothing is dug", "No run is drawn", "no supply point", "No lamp is drawn yet"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not said", want)
		}
	}
}

func BenchmarkSixtyLamps(b *testing.B) {
	in := input(b, sixty)
	s := *in.Frame.Scheme
	s.Eyes = []doc.Eye{layout.UsualEye(&s), {Tag: "V9", Place: doc.Place{At: geom.Pt(1, 1), Height: doc.UsualEyeHeight}, Bearing: 30, Field: 90}}
	in = inputOf(b, &s, *in.Frame.Stock, sixty)
	for b.Loop() {
		for _, p := range makeAll(b, in) {
			if err := p.PDF(&bytes.Buffer{}); err != nil {
				b.Fatal(err)
			}
		}
	}
}
