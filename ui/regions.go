package ui

import (
	"fyne.io/fyne/v2"
)

// region is a part of the window that F6 goes to.
type region struct {
	area  fyne.CanvasObject
	enter func() fyne.Focusable // where the keyboard comes to; nil for nowhere
}

// regions lists the parts in the order of Tab.
func (w *Window) regions() []region {
	list := []region{
		{w.tray.box, w.tray.held},
		{w.stage, w.planBack},
	}
	if s := w.side.strip; s.Visible() {
		list = append(list, region{s, func() fyne.Focusable { return s }})
	}
	if w.standing.on {
		list = append(list, region{w.standing.view, func() fyne.Focusable { return w.standing.view }})
	}
	if w.rightBox.Visible() {
		list = append(list,
			region{w.findings.Object(), w.findings.First},
			region{w.tabBar.Object(), func() fyne.Focusable { return w.tabBar }})
	}
	return append(list, region{w.status.Object(), w.status.First})
}

// holds reports whether what has the keyboard lies in a part of the window. A part
// that takes the keyboard itself holds nothing else, whatever it lies over.
func (w *Window) holds(area fyne.CanvasObject) bool {
	o, ok := w.win.Canvas().Focused().(fyne.CanvasObject)
	if !ok || o == nil {
		return false
	}
	if _, alone := area.(fyne.Focusable); alone {
		return o == area
	}
	d := w.cfg.App.Driver()
	at := d.AbsolutePositionForObject(o).Subtract(d.AbsolutePositionForObject(area))
	size := area.Size()
	const slack = 2
	middle := at.AddXY(o.Size().Width/2, min(o.Size().Height/2, size.Height))
	return middle.X >= -slack && middle.X <= size.Width+slack && middle.Y >= -slack && middle.Y <= size.Height+slack
}

// nextRegion takes the keyboard to the next part of the window, or the one
// before.
func (w *Window) nextRegion(by int) {
	list := w.regions()
	at := 0
	for i := range list {
		if w.holds(list[i].area) {
			at = i
		}
	}
	for range list {
		at = (at + by + len(list)) % len(list)
		if to := list[at].enter(); to != nil {
			w.win.Canvas().Focus(to)
			return
		}
	}
}
