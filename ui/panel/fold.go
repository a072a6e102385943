package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// newFoldHead returns the line that opens and closes what is folded away below
// it: an arrow and a name.
func newFoldHead(tapped func()) *Button {
	b := NewButton("", tapped)
	b.Alignment, b.Importance = widget.ButtonAlignLeading, widget.LowImportance
	return b
}

// showFold lets the arrow point down over what is open and right before what is
// folded away.
func showFold(b *Button, name string, open bool) {
	icon := theme.MenuExpandIcon()
	if open {
		icon = theme.MenuDropDownIcon()
	}
	if b.Text == name && b.Icon != nil && b.Icon.Name() == icon.Name() {
		return
	}
	b.Text, b.Icon = name, icon
	b.Refresh()
}

// foldRow keeps rows that are rarely needed out of the way until its head is
// pressed. It stays open or closed when the form shows another entity.
type foldRow struct {
	line
	name func() string
	head *Button
	body *fyne.Container
	open bool
}

// fold adds a fold with the rows that fill adds.
func (f *form) fold(name func() string, fill func()) *foldRow {
	r := &foldRow{name: name, body: container.NewVBox()}
	r.head = newFoldHead(func() { r.set(!r.open) })
	r.body.Hide()
	r.box = container.NewVBox(r.head.Object(), r.body)
	f.add(r)
	outer := f.into
	f.into = r.body
	fill()
	f.into = outer
	return r
}

// named is the name of a fold that never changes.
func named(text string) func() string { return func() string { return text } }

func (r *foldRow) set(open bool) {
	r.open = open
	if open {
		r.body.Show()
	} else {
		r.body.Hide()
	}
	showFold(r.head, r.name(), open)
	r.box.Refresh()
}

// holds reports whether an object lies in the fold.
func (r *foldRow) holds(o fyne.CanvasObject) bool {
	for _, c := range r.body.Objects {
		if c == o {
			return true
		}
	}
	return false
}

func (r *foldRow) show() {
	if r.applies() {
		showFold(r.head, r.name(), r.open)
	}
}

func (r *foldRow) reset() { r.show() }
func (r *foldRow) flush() {}
