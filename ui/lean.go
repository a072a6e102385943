package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"duskwire/layout/tool"
	"duskwire/ui/panel"
)

// lean is how much of the tray is shown: names, keys, choices and legend, or the
// drawings alone, in a window that is too narrow for more.
type lean struct {
	column *fyne.Container
	narrow bool // the window is
	open   bool // the person wants the names all the same
	open1  *panel.Button
	close1 *panel.Button
}

// leanWidth is the width of the tray with two drawings in a row.
const leanWidth = 76

func (l *lean) init(t *tray) {
	l.column = container.NewVBox()
	turn := func() { t.setOpen(!l.open) }
	l.open1, l.close1 = panel.NewButton("Names", turn), panel.NewButton("Drawings alone", turn)
	l.open1.OnFocus, l.close1.OnFocus = t.bring, t.bring
	for _, b := range []*panel.Button{l.open1, l.close1} {
		b.Importance = widget.LowImportance
	}
}

// offer says what the button below the drawings opens: what the tool in hand
// can be set to would else be looked for in vain.
func (l *lean) offer(choices bool) {
	text := "Names"
	if choices {
		text = "Choices"
	}
	if l.open1.Text != text {
		l.open1.SetText(text)
	}
}

// bare reports whether the drawings stand alone.
func (l *lean) bare() bool { return l.narrow && !l.open }

// width is how wide the tray has to be.
func (l *lean) width() float32 {
	if l.bare() {
		return leanWidth
	}
	return trayWidth
}

// MinSize implements fyne.Layout.
func (l *lean) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(l.width(), o[0].MinSize().Height)
}

// Layout implements fyne.Layout.
func (l *lean) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(size)
}

// bring scrolls the tray so that something in it is seen.
func (t *tray) bring(o fyne.CanvasObject) { panel.Bring(t.scroll, o) }

// setNarrow says whether the window leaves room for names.
func (t *tray) setNarrow(narrow bool) {
	if t.lean.narrow != narrow {
		t.lean.narrow, t.lean.open = narrow, false
		t.arrange()
	}
}

// setOpen shows names and choices in a narrow window, or hides them again.
func (t *tray) setOpen(open bool) {
	if t.lean.narrow && t.lean.open != open {
		t.lean.open = open
		t.arrange()
		if t.resized != nil {
			t.resized()
		}
		t.reveal() // what the button said it opens
	}
}

// arrange puts into the column what is shown of the tray.
func (t *tray) arrange() {
	l, bare := &t.lean, t.lean.bare()
	list := func(names []string) fyne.CanvasObject {
		box := container.NewVBox()
		if bare {
			box = container.NewGridWithColumns(2)
		}
		for _, name := range names {
			t.buttons[name].setBare(bare)
			box.Add(t.buttons[name])
		}
		return box
	}
	l.column.Objects = []fyne.CanvasObject{list(toolOrder)}
	add := func(o ...fyne.CanvasObject) { l.column.Objects = append(l.column.Objects, o...) }
	if bare {
		add(widget.NewSeparator(), list(groundOrder), l.open1.Object())
	} else {
		add(small("Ground"), list(groundOrder), widget.NewSeparator(), t.below)
		if l.narrow {
			add(l.close1.Object())
		}
		add(t.legend.box)
	}
	l.column.Refresh()
	if t.scroll != nil {
		t.scroll.ScrollToTop()
		t.scroll.Refresh()
	}
	if t.box != nil {
		t.box.Refresh()
	}
}

// setTips gives every tool a tip with its key and what it does.
func (t *tray) setTips(tips *panel.Tips) {
	for name, b := range t.buttons {
		b.setTip(tips, tool.Says(name))
	}
}

// held is the button of the tool in hand, where the keyboard comes to.
func (t *tray) held() fyne.Focusable {
	for _, name := range append(toolOrder[:len(toolOrder):len(toolOrder)], groundOrder...) {
		if t.buttons[name].on {
			return t.buttons[name]
		}
	}
	return t.buttons[tool.NameSelect]
}
