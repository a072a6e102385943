package panel

import (
	"fyne.io/fyne/v2"
)

// stepRow takes the keyboard from a row of a list to the next one that is shown
// below or above it, if there is one.
func stepRow(rows []*findingRow, from *findingRow, by int) {
	at := -1
	for i, r := range rows {
		if r == from {
			at = i
		}
	}
	if at < 0 {
		return
	}
	for at += by; at >= 0 && at < len(rows); at += by {
		if rows[at].Visible() {
			focusOn(rows[at])
			return
		}
	}
}

func focusOn(r *findingRow) {
	if app := fyne.CurrentApp(); app != nil {
		if c := app.Driver().CanvasForObject(r); c != nil {
			c.Focus(r)
		}
	}
}

func (p *Findings) step(from *findingRow, by int) { stepRow(p.rows, from, by) }
func (p *Workings) step(from *findingRow, by int) { stepRow(p.rows, from, by) }

// Fresh lets the list begin anew, for a scheme that was just opened: nothing is open,
// the notes are folded and the worst finding is what is seen. It is called before the
// frame of that scheme comes.
func (p *Findings) Fresh() {
	p.open, p.opened, p.openAt, p.most = findingKey{}, false, -1, pageOfFindings
	p.scroll.ScrollToTop()
}

// top is where a row begins in what is scrolled.
func (p *Findings) top(r *findingRow) float32 { return r.Position().Y + p.list.Position().Y }

// stood is where the open finding stands: its number, -1 without one, how far
// its head lies below the edge of the list, and whether it has the keyboard.
type stood struct {
	at    int
	below float32
	held  bool
}

func (p *Findings) standing() stood {
	if p.openAt < 0 || p.openAt >= len(p.rows) || !p.rows[p.openAt].Visible() {
		return stood{at: -1}
	}
	r := p.rows[p.openAt]
	return stood{p.openAt, p.top(r) - p.scroll.Offset.Y, r.holds()}
}

// follow keeps what one works at in view when the findings have changed: the open
// one, and when that is mended the one that took its place, which then stands where
// it stood and has the keyboard if it had.
func (p *Findings) follow(was stood) {
	switch {
	case was.at < 0 || p.listed == 0 || p.openAt == was.at:
	case p.openAt >= 0:
		p.reveal()
	default:
		r := p.rows[min(was.at, p.listed-1)]
		if !r.Visible() {
			return
		}
		p.scroll.ScrollToOffset(fyne.NewPos(0, max(0, p.top(r)-max(0, was.below))))
		if was.held {
			focusOn(r)
		}
	}
}

// holds reports whether the row, or something in it, has the keyboard.
func (r *findingRow) holds() bool {
	app := fyne.CurrentApp()
	if app == nil {
		return false
	}
	c := app.Driver().CanvasForObject(r)
	if c == nil || c.Focused() == nil {
		return false
	}
	o, ok := c.Focused().(fyne.CanvasObject)
	if !ok {
		return false
	}
	if o == fyne.CanvasObject(r) {
		return true
	}
	d := app.Driver()
	at, size := d.AbsolutePositionForObject(o).Subtract(d.AbsolutePositionForObject(r)), r.Size()
	return r.open && at.X >= 0 && at.Y >= 0 && at.X < size.Width && at.Y < size.Height
}
