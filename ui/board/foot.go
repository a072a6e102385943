package board

import (
	"slices"

	"fyne.io/fyne/v2"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/tool"
)

// SetFoot says how much of the board's lower edge something else covers, in
// units. Fitting and flying keep to the rest. What is shown stays where it is, so
// that nothing jumps under the pointer; when the cover goes, what Uncover moved
// goes back, unless the view was changed since.
func (b *Board) SetFoot(units float32) {
	b.foot = units
	if by := b.lifted; units == 0 && by.units != 0 {
		b.lifted = lift{}
		if b.view == by.view {
			b.shift(by.units)
		}
	}
}

// lift is how far the plan was moved up to show what lay behind the foot.
type lift struct {
	units float64
	view  view // afterwards
}

// footClear is what stays free between the foot and what was brought out behind it.
const footClear = 28

// Uncover moves the plan up when the lower part of a thing lies behind the foot: as
// far as that needs, but not so far that its upper part leaves the board.
func (b *Board) Uncover(id doc.ID) {
	if b.frame == nil || b.frame.Preview || b.foot == 0 {
		return
	}
	r := tool.Extent(b.frame.Scheme, id)
	if r.Empty() {
		return
	}
	top, bottom := b.view.at(geom.Point{X: r.Min.X, Y: r.Max.Y}).Y, b.view.at(r.Min).Y
	up := float64(min(bottom-(b.open().Height-footClear), top-footClear))
	if up < 1 {
		return
	}
	back := 0.0
	if b.lifted.view == b.view {
		back = b.lifted.units
	}
	b.shift(-up)
	b.lifted = lift{back + up, b.view}
}

// shift moves what is shown down without touching whether it is fitted.
func (b *Board) shift(down float64) {
	fit := b.fit
	b.pan(0, float32(down))
	b.fit = fit
}

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

// SetHatch shows or hides the hatched areas of all zones. A zone that is selected
// has its area anyway.
func (b *Board) SetHatch(on bool) {
	if b.hatch != on {
		b.hatch = on
		b.base.redraw()
	}
}

// Hatch reports whether the areas of all zones are shown.
func (b *Board) Hatch() bool { return b.hatch }

// zonesPicked returns the zones that are selected.
func (b *Board) zonesPicked() (ids []doc.ID) {
	if b.still == nil {
		return nil
	}
	for _, id := range b.session.Selection() {
		if _, ok := b.still.Scheme.Zones.Get(id); ok {
			ids = append(ids, id)
		}
	}
	return ids
}

// followZones draws the base anew when other zones are selected than it shows.
func (b *Board) followZones() {
	if ids := b.zonesPicked(); !slices.Equal(ids, b.hatched) {
		b.hatched = ids
		b.base.redraw()
	}
}

// Zones reports whether the zones of lamps are shown.
func (b *Board) Zones() bool { return !b.noZones }
