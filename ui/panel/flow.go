package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// flow sets buttons side by side, and below each other what has no room beside.
type flow struct{ width float32 }

// rows says where each goes in a width, and how high all are.
func (l *flow) rows(o []fyne.CanvasObject, width float32) (at []fyne.Position, high float32) {
	gap, x, row := theme.Padding(), float32(0), float32(0)
	for _, c := range o {
		m := c.MinSize()
		if x > 0 && x+m.Width > width {
			x, high, row = 0, high+row+gap, 0
		}
		at = append(at, fyne.NewPos(x, high))
		x, row = x+m.Width+gap, max(row, m.Height)
	}
	return at, high + row
}

// MinSize implements fyne.Layout: of the width it had last.
func (l *flow) MinSize(o []fyne.CanvasObject) fyne.Size {
	wide := float32(0)
	for _, c := range o {
		wide = max(wide, c.MinSize().Width)
	}
	_, high := l.rows(o, max(l.width, wide))
	return fyne.NewSize(wide, high)
}

// Layout implements fyne.Layout.
func (l *flow) Layout(o []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	at, _ := l.rows(o, size.Width)
	for i, c := range o {
		c.Move(at[i])
		c.Resize(c.MinSize())
	}
}

// briefly shortens a name that people gave for where it is short of room; what is
// about it says it whole.
func briefly(name string) string { return Briefly(name, 18) }

// Briefly returns a name in at most so many characters, the last of them an ellipsis
// when it was longer.
func Briefly(name string, most int) string {
	if rs := []rune(name); len(rs) > most {
		return string(rs[:most-1]) + "…"
	}
	return name
}
