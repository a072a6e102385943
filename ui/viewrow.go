package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// viewRow sets the views side by side. Where their names have no room it leaves the
// drawings, and the name of the view that is shown; tips and menu name the others.
type viewRow struct{ views *views }

// MinSize implements fyne.Layout: all drawings without names.
func (l viewRow) MinSize(o []fyne.CanvasObject) fyne.Size {
	var size fyne.Size
	for _, b := range l.views.buttons {
		high := b.MinSize().Height
		size.Width += b.bareWidth() + theme.Padding()
		size.Height = max(size.Height, high)
	}
	return size
}

// Layout implements fyne.Layout.
func (l viewRow) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	whole := float32(0)
	for _, b := range l.views.buttons {
		b.setNameless(false)
		whole += b.MinSize().Width + theme.Padding()
	}
	x := float32(0)
	for i, b := range l.views.buttons {
		b.setNameless(whole > size.Width && i != l.views.now)
		b.Move(fyne.NewPos(x, 0))
		b.Resize(fyne.NewSize(b.MinSize().Width, size.Height))
		x += b.Size().Width + theme.Padding()
	}
}

// setNameless leaves out the name, or shows it.
func (b *toolButton) setNameless(nameless bool) {
	if b.name.Hidden != nameless {
		b.name.Hidden = nameless
		b.Refresh()
	}
}

// bareWidth is the width of the drawing alone.
func (b *toolButton) bareWidth() float32 {
	was, key := b.name.Hidden, b.letter.Hidden
	b.name.Hidden, b.letter.Hidden = true, true
	wide := b.content.MinSize().Width
	b.name.Hidden, b.letter.Hidden = was, key
	return wide
}
