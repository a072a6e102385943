package packs

import (
	"context"
	"fmt"
	"image"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"
)

// blur is the reach of the blur in pixels.
const blur = 5

// dotsPerInch of the pictures that are compared.
const dotsPerInch = 220

// TestScreenIsPaper: every page as the screen shows it against the page of the
// PDF as poppler draws it. Letters and strokes are smoothed each in its own way,
// so pictures are compared after they were blurred over a square of 11 pixels
// (1.3 mm), and every letter of the page has to be in the text of the PDF.
func TestScreenIsPaper(t *testing.T) {
	for _, path := range []string{example} {
		for _, p := range makeAll(t, input(t, path)) {
			file := pdf(t, p)
			folder := t.TempDir()
			poppler(t, "pdftoppm", "-r", strconv.Itoa(dotsPerInch), "-gray", file, filepath.Join(folder, "p"))
			painted, err := filepath.Glob(filepath.Join(folder, "*.pgm"))
			if err != nil || len(painted) != len(p.Pages) {
				t.Fatalf("%d pictures of %d pages, %v", len(painted), len(p.Pages), err)
			}
			text := strings.Split(poppler(t, "pdftotext", file, "-"), "\f")
			for i := range p.Pages {
				where := filepath.Base(path) + ", " + p.Key + " page " + strconv.Itoa(i+1)
				if got, want := letters(text[i]), letters(words(p.Pages[i].List)); got != want {
					t.Errorf("%s: letters of the PDF\n%s\nof the screen\n%s", where, got, want)
				}
				share, worst := unlike(t, onScreen(t, &p.Pages[i]), painted[i])
				if share > 0.001 || worst > 60 { // found: 0.05 % and 40
					t.Errorf("%s: %.3f %% of the picture differ, by up to %d of 255", where, share*100, worst)
				}
			}
		}
	}
}

// letters returns the letters of a text in order of their codes; how words are
// put into lines is left out.
func letters(s string) string {
	var out []rune
	for _, r := range s {
		if !unicode.IsSpace(r) && unicode.IsPrint(r) {
			out = append(out, r)
		}
	}
	slices.Sort(out)
	return string(out)
}

func onScreen(t *testing.T, p *Page) *image.RGBA {
	t.Helper()
	const k = dotsPerInch / 25.4
	var painter Painter
	// Poppler rounds the size of a page up.
	img, err := painter.Part(context.Background(), p, k, image.Rect(0, 0, int(math.Ceil(p.List.Width*k)), int(math.Ceil(p.List.Height*k))))
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// unlike returns which share of the blurred pictures differs by more than 24 of
// 255, and the largest difference.
func unlike(t *testing.T, a *image.RGBA, path string) (share float64, worst int) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var wide, high, most int
	if n, err := fmt.Sscanf(string(data[:min(len(data), 40)]), "P5\n%d %d\n%d\n", &wide, &high, &most); n != 3 || err != nil || most != 255 {
		t.Fatalf("%s is no grey picture: %v", path, err)
	}
	pixels := data[len(data)-wide*high:]
	if dx, dy := a.Rect.Dx()-wide, a.Rect.Dy()-high; dx*dx > 1 || dy*dy > 1 {
		t.Fatalf("sizes %v and %d by %d", a.Rect, wide, high)
	}
	w, h := min(a.Rect.Dx(), wide), min(a.Rect.Dy(), high)
	ours := blurred(w, h, func(x, y int) int {
		c := a.RGBAAt(x, y)
		return (299*int(c.R) + 587*int(c.G) + 114*int(c.B)) / 1000
	})
	theirs := blurred(w, h, func(x, y int) int { return int(pixels[y*wide+x]) })
	n := 0
	for i := range ours {
		d := ours[i] - theirs[i]
		if d < 0 {
			d = -d
		}
		worst = max(worst, d)
		if d > 24 {
			n++
		}
	}
	return float64(n) / float64(w*h), worst
}

// blurred returns the mean of the pixels about each.
func blurred(w, h int, grey func(x, y int) int) []int {
	sums := make([]int, (w+1)*(h+1)) // of everything above and to the left
	for y := range h {
		row := 0
		for x := range w {
			row += grey(x, y)
			sums[(y+1)*(w+1)+x+1] = sums[y*(w+1)+x+1] + row
		}
	}
	out := make([]int, w*h)
	for y := range h {
		for x := range w {
			x0, y0, x1, y1 := max(x-blur, 0), max(y-blur, 0), min(x+blur+1, w), min(y+blur+1, h)
			s := sums[y1*(w+1)+x1] - sums[y0*(w+1)+x1] - sums[y1*(w+1)+x0] + sums[y0*(w+1)+x0]
			out[y*w+x] = s / ((x1 - x0) * (y1 - y0))
		}
	}
	return out
}

// A part of a page is cut out of the whole, and a page is not changed by it.
func TestPartOfPage(t *testing.T) {
	page := &makeAll(t, input(t, example))[1].Pages[1] // the route drawing
	before := len(page.List.Items)
	first := page.List.Items[0].Points[0]
	var painter Painter
	const k = 4
	whole, err := painter.Part(context.Background(), page, k, image.Rect(0, 0, int(page.List.Width*k), int(page.List.Height*k)))
	if err != nil {
		t.Fatal(err)
	}
	at := image.Rect(200, 300, 440, 460)
	part, err := painter.Part(context.Background(), page, k, at)
	if err != nil {
		t.Fatal(err)
	}
	off := 0
	for y := range at.Dy() {
		for x := range at.Dx() {
			a, b := whole.RGBAAt(at.Min.X+x, at.Min.Y+y), part.RGBAAt(x, y)
			if d := int(a.R) - int(b.R); d > 40 || d < -40 {
				off++
			}
		}
	}
	if off > at.Dx()*at.Dy()/1000 {
		t.Errorf("%d pixels of the part differ from the whole", off)
	}
	if len(page.List.Items) != before || page.List.Items[0].Points[0] != first {
		t.Error("the page was changed")
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if img, err := painter.Part(ctx, page, k, at); err == nil || img != nil {
		t.Errorf("stopped: %v, %v", img, err)
	}
}

func BenchmarkPageOnScreen(b *testing.B) {
	page := &makeAll(b, input(b, sixty))[1].Pages[1]
	var painter Painter
	for b.Loop() {
		if _, err := painter.Part(context.Background(), page, 4, image.Rect(0, 0, int(page.List.Width*4), int(page.List.Height*4))); err != nil {
			b.Fatal(err)
		}
	}
}
