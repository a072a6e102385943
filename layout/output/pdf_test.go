package output

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"duskwire/layout/doc"
)

// TestPDFPage reads the page back with poppler: exact A3, one page, both
// fonts embedded.
func TestPDFPage(t *testing.T) {
	path := temp(t, "garden.pdf", picture(t, "pdf", gardenSheet()))
	info := run(t, "pdfinfo", path)
	if !regexp.MustCompile(`Pages:\s+1\n`).MatchString(info) {
		t.Errorf("not one page:\n%s", info)
	}
	m := regexp.MustCompile(`Page size:\s+(\S+) x (\S+) pts`).FindStringSubmatch(info)
	if m == nil {
		t.Fatalf("no page size in\n%s", info)
	}
	for i, want := range []float64{420, 297} { // ISO 216
		if got := number(t, m[i+1]) / pointsPerMM; math.Abs(got-want) > 0.01 {
			t.Errorf("side %d is %.3f mm, want %g", i, got, want)
		}
	}
	for _, line := range strings.Split(run(t, "pdffonts", path), "\n") {
		if strings.Contains(line, "TrueType") && !strings.Contains(line, "yes") {
			t.Errorf("font not embedded: %s", line)
		}
	}
}

// TestPDFText finds what was lettered in the text of the page, each once.
func TestPDFText(t *testing.T) {
	s := gardenSheet()
	own := *s.Plan.Scheme
	own.Title = "Loop 1.20 Ω, 2.5 mm², −5 °C"
	s.Plan.Scheme = &own
	text := run(t, "pdftotext", "-layout", temp(t, "garden.pdf", picture(t, "pdf", s)), "-")
	for _, want := range []string{"Loop 1.20 Ω, 2.5 mm², −5 °C", "Scale 1:50 on A3", "2026-01-31", "UK, 18th edition",
		"Do not dig", "Junction box", "Terrace"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in the text of the page", want)
		}
	}
	if n := strings.Count(text, "Terrace"); n > 2 { // on the plan and in the legend
		t.Errorf("a halo repeats the text: Terrace is found %d times", n)
	}
}

// TestPDFMeasuresTrue takes the page apart again with pdftocairo and measures
// the wall: 10 m at 1:50 are 200 mm.
func TestPDFMeasuresTrue(t *testing.T) {
	path := temp(t, "ten.pdf", picture(t, "pdf", tenMetres()))
	out := filepath.Join(filepath.Dir(path), "ten.svg")
	run(t, "pdftocairo", "-svg", path, out)
	data, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	best := 0.0
	for _, m := range regexp.MustCompile(`<path[^>]*?stroke-width[:=]"?([\d.]+)[^>]*? d="M ([\d.]+) ([\d.]+) L ([\d.]+) ([\d.]+) ?"`).FindAllStringSubmatch(string(data), -1) {
		if math.Abs(number(t, m[1])/pointsPerMM-1.0) > 0.02 { // the wall is drawn 1.0 mm wide
			continue
		}
		d := math.Hypot(number(t, m[4])-number(t, m[2]), number(t, m[5])-number(t, m[3])) / pointsPerMM
		best = max(best, d) // the sample in the legend is short
	}
	if math.Abs(best-200) > 0.1 {
		t.Errorf("10 m at 1:50 measures %.2f mm, want 200.0", best)
	}
}

func TestPDFIsTheSameEachTime(t *testing.T) {
	if !bytes.Equal(picture(t, "pdf", gardenSheet()), picture(t, "pdf", gardenSheet())) {
		t.Error("the same sheet gives other bytes")
	}
}

func TestPDFOfNothing(t *testing.T) {
	s := gardenSheet()
	s.Plan.Scheme, s.Plan.Lengths, s.Plan.Findings = &doc.Scheme{}, nil, nil
	path := temp(t, "empty.pdf", picture(t, "pdf", s))
	if text := run(t, "pdftotext", path, "-"); !strings.Contains(text, "Garden lighting plan") {
		t.Errorf("an empty scheme has no title: %q", text)
	}
	run(t, "pdftoppm", "-r", "50", "-png", path, filepath.Join(filepath.Dir(path), "page"))
}
