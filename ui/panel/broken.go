package panel

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	q "duskwire/calc/quantity"
)

// brokenButton lays out a button whose words are broken to its width: the toolkit
// writes them in one line and lets the panel run under the edge of the window.
type brokenButton struct{ *Button }

// breaks is a button with names in it that people give, as long as they like.
func breaks(b *Button, text string) {
	if b.whole != text {
		b.whole = text
		b.SetText(text)
	}
}

func (l brokenButton) edges() float32 {
	return 2*theme.Size(theme.SizeNameInnerPadding) + 2*theme.Padding()
}

// MinSize implements fyne.Layout.
func (l brokenButton) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(0, l.Button.MinSize().Height)
}

// Layout implements fyne.Layout.
func (l brokenButton) Layout(o []fyne.CanvasObject, size fyne.Size) {
	text := broken(l.whole, size.Width-l.edges(), func(s string) float32 {
		return fyne.MeasureText(s, theme.Size(theme.SizeNameText), fyne.TextStyle{Bold: true}).Width
	})
	if text != l.Text {
		l.SetText(text)
	}
	for _, c := range o {
		c.Move(fyne.NewPos(0, 0))
		c.Resize(fyne.NewSize(size.Width, max(size.Height, l.Button.MinSize().Height)))
	}
}

// broken ends lines of a text so that they fit a room, figures with their units; a
// word that is longer is broken as well.
func broken(text string, room float32, measure func(string) float32) string {
	if room <= 0 || measure(text) <= room {
		return text
	}
	var lines []string
	line := ""
	for _, w := range q.Words(text) {
		if line != "" && measure(line+" "+w) <= room {
			line += " " + w
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for line = w; measure(line) > room; {
			rs := []rune(line)
			n := len(rs) - 1
			for n > 1 && measure(string(rs[:n])) > room {
				n--
			}
			if n < 1 {
				break
			}
			lines, line = append(lines, string(rs[:n])), string(rs[n:])
		}
	}
	return strings.Join(append(lines, line), "\n")
}
