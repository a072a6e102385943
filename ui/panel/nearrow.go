package panel

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// nearRow keeps the arrows of a list near what is seen: the toolkit goes on from
// the row that the keyboard was on, however far the list was scrolled since.
type nearRow struct{ at widget.ListItemID }

// key goes up or down in a list whose rows are so high, and reports whether the key
// was one of the two.
func (n *nearRow) key(l *widget.List, name fyne.KeyName, high float32) bool {
	if name != fyne.KeyDown && name != fyne.KeyUp || high <= 0 || l.Length() == 0 {
		return false
	}
	pitch := high + l.Theme().Size(theme.SizeNamePadding)
	first := int(math.Ceil(float64(l.GetScrollOffset()/pitch) - 0.5)) // at least half of it is seen
	last := first + int((l.Size().Height+high/2)/pitch) - 1
	last = min(max(last, first), l.Length()-1)
	switch {
	case n.at < first:
		n.at = first
	case n.at > last:
		n.at = last
	case name == fyne.KeyDown:
		n.at = min(n.at+1, l.Length()-1)
	default:
		n.at = max(n.at-1, 0)
	}
	l.Highlight(n.at)
	return true
}

// rowHeight is how high a row is, 0 before there is one.
func (p *Lengths) rowHeight() float32 {
	for _, r := range p.rows {
		return r.Size().Height
	}
	return 0
}
