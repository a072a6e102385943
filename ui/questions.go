package ui

import (
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"duskwire/calc/finding"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

const sheetWidth = 420

// tell opens a sheet with one sentence.
func (w *Window) tell(title, text string) {
	s := w.openSheet(title, fyne.NewSize(sheetWidth, 0), func(*sheet) fyne.CanvasObject { return wrapped(text) },
		answer{text: "Close", main: true, cancel: true})
	s.focus(s.buttons[0])
}

// fail tells of an error in its own words.
func (w *Window) fail(title string, err error) { w.tell(title, err.Error()) }

// keepWork asks what to do with unsaved work before then is done.
func (w *Window) keepWork(then func()) { w.keepWorkOr(then, nil) }

// keepWorkOr is keepWork that does stay, when it is not nil, if the person
// stays with what is open.
func (w *Window) keepWorkOr(then, stay func()) {
	if !w.desk.Frame().Unsaved {
		then()
		return
	}
	s := w.openSheet("Save the changes to "+w.fileName()+"?", fyne.NewSize(sheetWidth, 0), func(*sheet) fyne.CanvasObject {
		return wrapped("The changes since the last save are lost if they are discarded.")
	},
		answer{text: "Stay", cancel: true, then: stay},
		answer{text: "Discard", then: then},
		answer{text: "Save", main: true, then: func() { w.save(then) }})
	s.focus(s.buttons[2])
}

// fileName is the name of the file, or what stands for it before there is one.
func (w *Window) fileName() string {
	if p := w.desk.Frame().Path; p != "" {
		return filepath.Base(p)
	}
	if t := w.desk.Frame().Scheme.Title; t != "" {
		return t
	}
	return "unnamed scheme"
}

// overrule asks who decides against a finding and why, and records it.
func (w *Window) overrule(f finding.Finding) {
	var s *sheet
	var by, why *sheetEntry
	reason := widget.NewLabel("")
	reason.Importance = widget.DangerImportance
	reason.Wrapping = fyne.TextWrapWord
	reason.Hide()
	record := func() bool {
		text := ""
		switch {
		case strings.TrimSpace(by.Text) == "":
			text = "Say who decides."
			s.focus(by)
		case strings.TrimSpace(why.Text) == "":
			text = "Say why: the reason is what a reader of the packs goes by."
			s.focus(why)
		default:
			err := w.desk.Commit(edit.Overrule{Decision: doc.Decision{
				Code: string(f.Code), Subject: doc.ID(f.Subject.ID), By: strings.TrimSpace(by.Text),
				On: w.cfg.Now().Format("2006-01-02"), Reason: strings.TrimSpace(why.Text),
			}})
			if err == nil {
				return true
			}
			text = err.Error()
		}
		reason.SetText(text)
		reason.Show()
		return false
	}
	title, hint := "Overrule ", "why this is built all the same"
	if f.Level == finding.Decide {
		title, hint = "Decide ", "what was decided and why"
	}
	s = w.openSheet(title+string(f.Code)+" "+f.Subject.Label, fyne.NewSize(sheetWidth, 0), func(s *sheet) fyne.CanvasObject {
		by, why = newSheetEntry(s, w.desk.Frame().Scheme.Author, "name"), newSheetEntry(s, "", hint)
		return container.NewVBox(
			wrapped(upperFirst(f.Text)),
			wrapped("The decision stays with the scheme and is printed with it. The finding stays in the list."),
			container.New(captioned{long}, widget.NewLabel("Who decides"), by.object()),
			container.New(captioned{long}, widget.NewLabel("Reason"), why.object()), reason)
	},
		answer{text: "Cancel", cancel: true}, answer{text: "Record decision", main: true, check: record})
	if strings.TrimSpace(by.Text) == "" {
		s.focus(by)
		return
	}
	s.focus(why)
}
