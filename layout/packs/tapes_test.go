package packs

import (
	"math"
	"path/filepath"
	"regexp"
	"testing"

	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

// TestTapesMeasureTrue measures every distance on the drawing: the line on paper
// times the scale is what its figure says, to half a centimetre in the garden, and
// the figure is that of the list Setting out.
func TestTapesMeasureTrue(t *testing.T) {
	for _, path := range []string{example, sixty, three, "../../testdata/scenarios/7-oak.yaml"} {
		in := input(t, path)
		b := newBook(in)
		if b.fixed == nil {
			continue
		}
		drawn := 0
		for _, p := range makeAll(t, in)[1].Pages {
			if len(p.Title) < 14 || p.Title[:14] != "Tape distances" {
				continue
			}
			k := p.List.View.Denominator / 1000
			var ends [2]scene.XY
			for i := range ends {
				ends[i] = p.List.View.Paper(b.fixed.at[i])
			}
			figures, lines := 0, 0
			for i := range p.List.Items {
				it := &p.List.Items[i]
				if m := figureOfTape.FindStringSubmatch(it.Text); m != nil {
					figures++
					if !b.onTheList(m[1], m[2]) {
						t.Errorf("%s: %q is not on the list Setting out", filepath.Base(path), it.Text)
					}
				}
				if it.Layer != scene.LayerDimensions || it.Kind != scene.Polyline || it.Entity != "" {
					continue
				}
				for n, f := range ends {
					if it.Points[0] != f {
						continue
					}
					lines++
					if (len(it.Style.Dash) > 0) != (n == 1) {
						t.Errorf("%s: a line from F%d has the look of the other", filepath.Base(path), n+1)
					}
					long := math.Hypot(it.Points[1].X-f.X, it.Points[1].Y-f.Y) * k
					if !b.onTheList("F"+whole(n+1), digits(long, 2)) && !b.onTheList("F"+whole(n+1), digits(long-0.005, 2)) && !b.onTheList("F"+whole(n+1), digits(long+0.005, 2)) {
						t.Errorf("%s: a line of %.3f m from F%d, which is on no list", filepath.Base(path), long, n+1)
					}
				}
			}
			if figures != lines || figures == 0 {
				t.Errorf("%s: %d figures on %d lines", filepath.Base(path), figures, lines)
			}
			drawn += lines
		}
		if drawn == 0 {
			t.Errorf("%s: no distance is drawn", filepath.Base(path))
		}
	}
}

var figureOfTape = regexp.MustCompile(`^(F[12]) (\d+\.\d\d)$`)

// onTheList reports whether some point has this distance from a fixed point.
func (b *book) onTheList(from, figure string) bool {
	i := int(from[1] - '1')
	for _, s := range b.spots() {
		if long(geom.Distance(b.fixed.at[i], s.at)) == figure {
			return true
		}
	}
	return false
}

// Every point that stands in the garden and every bend in the ground is on one
// drawing, no drawing has more than it can hold, and figures lie neither on each
// other nor on the tags.
func TestTapesReadable(t *testing.T) {
	for _, path := range []string{example, sixty, three} {
		in := input(t, path)
		b := newBook(in)
		seen := map[string]int{}
		for _, part := range b.tapeParts() {
			if len(part) > mostTapes {
				t.Errorf("%s: %d points on one drawing", path, len(part))
			}
			for _, s := range part {
				seen[s.name]++
			}
		}
		for name, n := range seen {
			if n != 1 {
				t.Errorf("%s: %s is on %d drawings", path, name, n)
			}
		}
		for _, box := range b.scheme.Boxes.All() {
			if seen[box.Tag] == 0 {
				t.Errorf("%s: %s is on no drawing", path, box.Tag)
			}
		}
		for n, p := range makeAll(t, in)[1].Pages {
			if len(p.Title) < 14 || p.Title[:14] != "Tape distances" {
				continue
			}
			for i := range p.List.Items {
				it := &p.List.Items[i]
				if figureOfTape.FindStringSubmatch(it.Text) == nil {
					continue
				}
				rest := &taken{}
				for k := range p.List.Items {
					if o := &p.List.Items[k]; k != i && o.Kind == scene.Text {
						rest.text(o)
					}
				}
				sin, cos := sincos(it.Turn)
				hits := 0
				for x := 0.9; x < scene.TextWidth(it.Text, it.Size, false); x += 0.9 {
					c := scene.XY{X: it.Points[0].X + cos*x - sin*0.9, Y: it.Points[0].Y - sin*x - cos*0.9}
					hits += rest.hits(c.X-0.3, c.Y-0.3, c.X+0.3, c.Y+0.3)
				}
				if hits > 0 {
					t.Errorf("%s page %d: %q lies on other words", filepath.Base(path), n+1, it.Text)
				}
			}
		}
	}
}

// Without anything fixed no distance is drawn.
func TestNoTapes(t *testing.T) {
	b := newBook(input(t, terrace))
	b.fixed = nil
	if parts := b.tapeParts(); parts != nil {
		t.Errorf("%d drawings from nowhere", len(parts))
	}
}
