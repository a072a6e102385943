package panel

import (
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"duskwire/calc/finding"
)

// Tip is what a hint says: what something is, the working behind it line by
// line, and where its limit comes from.
type Tip struct {
	Head, Working, Source string
	// Rest says where all of a long working can be read: "under Working of L3"; ""
	// when that is nowhere else.
	Rest string
}

// Empty reports whether there is nothing to say.
func (t Tip) Empty() bool { return t.Head == "" && t.Working == "" && t.Source == "" }

// TipDelay is how long the pointer or the focus rests on something before its
// tip shows: long enough to pass over without a flicker.
const TipDelay = 400 * time.Millisecond

// Tips shows one small tip at a time beside what the pointer or the focus is on.
// It lies in the content of the window, not over it as a dialog does, so that it
// never takes the focus or a click. Methods of nil do nothing.
type Tips struct {
	// After calls f on the UI goroutine once the time is over; nil calls at once.
	After func(d time.Duration, f func())

	layer                 *fyne.Container
	box                   *fyne.Container
	ground                *Backdrop
	head, working, source *widget.Label
	text                  *fyne.Container
	over                  fyne.CanvasObject // what it is about; nil for nothing
	part                  fyne.Position     // of it: where that lies in it
	size                  fyne.Size
	turn                  int // counts what was begun
	now                   Tip // shown now
}

// NewTips returns the tips of a window; Layer goes on top of its content.
func NewTips(after func(time.Duration, func())) *Tips {
	t := &Tips{After: after, ground: NewBackdrop(theme.ColorNameOverlayBackground), head: heading(""), working: quiet(""), source: quiet("")}
	t.head.Wrapping = fyne.TextWrapWord
	t.working.TextStyle.Monospace, t.working.SizeName = true, captionSize
	t.working.Importance = widget.MediumImportance
	t.source.SizeName = captionSize
	t.text = container.New(snug{})
	t.box = container.NewStack(t.ground, t.text, newFrame())
	t.box.Hide()
	t.layer = container.New(loose{}, t.box)
	return t
}

// Layer is what the tips are drawn on.
func (t *Tips) Layer() fyne.CanvasObject { return t.layer }

// loose lets its objects stand where they are put, and asks for no room.
type loose struct{}

func (loose) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.Size{} }
func (loose) Layout([]fyne.CanvasObject, fyne.Size) {}

// Over says that the pointer, or the focus, has come to an object. of is asked
// when the tip is due.
func (t *Tips) Over(o fyne.CanvasObject, of func() Tip) {
	t.OverPart(o, fyne.Position{}, fyne.Size{}, of)
}

// OverPart is Over for a part of an object: a figure in a drawing, at a place in
// it and so large; no size stands for all of it.
func (t *Tips) OverPart(o fyne.CanvasObject, at fyne.Position, size fyne.Size, of func() Tip) {
	if t == nil || of == nil {
		return
	}
	t.hide()
	t.over, t.part, t.size = o, at, size
	t.turn++
	turn := t.turn
	show := func() {
		if t.turn == turn {
			t.show(of())
		}
	}
	if t.After == nil {
		show()
		return
	}
	t.After(TipDelay, show)
}

// Off says that the pointer, or the focus, has left an object.
func (t *Tips) Off(o fyne.CanvasObject) {
	if t != nil && t.over == o {
		t.Hide()
	}
}

// Hide takes the tip down, and one that is due, and reports whether one was
// shown.
func (t *Tips) Hide() bool {
	if t == nil {
		return false
	}
	t.turn++
	t.over = nil
	return t.hide()
}

func (t *Tips) hide() bool {
	was := t.box.Visible()
	if was {
		t.box.Hide()
	}
	t.now = Tip{}
	return was
}

// Shown returns the tip that is shown, an empty one when there is none.
func (t *Tips) Shown() Tip {
	if t == nil {
		return Tip{}
	}
	return t.now
}

const (
	tipWidth = 440 // at most
	tipLines = 14  // of working
	tipGap   = 6   // between an object and its tip
)

func (t *Tips) show(tip Tip) {
	if tip.Empty() || t.over == nil || !t.over.Visible() {
		return
	}
	t.now = tip
	t.text.Objects = nil
	fill := func(l *widget.Label, text string) {
		l.SetText(text)
		if text != "" {
			t.text.Objects = append(t.text.Objects, l)
		}
	}
	fill(t.head, tip.Head)
	fill(t.working, shortened(tip.Working, tip.Rest))
	fill(t.source, tip.Source)
	room := t.layer.Size()
	size := t.measured(min(tipWidth, room.Width-2*tipGap))
	t.box.Resize(size)
	t.box.Move(t.beside(size, room))
	t.box.Show()
	t.layer.Refresh() // the canvas does not know a tip that it never drew
}

// shortened keeps a long working to what a tip has room for and says where the
// rest stands.
func shortened(working, rest string) string {
	lines := strings.Split(strings.TrimSpace(working), "\n")
	if n := len(lines); n > tipLines {
		more := "… and " + count(n-tipLines+1, "line", "lines") + " more"
		if rest != "" {
			more = "… the rest stands " + rest
		}
		lines = append(lines[:tipLines-1:tipLines-1], more)
	}
	return strings.Join(lines, "\n")
}

// measured returns the size of the tip, no wider than most.
func (t *Tips) measured(most float32) fyne.Size {
	widest := float32(0)
	for _, l := range []*widget.Label{t.head, t.working, t.source} {
		size := theme.Size(theme.SizeNameText)
		if l.SizeName != "" {
			size = theme.Size(l.SizeName)
		}
		for _, line := range strings.Split(l.Text, "\n") {
			widest = max(widest, fyne.MeasureText(line, size, l.TextStyle).Width)
		}
	}
	width := min(most, widest+2*theme.Size(theme.SizeNameInnerPadding)+2*theme.Size(theme.SizeNamePadding))
	t.text.Resize(fyne.NewSize(width, 0)) // labels know their height once they have a width
	return fyne.NewSize(width, t.text.MinSize().Height)
}

// beside is where the tip stands: below its object, above it when there is no
// room, and inside the window.
func (t *Tips) beside(size, room fyne.Size) fyne.Position {
	at := fyne.Position{}
	if app := fyne.CurrentApp(); app != nil {
		d := app.Driver()
		at = d.AbsolutePositionForObject(t.over).Subtract(d.AbsolutePositionForObject(t.layer))
	}
	about := t.size
	if about.IsZero() {
		about = t.over.Size()
	}
	at = at.Add(t.part)
	below := at.Y + about.Height + tipGap
	if below+size.Height > room.Height {
		if above := at.Y - size.Height - tipGap; above >= 0 {
			below = above
		} else {
			below = max(0, room.Height-size.Height)
		}
	}
	return fyne.NewPos(max(tipGap, min(at.X, room.Width-size.Width-tipGap)), below)
}

// tipOf is the tip of a finding: what was found against its limit, how, and by
// what.
func tipOf(f *finding.Finding) Tip {
	tip := Tip{Head: string(f.Code), Working: strings.TrimSpace(f.Working)}
	if f.Figure != "" || f.Limit != "" {
		tip.Head += "  ·  " + figureLine(f.Figure, f.Limit)
	}
	if s := f.Source.String(); s != "" {
		tip.Source = fromLine(s)
	}
	if f.Subject.Label != "" {
		tip.Rest = "under Working of " + f.Subject.Label
	}
	return tip
}
