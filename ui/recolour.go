package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// recolour shows an object and everything in it in the present colours. To
// refresh an object refreshes what it is made of, but for what lies in a scroll.
func recolour(o fyne.CanvasObject) {
	o.Refresh()
	inScrolls(o)
}

// inScrolls refreshes what lies in the scrolls of an object.
func inScrolls(o fyne.CanvasObject) {
	switch o := o.(type) {
	case *fyne.Container:
		for _, c := range o.Objects {
			inScrolls(c)
		}
	case *container.Scroll:
		recolour(o.Content)
	case *container.Split:
		inScrolls(o.Leading)
		inScrolls(o.Trailing)
	case *container.AppTabs:
		for _, t := range o.Items {
			inScrolls(t.Content)
		}
	}
}
