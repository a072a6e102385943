package ui

import (
	"strconv"
	"strings"

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
	w.measured.Today, w.measured.OnLeave = w.today, w.focusPlan
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

// openWords says how many findings of weight are open, overruled ones left out.
func openWords(stop, decide int) string {
	var open []string
	if stop > 0 {
		open = append(open, strconv.Itoa(stop)+" Stop")
	}
	if decide > 0 {
		open = append(open, strconv.Itoa(decide)+" Decide")
	}
	switch {
	case stop+decide == 0:
		return "No Stop or Decide finding is open."
	case stop+decide == 1:
		return "Still open: " + open[0] + " finding."
	}
	return "Still open: " + strings.Join(open, " and ") + " findings."
}

// markIssued keeps the design as the one that goes to the site, after it was said
// how many findings are open. What was issued before is only given up when the
// person says so.
func (w *Window) markIssued() {
	w.settle()
	w.desk.Finish() // its findings are counted at once
	f := w.desk.Frame()
	mark := func() {
		if err := w.desk.Commit(edit.MarkIssued{On: w.today(), By: f.Scheme.Author}); err != nil {
			w.refuse(err.Error())
			return
		}
		w.status.SetHint("Marked as issued for site: the as-built page of the test pack lists what is drawn otherwise from now on", false)
	}
	was, open := f.Scheme.Issue, openWords(f.Totals.Stop, f.Totals.Decide)
	if was == nil {
		text := "The design is kept as it is now; the as-built page of the test pack lists what is drawn otherwise later. " + open
		none := f.Totals.Stop+f.Totals.Decide == 0
		s := w.openSheet("Mark this design as issued for site?", fyne.NewSize(sheetWidth, 0), func(*sheet) fyne.CanvasObject { return wrapped(text) },
			answer{text: "Not yet", cancel: true, main: !none},
			answer{text: "Mark as issued", main: none, then: mark})
		at := 0
		if none {
			at = 1
		}
		s.focus(s.buttons[at])
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
	text += " " + open
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
