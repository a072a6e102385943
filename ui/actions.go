package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/journal"
	"duskwire/layout/tool"
)

func (w *Window) undo() { w.step("Undone: ", w.desk.Frame().Undo, w.desk.Undo) }
func (w *Window) redo() { w.step("Redone: ", w.desk.Frame().Redo, w.desk.Redo) }

// step takes one step of the history and names it: what the line said before is
// no longer so.
func (w *Window) step(done, name string, take func() bool) {
	take()
	if name != "" {
		w.status.SetHint(done+lowerFirst(name), false)
	}
}

// deleteSelected takes out what is selected.
func (w *Window) deleteSelected() {
	ids := w.plan.Selection()
	if len(ids) == 0 {
		w.refuse("Nothing is selected, so nothing was deleted")
		return
	}
	if err := w.desk.Commit(edit.Delete{IDs: ids}); err != nil {
		w.refuse(err.Error())
	}
}

// selectAll selects everything that can be selected on the plan.
func (w *Window) selectAll() {
	var ids []doc.ID
	doc.Each(w.desk.Frame().Scheme, func(e doc.Entity, k doc.Kind) {
		if k != doc.ZoneKind {
			ids = append(ids, e.Key())
		}
	})
	w.plan.Select(ids...)
}

func (w *Window) toggleSnap() {
	w.plan.SetSnap(!w.plan.Snap())
	w.menus.snap.Checked = w.plan.Snap()
	w.menus.main.Refresh()
}

func (w *Window) toggleGrid() {
	w.plan.SetGrid(!w.plan.Grid())
	w.menus.grid.Checked = w.plan.Grid()
	w.menus.main.Refresh()
}

func (w *Window) toggleDark() {
	w.setDark(!w.theme.Dark())
	w.menus.dark.Checked = w.theme.Dark()
	w.menus.main.Refresh()
	dark := w.theme.Dark()
	w.remember(func(m *journal.Memory) { m.Dark = dark })
	if w.cfg.Darkened != nil {
		w.cfg.Darkened(w.theme.Dark())
	}
}

// showHistory opens the list of steps and gives it the keyboard.
func (w *Window) showHistory() {
	w.openPanel()
	w.tabs.Select(w.historyTab)
	w.history.SetActive(true)
	w.win.Canvas().Focus(w.history.List())
}

// toggleWide gives the panels half of the width, or takes it back.
func (w *Window) toggleWide() {
	w.menus.wide.Checked = !w.menus.wide.Checked
	if w.menus.wide.Checked {
		w.middle.SetOffset(widePanel)
	} else {
		w.middle.SetOffset(narrowPanel)
	}
	w.menus.main.Refresh()
}

// letter gets the characters that the view has no use for. The plan knows the
// letters of the tools itself; another view, or the strip, gives way to it.
func (w *Window) letter(r rune) {
	if len(w.sheets) > 0 {
		return
	}
	if r == '?' {
		w.keys()
		return
	}
	if t := tool.ByLetter(w.defaults, r); t != nil {
		w.take(t.Name())
	}
}

// shortcut answers to shortcuts that have no menu entry of their own.
func (w *Window) shortcut(s fyne.Shortcut) {
	custom, ok := s.(*desktop.CustomShortcut)
	if !ok || len(w.sheets) > 0 {
		return
	}
	switch {
	case custom.KeyName == fyne.KeyZ && custom.Modifier == fyne.KeyModifierControl|fyne.KeyModifierShift:
		w.redo()
	case custom.KeyName == fyne.KeyPlus && custom.Modifier&fyne.KeyModifierControl != 0:
		w.views.current().in.ZoomIn()
	}
}

// typedKey gets the keys typed while nothing has the focus, and those that what has
// it passes on.
func (w *Window) typedKey(e *fyne.KeyEvent) {
	if n := len(w.sheets); n > 0 {
		w.sheets[n-1].key(e.Name)
		return
	}
	if w.win.Canvas().Overlays().Top() != nil {
		return // a menu
	}
	if w.functionKey(e.Name) {
		return
	}
	at, in := w.win.Canvas().Focused(), w.views.current().in
	w.focusPlan()
	if e.Name == fyne.KeyEscape && at != nil && at != fyne.Focusable(in) {
		return // back to the plan, with what is selected and begun there
	}
	in.TypedKey(e)
}

func (w *Window) typedRune(r rune) {
	if w.win.Canvas().Overlays().Top() == nil {
		w.focusPlan()
		w.views.current().in.TypedRune(r)
	}
}
