package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"duskwire/layout/journal"
)

// cautions are said at the start, in the About sheet and in the README.
var cautions = []string{
	"Duskwire is a design aid. It compares a drawing with the limits of a rule set; it does not certify anything.",
	"Isolate and prove dead before you work on any circuit.",
	"Do not dig on a drawing alone: locate buried services first.",
	"Local law and code, and a licensed or otherwise competent person, decide. What is not known is reported, not guessed.",
	"Several table values are from memory or from public pages. Each shows where it comes from; check it against the current edition of the standard.",
}

func cautionList() fyne.CanvasObject {
	box := container.NewVBox()
	for _, c := range cautions {
		box.Add(wrapped("•  " + c))
	}
	return box
}

// welcome shows the cautions when the program starts.
func (w *Window) welcome() {
	s := w.openSheet("Before you draw", fyne.NewSize(520, 0), func(*sheet) fyne.CanvasObject {
		return container.NewVBox(cautionList(),
			wrapped("The plan opens on a finished example. File, New starts your own with three questions; F1 lists the keys."))
	}, answer{text: "Understood", main: true, cancel: true, then: func() {
		w.remember(func(m *journal.Memory) { m.Cautions = true })
		if w.cfg.Welcomed != nil {
			w.cfg.Welcomed()
		}
	}})
	s.focus(s.buttons[0])
}

// about names the program and says the cautions again.
func (w *Window) about() {
	s := w.openSheet(ProgramName+" "+w.cfg.Version, fyne.NewSize(540, 380), func(s *sheet) fyne.CanvasObject {
		box := container.NewVBox(wrapped("Garden lighting: one drawing, from which lengths, circuit and findings follow."), cautionList())
		for _, r := range w.desk.Rules() {
			box.Add(wrapped("Rule set “" + r.Name + "”, " + r.Edition + ". " + r.Statement))
		}
		return s.long(box)
	}, answer{text: "Close", main: true, cancel: true})
	s.focus(s.buttons[0])
}
