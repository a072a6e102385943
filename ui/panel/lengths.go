package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"duskwire/layout"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
)

// Lengths is the cut list: every run with the parts its length is made of and
// the length to cut.
type Lengths struct {
	// OnPick is called with the run of a row that was chosen.
	OnPick func(doc.ID)

	list  *widget.List
	total *widget.Label
	box   *fyne.Container
	shown []derive.Length
}

// NewLengths returns the panel, showing the desk's frame.
func NewLengths(desk Desk) *Lengths {
	p := &Lengths{total: heading("")}
	p.list = widget.NewList(func() int { return len(p.shown) }, newLengthRow, func(i widget.ListItemID, o fyne.CanvasObject) {
		if i < len(p.shown) {
			fillLengthRow(o, &p.shown[i])
		}
	})
	p.list.OnSelected = func(i widget.ListItemID) {
		if i < len(p.shown) && p.OnPick != nil {
			p.OnPick(p.shown[i].Run)
		}
		p.list.Unselect(i)
	}
	p.total.Truncation = fyne.TextTruncateEllipsis
	p.box = container.NewBorder(nil, p.total, nil, nil, p.list)
	p.SetFrame(desk.Frame())
	return p
}

// Object returns the panel for a container.
func (p *Lengths) Object() fyne.CanvasObject { return p.box }

// SetFrame shows the lengths of another frame.
func (p *Lengths) SetFrame(f *layout.Frame) {
	total := "All cable to cut: " + f.Totals.Cable.String()
	if len(f.Circuits.Lengths) == 0 {
		total = "No runs drawn yet."
	}
	if p.total.Text != total {
		p.total.SetText(total)
	}
	if sameLengths(p.shown, f.Circuits.Lengths) {
		return
	}
	p.shown = f.Circuits.Lengths
	p.list.Refresh()
}

func sameLengths(a, b []derive.Length) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// A row has three lines: the piece with its ends and its cut length, the
// parts the length is made of, and the cable.
func newLengthRow() fyne.CanvasObject {
	piece, cut, parts, cable := heading(""), heading(""), quiet(""), quiet("")
	piece.Truncation = fyne.TextTruncateEllipsis
	for _, l := range []*widget.Label{parts, cable} {
		l.Wrapping, l.Truncation, l.SizeName = fyne.TextWrapOff, fyne.TextTruncateEllipsis, theme.SizeNameCaptionText
	}
	return container.New(tight3{}, container.NewBorder(nil, nil, nil, cut, piece), parts, cable)
}

func fillLengthRow(o fyne.CanvasObject, l *derive.Length) {
	lines := o.(*fyne.Container).Objects
	top := lines[0].(*fyne.Container).Objects
	top[0].(*widget.Label).SetText(l.Tag + "   " + l.From + " → " + l.To)
	top[1].(*widget.Label).SetText("cut " + l.Cut.String())
	lines[1].(*widget.Label).SetText("plan " + l.Plan.String() + " + rises " + l.Rises.String() +
		" + tails " + l.Tails.String() + " + slack " + l.Slack.String())
	name := l.Name
	if name == "" {
		name = "no cable chosen"
	}
	lines[2].(*widget.Label).SetText(name)
}

// tight3 stacks three lines closer than their own padding would.
type tight3 struct{}

func (tight3) MinSize(o []fyne.CanvasObject) fyne.Size {
	w, h := float32(0), float32(0)
	for i, c := range o {
		m := c.MinSize()
		w, h = max(w, m.Width), h+m.Height
		if i > 0 {
			h -= tuck
		}
	}
	return fyne.NewSize(w, h)
}

func (tight3) Layout(o []fyne.CanvasObject, size fyne.Size) {
	y := float32(0)
	for i, c := range o {
		if i > 0 {
			y -= tuck
		}
		h := c.MinSize().Height
		c.Move(fyne.NewPos(0, y))
		c.Resize(fyne.NewSize(size.Width, h))
		y += h
	}
}
