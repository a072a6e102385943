package panel

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	q "duskwire/calc/quantity"
)

// The toolkit breaks lines at every blank, at one that is not to be broken too. So
// that no line ends between a number and its unit a line is ended ahead of the
// number where the toolkit would end it behind. The blank that was there stays, by
// which it is told from the ends of lines that the text has itself.
const madeEnd = " \n"

// keepUnits ends lines of a label that is so wide ahead of numbers that would be
// parted from their units; other objects it leaves alone.
func keepUnits(o fyne.CanvasObject, width float32) {
	if h, is := o.(*Hinted); is {
		o = h.content
	}
	l, ok := o.(*widget.Label)
	if !ok || l.Wrapping != fyne.TextWrapWord || !strings.ContainsAny(l.Text, "0123456789") {
		return
	}
	size := l.Theme().Size(theme.SizeNameText)
	if l.SizeName != "" {
		size = l.Theme().Size(l.SizeName)
	}
	room := width - 2*l.Theme().Size(theme.SizeNameInnerPadding)
	measure := func(s string) float32 { return fyne.MeasureText(s, size, l.TextStyle).Width }
	if text := kept(unkept(l.Text), room, measure); text != l.Text {
		l.SetText(text)
	}
}

// unkept returns a text without the ends that were made.
func unkept(text string) string { return strings.ReplaceAll(text, madeEnd, " ") }

// kept returns a text with made ends where they are needed in a room.
func kept(text string, room float32, measure func(string) float32) string {
	lines := strings.Split(text, "\n")
	for i, line := range lines {
		lines[i] = keptLine(line, room, measure)
	}
	return strings.Join(lines, "\n")
}

// keptLine breaks one line as the toolkit does, and marks those ends that it would
// have made elsewhere.
func keptLine(line string, room float32, measure func(string) float32) string {
	if measure(line) <= room {
		return line
	}
	words := strings.Split(line, " ")
	var out strings.Builder
	start := 0 // word that the line begins with
	for i := 1; i < len(words); i++ {
		if measure(strings.Join(words[start:i+1], " ")) <= room {
			continue
		}
		end := i
		for end > start+1 && q.Held(words[end-1], words[end]) {
			end--
		}
		if end-1 == start && q.Held(words[start], words[end]) {
			end = i // it does not fit in a line of its own
		}
		out.WriteString(strings.Join(words[start:end], " "))
		if end < i {
			out.WriteString(madeEnd)
		} else {
			out.WriteString(" ")
		}
		start = end
	}
	out.WriteString(strings.Join(words[start:], " "))
	return out.String()
}
