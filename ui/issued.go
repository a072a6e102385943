package ui

import (
	"context"
	"strconv"

	"fyne.io/fyne/v2"

	"duskwire/layout"
	"duskwire/layout/edit"
	"duskwire/layout/output"
)

// workIssue is the counting of what is said before a design is marked as issued.
const workIssue = "issue"

// openFindings are the findings of weight that are open, and how many things are drawn
// otherwise than in the design that was issued before.
type openFindings struct{ stop, decide, otherwise int }

// markIssued keeps the design as the one that goes to the site, after it was said
// how many findings are open. What was issued before is only given up when the
// person says so. What is counted is of the very design: of one whose figures are
// still to come, or that was issued before, a worker finds it.
func (w *Window) markIssued() {
	w.settle()
	w.bridge.Drop(workIssue) // or it would ask a second time
	f := w.desk.Frame()
	if !f.Behind && !f.LightBehind && !f.DrumsBehind && f.Scheme.Issue == nil {
		w.askIssued(openFindings{stop: f.Totals.Stop, decide: f.Totals.Decide})
		return
	}
	puts := w.puts
	whole, rules := w.desk.Whole(f), output.RulesOf(w.desk.Rules(), f.Scheme)
	RunTask(w.bridge, Task{Key: workIssue, Title: "Counting what is open"}, func(context.Context, Report) (openFindings, error) {
		all := whole()
		rows, _ := layout.AsBuilt(all, rules)
		return openFindings{all.Totals.Stop, all.Totals.Decide, len(rows)}, nil
	}, func(n openFindings, err error) {
		switch {
		case err != nil:
			w.status.SetHint("Cancelled: the design is not marked as issued", true)
		case puts != w.puts: // another scheme is open, which nobody asked about
		case len(w.sheets) > 0 || w.desk.Frame().Preview: // something else is looked at by now, or in hand
			w.status.SetHint("The design is not marked as issued: choose it again", true)
		case w.desk.Frame().Scheme != f.Scheme:
			w.markIssued() // drawn on meanwhile
		default:
			w.askIssued(n)
		}
	})
}

// askIssued asks whether the design is to be marked, with what was counted of it.
func (w *Window) askIssued(n openFindings) {
	was, open := w.desk.Frame().Scheme.Issue, openWords(n.stop, n.decide)
	mark := func() {
		if err := w.desk.Commit(edit.MarkIssued{On: w.today(), By: w.desk.Frame().Scheme.Author}); err != nil {
			w.refuse(err.Error())
			return
		}
		w.status.SetHint("Marked as issued for site: the as-built page of the test pack lists what is drawn otherwise from now on", false)
	}
	if was == nil {
		text := "The design is kept as it is now; the as-built page of the test pack lists what is drawn otherwise later. " + open
		none := n.stop+n.decide == 0
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
	text := "This design was issued on " + was.On + ". "
	switch n.otherwise {
	case 0:
		text += "Nothing is drawn otherwise since."
	case 1:
		text += "One thing is drawn otherwise since; marked again, it counts as designed."
	default:
		text += strconv.Itoa(n.otherwise) + " things are drawn otherwise since; marked again, they count as designed."
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
