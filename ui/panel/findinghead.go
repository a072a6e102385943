package panel

import (
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	lay "duskwire/layout"
)

// findingHead is the heading over the findings: how many there are of which level,
// and by a word and a shape that they are still those of before. In a narrow panel
// it breaks.
type findingHead struct {
	mark *Icon
	text *widget.Label
	box  *fyne.Container
	said [2]string // in full, and without the name of the panel
}

// follows is the shape of what still follows: an hourglass.
var follows = NewDrawing("follows", `<path fill="none" stroke="#000000" stroke-width="2" d="M5 3H19M5 21H19M7 3V7L12 12L17 7V3M7 21V17L12 12L17 17V21"/>`+
	`<path fill="#000000" d="M9 20L12 16.5L15 20Z"/>`, ColourDecide)

func newFindingHead() *findingHead {
	h := &findingHead{mark: NewIcon(follows), text: heading("")}
	h.text.Wrapping = fyne.TextWrapWord
	h.mark.Hide()
	h.box = container.New(headRow{h}, h.mark, h.text)
	return h
}

// set writes the counts of a frame, and whether they are of it.
func (h *findingHead) set(f *lay.Frame) {
	counts := ""
	for _, c := range []struct {
		n    int
		name string
	}{{f.Totals.Stop, "Stop"}, {f.Totals.Decide, "Decide"}, {f.Totals.Note, plural(f.Totals.Note, "Note", "Notes")}} {
		if c.n > 0 {
			counts += between + strconv.Itoa(c.n) + " " + c.name
		}
	}
	if n := overruled(f.Findings); n > 0 {
		counts += between + strconv.Itoa(n) + " overruled"
	}
	said := [2]string{"Findings" + counts, "Findings" + counts}
	waits := f.Waits()
	if waits {
		said = [2]string{"Findings" + between + workedOut + counts, capital(workedOut) + counts}
	}
	if said == h.said && waits == h.mark.Visible() {
		return
	}
	h.said = said
	h.mark.Hidden = !waits
	write(h.text, said[0])
	h.box.Refresh()
}

// headRow sets the shape before the words.
type headRow struct{ of *findingHead }

func (l headRow) before() float32 {
	if !l.of.mark.Visible() {
		return 0
	}
	return theme.Size(theme.SizeNameInlineIcon)
}

// MinSize implements fyne.Layout.
func (l headRow) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(pairLeast, l.of.text.MinSize().Height)
}

// Layout implements fyne.Layout.
func (l headRow) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	h, at := l.of, l.before()
	pad := theme.Size(theme.SizeNameInnerPadding)
	text := h.said[0]
	if at+2*pad+fyne.MeasureText(text, theme.Size(theme.SizeNameText), h.text.TextStyle).Width > size.Width {
		text = h.said[1]
	}
	write(h.text, text)
	h.mark.Move(fyne.NewPos(pad/2, pad))
	h.mark.Resize(fyne.NewSize(at, at))
	h.text.Move(fyne.NewPos(at, 0))
	h.text.Resize(fyne.NewSize(size.Width-at, size.Height))
}

// headed sets a heading that may break over what fills the rest.
type headed struct{}

// MinSize implements fyne.Layout.
func (headed) MinSize(o []fyne.CanvasObject) fyne.Size {
	a, b := o[0].MinSize(), o[1].MinSize()
	return fyne.NewSize(max(a.Width, b.Width), a.Height+b.Height)
}

// Layout implements fyne.Layout.
func (headed) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(fyne.NewSize(size.Width, o[0].MinSize().Height)) // words know their lines once they have a width
	high := o[0].MinSize().Height
	o[0].Resize(fyne.NewSize(size.Width, high))
	o[1].Move(fyne.NewPos(0, high))
	o[1].Resize(fyne.NewSize(size.Width, max(0, size.Height-high)))
}
