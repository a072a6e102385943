package panel

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"duskwire/layout/file"

	lay "duskwire/layout"
	"duskwire/layout/doc"
)

// However long a refusal and however narrow the window, the line of help shows all of
// it: it reaches up over the plan, on a ground of its own, and down again with the next.
func TestHelpIsNeverCut(t *testing.T) {
	test.NewTempApp(t)
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	s := NewStatus(lay.NewDesk(stock, rules, doc.New(rules[0].Key), "").Frame())
	w := test.NewTempWindow(t, s.Help())
	w.SetPadded(false)
	const short, long = "Click to place a lamp", "The run R12 cannot be joined to the box B4, because it would then close a loop of 12.5 m over B3: " +
		"found 3 cores of 1.5 mm² where 5 of them are expected, and 3 × 1.5 mm² armoured cable does not have so many. Split it first."
	for _, c := range []struct {
		width  float32
		narrow bool
	}{{720, false}, {253, true}, {180, true}} {
		s.SetNarrow(c.narrow)
		place := s.Help().MinSize().Height
		w.Resize(fyne.NewSize(c.width, place))
		for _, text := range []string{short, long, short} {
			s.SetHint(text, true)
			var shown []string
			low, deep := float32(0), float32(0)
			for _, o := range test.LaidOutObjects(s.hint) {
				if line, ok := o.(*canvas.Text); ok && line.Text != "" {
					shown = append(shown, strings.TrimSpace(line.Text))
					at := fyne.CurrentApp().Driver().AbsolutePositionForObject(line).Y
					low, deep = min(low, at), max(deep, at+line.MinSize().Height)
				}
			}
			if got := strings.Join(shown, " "); got != text {
				t.Errorf("%g wide: %q is shown of %q", c.width, got, text)
			}
			ground := s.help.Objects[0]
			if deep > place+1 || s.hint.MinSize().Height > s.hint.Size().Height+2*helpTuck {
				t.Errorf("%g wide: words down to %.0f of %.0f, %.0f of %.0f high", c.width, deep, place, s.hint.Size().Height, s.hint.MinSize().Height)
			}
			if ground.Position().Y > low+0.5 || ground.Position().Y+ground.Size().Height < place {
				t.Errorf("%g wide: ground from %.0f with %.0f behind words from %.0f", c.width, ground.Position().Y, ground.Size().Height, low)
			}
			if up := -ground.Position().Y; (up > 0) != (text == long && c.narrow) {
				t.Errorf("%g wide: %q reaches up %.0f", c.width, text, up)
			}
		}
	}
}
