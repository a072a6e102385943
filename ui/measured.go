package ui

import (
	"strconv"
	"strings"

	"duskwire/layout/doc"
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
