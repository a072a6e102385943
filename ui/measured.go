package ui

import (
	"strconv"

	"fyne.io/fyne/v2"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/output"
	"duskwire/ui/panel"
)

// makeMeasured makes the panel of readings.
func (w *Window) makeMeasured() {
	w.measured = panel.NewMeasured(w.desk, w.desk)
	w.measured.Tips = w.tips
	w.measured.Today = w.today
	w.measured.OnPick = func(id doc.ID, fly bool) {
		w.plan.Select(id)
		if fly {
			w.fly(id)
		}
	}
}

func (w *Window) today() string { return w.cfg.Now().Format("2006-01-02") }

// showReadings opens the readings, at a thing when one is named, and gives them the
// keyboard.
func (w *Window) showReadings(id doc.ID) {
	w.openPanel()
	w.tabs.Select(w.testTab)
	w.measured.SetActive(true)
	if id != "" {
		w.measured.Show(id)
	}
	w.measured.Focus(w.win.Canvas())
}

// markIssued keeps the design as the one that goes to the site. What was issued
// before is only given up when the person says so.
func (w *Window) markIssued() {
	w.settle()
	f := w.desk.Frame()
	mark := func() {
		if err := w.desk.Commit(edit.MarkIssued{On: w.today(), By: f.Scheme.Author}); err != nil {
			w.refuse(err.Error())
			return
		}
		w.status.SetHint("Marked as issued for site: the as-built page of the test pack lists what is drawn otherwise from now on", false)
	}
	was := f.Scheme.Issue
	if was == nil {
		mark()
		return
	}
	rows, _ := layout.AsBuilt(f, output.RulesOf(w.desk.Rules(), f.Scheme))
	text := "This design was issued on " + was.On + ". "
	switch len(rows) {
	case 0:
		text += "Nothing is drawn otherwise since."
	case 1:
		text += "One thing is drawn otherwise since; marked again, it counts as designed."
	default:
		text += strconv.Itoa(len(rows)) + " things are drawn otherwise since; marked again, they count as designed."
	}
	s := w.openSheet("Issue it again?", fyne.NewSize(sheetWidth, 0), func(*sheet) fyne.CanvasObject { return wrapped(text) },
		answer{text: "Keep the old mark", cancel: true, main: true},
		answer{text: "Take the mark back", then: func() {
			if err := w.desk.Commit(edit.TakeBackIssue{}); err != nil {
				w.refuse(err.Error())
			}
		}},
		answer{text: "Mark as issued", then: mark})
	s.focus(s.buttons[0])
}
