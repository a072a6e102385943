package ui

import (
	"fyne.io/fyne/v2"

	"duskwire/ui/board"
	"duskwire/ui/panel"
)

// rest shows the working of a figure in a drawing once the pointer has rested on
// it; nil says that it went on. what says which drawing it is.
func (w *Window) rest(drawing fyne.CanvasObject, f *board.Figure, what panel.DrawnFigure) {
	if f == nil {
		w.tips.Off(drawing)
		return
	}
	what.ID, what.Part, what.Whole = f.ID, f.Part, f.Whole
	w.tips.OverPart(drawing, f.At, f.Size, func() panel.Tip { return w.drawn.Of(what) })
}
