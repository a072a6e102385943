package packs

import (
	"bytes"
	"context"
	"errors"
	"strings"
	"testing"

	"duskwire/layout"
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
		for _, want := range []string{upper(layout.NightCaveat), "Photopic", "maintenance factor 0.80", "Fixed exposure"} {
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
