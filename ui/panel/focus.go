package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// Bring scrolls so that an object inside is seen.
func Bring(s *container.Scroll, o fyne.CanvasObject) { bring(s, o) }

func bring(s *container.Scroll, o fyne.CanvasObject) {
	app := fyne.CurrentApp()
	if app == nil || s.Content == nil {
		return
	}
	const clear = 8
	d := app.Driver()
	top := d.AbsolutePositionForObject(o).Y - d.AbsolutePositionForObject(s.Content).Y
	bottom, height := top+o.Size().Height, s.Size().Height
	switch {
	case top < s.Offset.Y:
		s.ScrollToOffset(fyne.NewPos(0, max(0, top-clear)))
	case bottom > s.Offset.Y+height:
		s.ScrollToOffset(fyne.NewPos(0, max(0, min(top, bottom-height+clear))))
	}
}

// onFocus tells everything in an object that can have the keyboard whom to tell
// when it comes.
func onFocus(o fyne.CanvasObject, tell func(fyne.CanvasObject)) {
	switch o := o.(type) {
	case *fyne.Container:
		for _, c := range o.Objects {
			onFocus(c, tell)
		}
	case *Field:
		o.onFocus = tell
	case *Pick:
		o.OnFocus = tell
	case *tick:
		o.onFocus = tell
	case *Button:
		o.OnFocus = tell
	case *Hinted:
		o.OnFocus = tell
	case *slider:
		o.onFocus = tell
	}
}
