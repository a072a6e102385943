package ui

import (
	"image"

	"fyne.io/fyne/v2"

	"duskwire/layout/tool"
)

// pageLines are the keys of the sheet of pages, for the list of keys.
func pageLines() []tool.KeyLine {
	return []tool.KeyLine{
		{Keys: "PgUp PgDn", What: "The page before, the next one"},
		{Keys: "Home, End", What: "The first page, the last one"},
		{Keys: "← → ↑ ↓", What: "Move over a page that is larger than the view; at its edge turn"},
		{Keys: "+ −", What: "Zoom; Ctrl and the wheel too"},
		{Keys: "0, W, 1", What: "Fit the page, fit its width, full size"},
	}
}

// pageKey turns pages with the keys that mean that wherever the keyboard is in
// the sheet.
func (v *pageView) pageKey(name fyne.KeyName) bool {
	switch name {
	case fyne.KeyPageDown:
		v.turn(1)
	case fyne.KeyPageUp:
		v.turn(-1)
	default:
		return false
	}
	return true
}

// manyPages is more pages than a pack has.
const manyPages = 1 << 20

// TypedKey implements fyne.Focusable. Arrows move over a page that is larger than
// the view; at its edge, or where all of it is seen, they turn pages.
func (v *pageView) TypedKey(e *fyne.KeyEvent) {
	step := int(60 * v.scale())
	by := map[fyne.KeyName]image.Point{
		fyne.KeyLeft: {X: -step}, fyne.KeyRight: {X: step}, fyne.KeyUp: {Y: -step}, fyne.KeyDown: {Y: step},
	}[e.Name]
	switch {
	case v.pageKey(e.Name):
	case e.Name == fyne.KeyHome:
		v.turn(-manyPages)
	case e.Name == fyne.KeyEnd:
		v.turn(manyPages)
	case by != image.Point{}:
		if !v.pan(by.X, by.Y) {
			v.turn(sign(by.X + by.Y))
		}
	default:
		v.sheet.key(e.Name)
	}
}

func sign(n int) int {
	if n < 0 {
		return -1
	}
	return 1
}

// TypedRune implements fyne.Focusable.
func (v *pageView) TypedRune(r rune) {
	switch r {
	case '+', '=':
		v.zoomBy(1)
	case '-', '_':
		v.zoomBy(-1)
	case '0':
		v.setFit(fitPage)
	case '1':
		v.zoomTo(1)
	case 'w', 'W':
		v.setFit(fitWidth)
	}
}

// FocusGained implements fyne.Focusable.
func (v *pageView) FocusGained() { v.ring.Show() }

// FocusLost implements fyne.Focusable.
func (v *pageView) FocusLost() { v.ring.Hide() }

// Tapped implements fyne.Tappable.
func (v *pageView) Tapped(*fyne.PointEvent) { v.sheet.focus(v) }

// Dragged implements fyne.Draggable.
func (v *pageView) Dragged(e *fyne.DragEvent) {
	k := float32(v.scale())
	v.pan(-int(e.Dragged.DX*k), -int(e.Dragged.DY*k))
}

// DragEnd implements fyne.Draggable.
func (v *pageView) DragEnd() {}

// Scrolled implements fyne.Scrollable: over the page, then on to the next one;
// with Ctrl it zooms.
func (v *pageView) Scrolled(e *fyne.ScrollEvent) {
	switch {
	case modifiers().Control && e.Scrolled.DY > 0:
		v.zoomBy(1)
	case modifiers().Control && e.Scrolled.DY < 0:
		v.zoomBy(-1)
	case e.Scrolled.DX == 0 && e.Scrolled.DY == 0:
	default:
		k := float32(2 * v.scale())
		if !v.pan(-int(e.Scrolled.DX*k), -int(e.Scrolled.DY*k)) && e.Scrolled.DX == 0 {
			v.turn(-sign(int(e.Scrolled.DY)))
		}
	}
}
