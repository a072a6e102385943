package ui

import (
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"duskwire/layout"
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
	w.greeting = wrapped(w.openNow(w.desk.Frame()))
	s := w.openSheet("Before you draw", fyne.NewSize(520, 0), func(*sheet) fyne.CanvasObject {
		return container.NewVBox(cautionList(), w.greeting)
	}, answer{text: "Understood", main: true, cancel: true, then: func() {
		w.greeting = nil
		w.remember(func(m *journal.Memory) { m.Cautions = true })
		if w.cfg.Welcomed != nil {
			w.cfg.Welcomed()
		}
	}})
	s.focus(s.buttons[0])
}

// openNow says what is on the plan, for the welcome, which may lie under the question
// about lost work.
func (w *Window) openNow(f *layout.Frame) string {
	what := "A scheme that has no file yet is open."
	switch {
	case f.Unsaved:
		what = "Work that is not saved yet is open: File, Save keeps it."
	case f.Path != "":
		what = "Your file " + filepath.Base(f.Path) + " is open."
	case empty(f.Scheme):
		what = "An empty plan is open."
	case f.Scheme == w.example:
		what = "A finished example is open."
	}
	return what + " File, New starts a scheme with three questions; F1 lists the keys."
}

// greet keeps what the welcome says of the plan true.
func (w *Window) greet(f *layout.Frame) {
	if w.greeting == nil {
		return
	}
	if text := w.openNow(f); text != w.greeting.Text {
		w.greeting.SetText(text)
	}
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
