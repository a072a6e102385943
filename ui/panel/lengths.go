package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
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

	// Tips shows how a length is reached.
	Tips *Tips

	list  *lengthList
	total *widget.Label
	none  *widget.Label
	box   *fyne.Container
	shown []derive.Length
	rows  map[widget.ListItemID]*lengthRow // those on the screen
	away  bool                             // nobody can see the list
	stale bool                             // and it has changed since
}

// noLengths says what to do while there are none.
const noLengths = "No runs are drawn yet, so there is no cable to cut. Press R, click the supply point, the corners of the route and the lamps; " +
	"every run then stands here with the parts of its length."

// drumsBehind stands after the total while a worker plans the coils.
const drumsBehind = "; coils " + workedOut

// NewLengths returns the panel, showing the desk's frame.
func NewLengths(desk Desk) *Lengths {
	p := &Lengths{total: heading(""), none: quiet(noLengths), rows: map[widget.ListItemID]*lengthRow{}}
	p.list = newLengthList(p)
	p.total.Truncation = fyne.TextTruncateEllipsis
	p.box = container.NewBorder(nil, p.total, nil, nil, container.NewStack(container.NewVBox(p.none), p.list, p.list.ring))
	p.SetFrame(desk.Frame())
	return p
}

// Object returns the panel for a container.
func (p *Lengths) Object() fyne.CanvasObject { return p.box }

// SetFrame shows the lengths of another frame.
func (p *Lengths) SetFrame(f *layout.Frame) {
	total := "All cable to cut: " + f.Totals.Cable.String()
	if f.DrumsBehind {
		total += drumsBehind
	}
	if len(f.Circuits.Lengths) == 0 {
		total = ""
		p.none.Show()
		p.list.Hide() // no stop for Tab
	} else {
		p.none.Hide()
		p.list.Show()
	}
	if p.total.Text != total {
		p.total.SetText(total)
	}
	if sameLengths(p.shown, f.Circuits.Lengths) {
		return
	}
	p.shown = f.Circuits.Lengths
	if p.away {
		p.stale = true
		return
	}
	p.list.Refresh()
}

// SetActive says whether the panel can be seen. A list that cannot be seen is
// written when it can.
func (p *Lengths) SetActive(on bool) {
	p.away = !on
	if on && p.stale {
		p.stale = false
		p.list.Refresh()
	}
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
