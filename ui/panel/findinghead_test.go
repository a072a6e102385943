package panel

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"duskwire/layout/doc"
)

// While figures follow the drawing, the heading of the findings says so by a word and a
// shape, in a narrow panel too; with the figures both go.
func TestFindingsHeadFollows(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p := NewFindings(d)
	w := test.NewTempWindow(t, p.Object())
	w.SetPadded(false)
	for _, width := range []float32{285, 600} {
		w.Resize(fyne.NewSize(width, 300))
		now := *d.Frame()
		late := now
		late.Behind = true
		for _, preview := range []bool{false, true} { // after a large edit, and under the hand
			late.Preview = preview
			p.SetHead(&late)
			if got := strings.ToLower(p.head.text.Text); !strings.Contains(got, workedOut) || !strings.Contains(got, "1 decide") || !p.head.mark.Visible() {
				t.Errorf("%g wide, preview %v: %q, shape %v", width, preview, got, p.head.mark.Visible())
			}
			if high, need := p.head.text.Size().Height, p.head.text.MinSize().Height; high < need {
				t.Errorf("%g wide: the heading has %.0f of %.0f", width, high, need)
			}
			if end := p.head.mark.Position().X + p.head.mark.Size().Width; end > p.head.text.Position().X+8 || p.head.mark.Size().Width < 12 {
				t.Errorf("the shape ends at %.0f, the words begin at %.0f", end, p.head.text.Position().X)
			}
			p.SetFrame(&now)
			if got := p.head.text.Text; strings.Contains(got, workedOut) || p.head.mark.Visible() || !strings.HasPrefix(got, "Findings") {
				t.Errorf("with the figures: %q, shape %v", got, p.head.mark.Visible())
			}
		}
	}
}

// Light that follows is marked where it takes longer than a moment, in a large scheme.
func TestFindingsHeadFollowsLight(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p := NewFindings(d)
	for _, c := range []struct {
		lamps int
		want  bool
	}{{0, false}, {250, true}} {
		f := *d.Frame()
		f.LightBehind = true
		grown := *f.Scheme
		lamps := f.Scheme.Lamps.All()
		for i := range c.lamps {
			l := *lamps[0]
			l.ID = doc.ID(fmt.Sprint("more", i))
			lamps = append(lamps, &l)
		}
		grown.Lamps = doc.NewSet(lamps...)
		f.Scheme = &grown
		if p.SetHead(&f); p.head.mark.Visible() != c.want || strings.Contains(strings.ToLower(p.head.text.Text), workedOut) != c.want {
			t.Errorf("%d lamps more: %q, shape %v", c.lamps, p.head.text.Text, p.head.mark.Visible())
		}
	}
}
