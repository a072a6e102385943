package packs

import (
	"bytes"
	"context"
	"errors"
	"strings"
	"testing"

	"duskwire/layout"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

func clientOf(t *testing.T, in Input) map[string][]*scene.List {
	t.Helper()
	made, err := Make(context.Background(), in, nil, "client")
	if err != nil {
		t.Fatal(err)
	}
	out := map[string][]*scene.List{}
	for _, p := range made[0].Pages {
		out[p.Title] = append(out[p.Title], p.List)
	}
	return out
}

func images(l *scene.List) (n int) {
	for i := range l.Items {
		if l.Items[i].Kind == scene.Image {
			n++
		}
	}
	return n
}

// TestNightPages: the client pack has the night plan, a picture for each eye point
// and the lines of lux, each with what it is, exposure, factor and the word
// photopic; the lines are black on white and lettered.
func TestNightPages(t *testing.T) {
	in := input(t, example)
	in.Date = ""
	pages := clientOf(t, in)
	eyes := 0
	for _, title := range []string{"Night plan", "Standing view", "Lines of equal light"} {
		text := ""
		for _, l := range pages[title] {
			text += words(l)
			if title == "Standing view" {
				eyes += images(l)
			}
		}
		flat := strings.Join(strings.Fields(text), " ")
		for _, want := range []string{upper(layout.NightCaveat), "Photopic", "maintenance factor 0.8, 0.7 for L14, L15 in the ground (new and clean 1.25 times as much, those in the ground 1.43 times)", "Fixed exposure"} {
			if !strings.Contains(flat, want) {
				t.Errorf("%s: %q is not said in %s", title, want, flat)
			}
		}
	}
	if n := len(in.Frame.Scheme.Eyes); eyes != n || n == 0 {
		t.Errorf("%d standing views of %d eye points", eyes, n)
	}
	if n := images(pages["Night plan"][0]); n != 1 {
		t.Errorf("%d pictures on the night plan", n)
	}
	lines, figures := 0, 0
	for _, it := range pages["Lines of equal light"][0].Items {
		if it.Layer != scene.LayerLux {
			continue
		}
		c := it.Style.Stroke
		if it.Kind == scene.Text {
			c, figures = it.Style.Fill, figures+1
		} else {
			lines++
		}
		if pal := scene.Light(); c != pal.Ink && c != pal.Paper {
			t.Errorf("%q is drawn in %v, expected ink or paper", it.Entity, c)
		}
	}
	if lines < 10 || figures < 5 {
		t.Errorf("%d lines and %d figures, expected more", lines, figures)
	}
}

// TestNightOptions: a second scheme is shown beside the first at one scale, and
// its own light is what its picture shows.
func TestNightOptions(t *testing.T) {
	in, other := input(t, example), input(t, mistakes)
	in.Other = &other
	l := clientOf(t, in)["Options by night"]
	if len(l) != 1 || images(l[0]) != 2 {
		t.Fatalf("%d pages of options by night", len(l))
	}
	var wide [2]float64
	var pix [2][]byte
	n := 0
	for _, it := range l[0].Items {
		if it.Kind == scene.Image {
			wide[n], pix[n] = it.Points[1].X-it.Points[0].X, it.Image.Level(0).Pix
			n++
		}
	}
	if wide[0] != wide[1] || bytes.Equal(pix[0], pix[1]) {
		t.Errorf("pictures %.2f and %.2f mm wide, the same: %v", wide[0], wide[1], bytes.Equal(pix[0], pix[1]))
	}
}

// TestNightCancelled: the work of the night pages ends when the context does.
func TestNightCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	_, err := Make(ctx, input(t, example), func(_ float64, step string) {
		if step == "Night plan" {
			cancel()
		}
	}, "client")
	if !errors.Is(err, context.Canceled) {
		t.Errorf("found %v, expected that it was cancelled", err)
	}
}

// lettered are the labels of a drawing: where each stands, and what it says.
func lettered(l *scene.List) (boxes [][4]float64, texts []string) {
	for i := range l.Items {
		it := &l.Items[i]
		if it.Kind != scene.Text || it.Layer != scene.LayerLabels {
			continue
		}
		p, w := scene.Start(it), scene.TextWidth(it.Text, it.Size, it.Bold)
		sin, cos := sincos(it.Turn)
		// The box about a turned text; names along a wall are level or upright.
		xs := [4]float64{p.X, p.X + w*cos, p.X - it.Size*sin, p.X + w*cos - it.Size*sin}
		ys := [4]float64{p.Y, p.Y - w*sin, p.Y - it.Size*cos, p.Y - w*sin - it.Size*cos}
		boxes = append(boxes, [4]float64{min(xs[0], xs[1], xs[2], xs[3]), min(ys[0], ys[1], ys[2], ys[3]),
			max(xs[0], xs[1], xs[2], xs[3]), max(ys[0], ys[1], ys[2], ys[3])})
		texts = append(texts, it.Text)
	}
	return boxes, texts
}

// TestNightLabelsApart: no two labels of a night plan lie on each other, sixty
// lamps are not drawn smaller than on the client's plan, and most have their
// number.
func TestNightLabelsApart(t *testing.T) {
	for _, c := range []struct {
		path  string
		least int // lamps with a number
	}{{sixty, 55}, {three, 3}, {example, 14}} {
		pages := clientOf(t, input(t, c.path))
		night := pages["Night plan"][0]
		boxes, texts := lettered(night)
		numbers := 0
		for i, a := range boxes {
			if strings.HasPrefix(texts[i], "L") && strings.Trim(texts[i][1:], "0123456789") == "" {
				numbers++
			}
			for j, b := range boxes[:i] {
				if a[0] < b[2] && a[2] > b[0] && a[1] < b[3] && a[3] > b[1] {
					t.Errorf("%s: %s lies on %s", c.path, texts[i], texts[j])
				}
			}
		}
		if numbers < c.least {
			t.Errorf("%s: %d lamps have a number, expected %d or more", c.path, numbers, c.least)
		}
		for _, title := range []string{"Night plan", "Lines of equal light"} {
			if got, plan := pages[title][0].View.Denominator, pages["Plan"][0].View.Denominator; got > plan {
				t.Errorf("%s, %s: 1:%.0f, the plan has 1:%.0f", c.path, title, got, plan)
			}
		}
	}
}

// TestNightAssumedWhole: what was assumed is said to its end, lamps that follow
// each other as a run.
func TestNightAssumedWhole(t *testing.T) {
	for _, title := range []string{"Night plan", "Lines of equal light"} {
		text := ""
		for _, l := range clientOf(t, input(t, sixty))[title] {
			text += " " + words(l)
		}
		flat := strings.Join(strings.Fields(text), " ")
		for _, want := range []string{"Assumed: L1 to L12, L21 to L32, L41 to L52: not aimed", "M1, M2: crown not known, throws no shadow."} {
			if !strings.Contains(flat, want) {
				t.Errorf("%s: %q is not said in %s", title, want, flat)
			}
		}
		if strings.Contains(flat, "…") {
			t.Errorf("%s: something is cut in %s", title, flat)
		}
	}
}

// TestNightPaper: a user who has only A4 gets only A4.
func TestNightPaper(t *testing.T) {
	for _, c := range []struct {
		paper string
		long  float64 // of ISO 216
	}{{"A4", 297}, {"A3", 420}, {"", 420}} {
		in := input(t, sixty)
		in.Paper = c.paper
		for _, l := range clientOf(t, in)["Night plan"] {
			if got := max(l.Width, l.Height); got != c.long {
				t.Errorf("paper %q: %.0f mm long, expected %.0f", c.paper, got, c.long)
			}
		}
	}
}

// TestPlanInParts: the client sees a garden that is too large for its own scale
// whole, and once more in parts at that scale, each with its check dimension.
func TestPlanInParts(t *testing.T) {
	in := input(t, sixty)
	pages := clientOf(t, in)
	if n := len(pages["Plan"]); n != 1 {
		t.Fatalf("%d whole plans", n)
	}
	for _, title := range []string{"Plan, part 1 of 2", "Plan, part 2 of 2"} {
		if len(pages[title]) != 1 {
			t.Fatalf("no page %q", title)
		}
		l := pages[title][0]
		if got, own := l.View.Denominator, float64(in.Frame.Scheme.Plan.Scale); got != own {
			t.Errorf("%s: 1:%.0f, expected the scheme's 1:%.0f", title, got, own)
		}
		if !strings.Contains(words(l), "Check: ") {
			t.Errorf("%s has no check dimension", title)
		}
	}
}

// nightBox returns the edges of the picture on a night page: the first polygon that is
// filled with bare ground by night.
func nightBox(t *testing.T, l *scene.List) (lo, hi scene.XY) {
	t.Helper()
	around := layout.NightAround()
	for i := range l.Items {
		if it := &l.Items[i]; it.Kind == scene.Polygon && it.Style.Fill == around {
			return it.Points[0], it.Points[2]
		}
	}
	t.Fatal("no night picture on the page")
	return lo, hi
}

// TestNightBox: the picture closes round the garden and its light and leaves the rest
// of the paper white: beside the garden of the example no more than the 2 m in which
// its light is shown, and the room for labels.
func TestNightBox(t *testing.T) {
	in := input(t, example)
	l := clientOf(t, in)["Night plan"][0]
	lo, hi := nightBox(t, l)
	extent := scene.Extent(in.Frame.Scheme)
	k := 1 / l.View.Denominator
	most := (extent.Width().Millimetres()+4000)*k + 16
	least := extent.Width().Millimetres()*k + 16
	if w := hi.X - lo.X; w > most+0.01 || w < least-0.01 {
		t.Errorf("the picture is %.1f mm wide, expected %.1f to %.1f", w, least, most)
	}
	a, b := l.View.Paper(extent.Min), l.View.Paper(extent.Max)
	if a.X < lo.X || b.X > hi.X || b.Y < lo.Y || a.Y > hi.Y {
		t.Errorf("the garden, %v to %v, is not within the picture, %v to %v", a, b, lo, hi)
	}
	if got := words(l); !strings.Contains(got, "Before curfew, all lamps on. After curfew 15 of 15 lamps burn on at 23:00") {
		t.Error("the page does not say what burns after curfew")
	}
}

// TestNightInParts: a garden that is too large for its own scale has its night pages in
// parts too, at a larger scale than the whole, which together show all of it, each with
// what lies beside it hidden.
func TestNightInParts(t *testing.T) {
	in := input(t, sixty)
	pages := clientOf(t, in)
	for _, title := range []string{"Night plan", "Lines of equal light"} {
		whole := pages[title][0]
		var shown geom.Rect
		for _, part := range []string{", part 1 of 2", ", part 2 of 2"} {
			list := pages[title+part]
			if len(list) != 1 {
				t.Fatalf("%d pages %q", len(list), title+part)
			}
			l := list[0]
			if l.View.Denominator >= whole.View.Denominator {
				t.Errorf("%s: 1:%g, the whole 1:%g", title+part, l.View.Denominator, whole.View.Denominator)
			}
			if title == "Night plan" {
				lo, hi := nightBox(t, l)
				shown = shown.Union(geom.Around(l.View.Plan(lo), l.View.Plan(hi)))
			}
		}
		if extent := scene.Extent(in.Frame.Scheme); title == "Night plan" && (!shown.Contains(extent.Min) || !shown.Contains(extent.Max)) {
			t.Errorf("the parts show %v, the garden is %v", shown, extent)
		}
	}
}
