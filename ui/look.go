package ui

import (
	"fyne.io/fyne/v2"

	"duskwire/layout/geom"
)

// Look is what a test may know of the window: where the plan lies in it and
// what the findings panel shows. Places are in device-independent units from
// the window's top left corner.
type Look struct {
	Place         fyne.Position // top left corner of the plan
	Size          fyne.Size
	Origin        geom.Point // plan point at that corner
	UnitsPerMetre float64
	Rows          []string // of the findings panel, top first
}

// Look returns what the window shows now.
func (w *Window) Look() Look {
	l := Look{
		Place:         w.cfg.App.Driver().AbsolutePositionForObject(w.plan),
		Size:          w.plan.Size(),
		UnitsPerMetre: w.plan.UnitsPerMetre(),
		Rows:          w.findings.Shown(),
	}
	area := w.plan.Area()
	l.Origin = geom.Point{X: area.Min.X, Y: area.Max.Y}
	return l
}

// Watch calls f whenever something visible has changed: another frame, another
// view, another hint.
func (w *Window) Watch(f func()) { w.watch = f }

func (w *Window) changed() {
	if w.watch != nil {
		w.watch()
	}
}
