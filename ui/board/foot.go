package board

import (
	"fyne.io/fyne/v2"
)

// SetFoot says how much of the board's lower edge something else covers, in
// units. What is shown stays where it is, so that nothing jumps under the
// pointer; fitting and flying keep to the rest.
func (b *Board) SetFoot(units float32) { b.foot = units }

// open is the part of the board that nothing covers.
func (b *Board) open() fyne.Size {
	size := b.Size()
	return fyne.NewSize(size.Width, max(size.Height-b.foot, 1))
}

// Say tells once more what the tool in hand has to say, after something else
// had the line of hints.
func (b *Board) Say() {
	b.told = Status{}
	b.tell()
}

// SetZones shows or hides rings, numbers and colours of zones.
func (b *Board) SetZones(on bool) {
	if b.noZones == on {
		b.noZones = !on
		b.base.redraw()
	}
}

// Zones reports whether the zones of lamps are shown.
func (b *Board) Zones() bool { return !b.noZones }
