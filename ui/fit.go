package ui

import (
	"os"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"

	"duskwire/layout/journal"
)

// The window at its smallest, and where it gives up names and panel.
const (
	leastWidth  = 400
	leastHeight = 260
	namesUnder  = 860 // narrower than this the tray shows drawings alone
	planLeast   = 240 // the panel folds rather than leave the plan less
	dividers    = 20
)

// roomy is the layout of all that is in the window. It asks for little, so that
// the window fits a small screen at a large scale, and lets the parts fold to
// what there is.
type roomy struct{ win *Window }

// MinSize implements fyne.Layout.
func (roomy) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(leastWidth, leastHeight) }

// Layout implements fyne.Layout.
func (l roomy) Layout(o []fyne.CanvasObject, size fyne.Size) {
	l.win.fit(size)
	for _, c := range o {
		c.Move(fyne.NewPos(0, 0))
		c.Resize(size)
	}
}

// asWide is the layout of the panel: it asks for one width, whatever names and
// figures stand in it; they break or are shortened.
type asWide struct {
	filling
	width float32
}

// MinSize implements fyne.Layout.
func (l asWide) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(l.width, o[0].MinSize().Height)
}

// whenShown lets a tab ask for height only while it is the one shown: the readings need
// a lot, and would take it from the findings in every other tab.
type whenShown struct {
	filling
	win *Window
	of  *container.TabItem
}

// MinSize implements fyne.Layout.
func (l whenShown) MinSize(o []fyne.CanvasObject) fyne.Size {
	size := o[0].MinSize()
	if t := l.win.tabs; t == nil || t.Selected() != l.of {
		size.Height = 0
	}
	return size
}

// folding is what is folded away and why.
type folding struct {
	hand   bool    // by the person
	tight  bool    // there is no room
	anyway bool    // shown although there is none
	alone  bool    // shown in the place of the plan, beside which it has no room
	tray   float64 // divider of the tray while the window is narrow
}

func (f *folding) folded() bool { return f.hand || f.tight && !f.anyway }

// fit folds and unfolds to a size of the window.
func (w *Window) fit(size fyne.Size) {
	if narrow := size.Width < namesUnder; narrow != w.tray.lean.narrow {
		if narrow {
			w.folds.tray = w.outer.Offset
			w.outer.SetOffset(0)
		}
		w.tray.setNarrow(narrow)
		w.status.SetNarrow(narrow)
		w.steps.setBrief(narrow, w.desk.Frame())
		for _, b := range w.views.buttons {
			b.setKeyless(narrow)
		}
		if !narrow {
			w.outer.SetOffset(w.folds.tray)
		}
	}
	tight := size.Width < w.tray.lean.width()+planLeast+rightLeast+dividers
	if tight != w.folds.tight {
		w.folds.tight, w.folds.anyway = tight, false
	}
	w.foldPanel()
}

// foldPanel shows or hides the panel as it should be.
func (w *Window) foldPanel() {
	on := !w.folds.folded()
	if w.menus.fold != nil {
		w.menus.fold.Checked = !on
	}
	w.leavePlan(on)
	if on == w.rightBox.Visible() {
		return
	}
	if on {
		w.rightBox.Show()
	} else {
		if w.holds(w.rightBox) {
			w.focusPlan()
		}
		w.rightBox.Hide()
	}
	layAnew(w.middle)
}

// layAnew lays a split out anew. Moving the divider does just that, while Refresh would
// make everything in it anew, which takes as long as several frames.
func layAnew(s *container.Split) {
	at := s.Offset
	s.Offset = at + 1
	s.SetOffset(at)
}

// trayResized fits anew to a tray of another width: names that were opened go before
// a panel that has no room beside them.
func (w *Window) trayResized() {
	if w.tray.lean.open {
		w.folds.anyway = false
	}
	w.fit(w.win.Canvas().Size())
	w.outer.Refresh()
}

// leavePlan takes the plan away from beside a panel that has no room there, and
// brings it back.
func (w *Window) leavePlan(panel bool) {
	room := w.win.Canvas().Size().Width - w.tray.lean.width() - dividers
	alone := panel && w.folds.anyway && room < w.stage.MinSize().Width+rightLeast
	if alone == w.folds.alone {
		return
	}
	if w.folds.alone = alone; alone {
		w.stage.Hide()
	} else {
		w.stage.Show()
	}
	layAnew(w.middle)
}

// planBack returns the view that is shown, which the keyboard goes to; a panel in its
// place makes room.
func (w *Window) planBack() fyne.Focusable {
	if w.folds.alone {
		w.folds.anyway = false
		w.foldPanel()
	}
	return w.views.current().in
}

// toggleFold folds the panel away, or brings it back. Where there is no room for
// both, the names in the tray go.
func (w *Window) toggleFold() {
	if w.folds.folded() {
		w.folds.hand = false
		if w.folds.tight {
			w.tray.setOpen(false) // fits anew
		}
		w.folds.anyway = w.folds.tight
	} else {
		w.folds.hand, w.folds.anyway = true, false
	}
	w.foldPanel()
	w.menus.main.Refresh()
	hand := w.folds.hand
	w.remember(func(m *journal.Memory) { m.Folded = hand })
}

// openPanel brings the panel back for something that is shown there.
func (w *Window) openPanel() {
	if w.folds.folded() {
		w.toggleFold()
	}
}

// showTab opens the panel with a tab.
func (w *Window) showTab(i int) {
	w.openPanel()
	w.tabs.SelectIndex(i)
}

// dividerStep is how far a key moves a divider, as a share.
const dividerStep = 0.04

// moveDivider moves the divider between plan and panel: a wider panel for a step
// below 0.
func (w *Window) moveDivider(step float64) func() {
	return func() {
		w.openPanel()
		all := float64(w.middle.Size().Width)
		least, most := float64(planLeast)/all, 1-float64(rightLeast+8)/all
		at := min(max(w.middle.Offset, least), most) // where it stands, whatever was asked for
		w.middle.SetOffset(min(max(at+step, least), most))
		at = w.middle.Offset
		w.menus.wide.Checked = at <= widePanel
		w.remember(func(m *journal.Memory) { m.Panel = at })
	}
}

// moveFindings moves the divider between findings and what is below them.
func (w *Window) moveFindings(step float64) func() {
	return func() {
		w.openPanel()
		w.right.SetOffset(min(max(w.right.Offset+step, 0.1), 0.9))
	}
}

// personScale is how much larger than usual the person wants everything, read
// where the toolkit reads it: in the environment, else in its settings.
func (w *Window) personScale() float32 {
	if v, err := strconv.ParseFloat(os.Getenv("FYNE_SCALE"), 32); err == nil && v > 0 {
		return float32(v)
	}
	if v := w.cfg.App.Settings().Scale(); v > 0 {
		return v
	}
	return 1
}

// startSize is how large a window starts: 1280 by 800 pixels, however large a
// unit is by the person's choice, unless another size is remembered. A dense
// screen has the pixels for its own part of the scale.
func startSize(scale float32, m *journal.Memory) fyne.Size {
	size := fyne.NewSize(1280, 800)
	was := float32(1)
	if m.Width > 0 {
		size = fyne.NewSize(m.Width, m.Height)
		if m.Scale > 0 {
			was = m.Scale
		}
	}
	if by := was / scale; by < 1 || m.Width > 0 {
		size = fyne.NewSize(size.Width*by, size.Height*by)
	}
	return size.Max(fyne.NewSize(leastWidth, leastHeight))
}

// panelMenu is the entry about the panel right of the plan.
func (w *Window) panelMenu(m *menus) *entry {
	alt := func(key fyne.KeyName) fyne.Shortcut {
		return &desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierControl | fyne.KeyModifierAlt}
	}
	names := w.item("Names in a narrow tray", "", nil, func() { w.tray.setOpen(!w.tray.lean.open) })
	return w.within(m, "Panel and tray", m.fold, m.wide,
		w.item("Move its edge left", "Ctrl+Alt+←", alt(fyne.KeyLeft), w.moveDivider(-dividerStep)),
		w.item("Move its edge right", "Ctrl+Alt+→", alt(fyne.KeyRight), w.moveDivider(dividerStep)),
		w.item("More room for findings", "Ctrl+Alt+↓", alt(fyne.KeyDown), w.moveFindings(dividerStep)),
		w.item("Less room for findings", "Ctrl+Alt+↑", alt(fyne.KeyUp), w.moveFindings(-dividerStep)),
		nil, names)
}
