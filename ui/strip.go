package ui

import (
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/scene"
	"duskwire/layout/tool"
	"duskwire/ui/board"
	"duskwire/ui/panel"
)

// side is the section strip and what belongs to it.
type side struct {
	strip *board.Strip
	off   bool   // the person hid it
	spoke bool   // the line of hints is the strip's
	run   doc.ID // that the plan was moved for, so that it is not hidden behind the strip
	entry *entry
	zones *entry
	hatch *entry
	box   *fyne.Container
}

// makeStrip makes the strip below the plan.
func (w *Window) makeStrip() {
	w.side.strip = board.NewStrip(w.desk, board.StripConfig{
		Defaults: w.defaults, Now: w.cfg.Now, Modifiers: modifiers,
		OnHint: func(hint, refused string) {
			if refused != "" {
				hint = refused
			}
			w.status.SetHint(hint, refused != "")
			w.side.spoke = true
			w.changed()
		},
		OnFigure: func(f *board.Figure) {
			w.rest(w.side.strip, f, panel.DrawnFigure{Run: w.side.strip.Run(), Side: true})
		},
		OnMenu: w.stripMenu, OnShortcut: w.shortcut, OnKey: w.stripKey, OnRune: w.letter,
		OnHeight: func() {
			w.side.box.Refresh()
			w.plan.SetFoot(w.side.strip.Size().Height)
		},
	})
	w.side.strip.Hide()
}

// overStage lays the strip over the lower edge of the plan. The plan keeps its
// size, so that nothing jumps when a run is selected.
func (w *Window) overStage(stage fyne.CanvasObject) fyne.CanvasObject {
	w.side.box = container.New(footed{w.side.strip}, stage, w.side.strip)
	return w.side.box
}

// footed gives the first object everything and lays the strip over its foot.
type footed struct{ strip *board.Strip }

// MinSize implements fyne.Layout.
func (footed) MinSize(o []fyne.CanvasObject) fyne.Size { return o[0].MinSize() }

// Layout implements fyne.Layout.
func (f footed) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Resize(size)
	o[0].Move(fyne.NewPos(0, 0))
	high := min(f.strip.Height(), size.Height*0.6)
	o[1].Resize(fyne.NewSize(size.Width, high))
	o[1].Move(fyne.NewPos(0, size.Height-high))
}

// placeStrip shows the strip when one run is selected on the plan and nothing
// is being drawn, and hides it otherwise.
func (w *Window) placeStrip() {
	s := w.side.strip
	if s == nil || w.side.box == nil {
		return
	}
	plan := w.views.current().in == shown(w.plan) && w.plan.Tool().Name() == tool.NameSelect && !w.duskOn() // the foot is the reading's there
	s.SetActive(plan && !w.side.off)
	if on := s.Run() != ""; on != s.Visible() {
		if on {
			s.Show()
			w.side.box.Refresh()
			w.plan.SetFoot(s.Size().Height)
		} else {
			focused := w.win.Canvas().Focused() == fyne.Focusable(s)
			s.Hide()
			if !w.duskOn() {
				w.plan.SetFoot(0)
			}
			if w.side.spoke {
				w.side.spoke = false
				w.plan.Say()
			}
			if focused {
				w.focusPlan()
			}
		}
	}
	if run := s.Run(); run != w.side.run {
		w.side.run = run
		w.plan.Uncover(run)
	}
}

// toggleStrip hides the strip, or shows it again and goes there.
func (w *Window) toggleStrip() {
	w.side.off = !w.side.off
	w.side.entry.Checked = !w.side.off
	w.placeStrip()
	w.menus.main.Refresh()
	switch {
	case w.side.off:
		w.focusPlan()
	case w.side.strip.Visible():
		w.win.Canvas().Focus(w.side.strip)
	case !w.onPlan():
		w.status.SetHint("The section strip stands below the plan: Ctrl+1 goes there", false)
	default:
		w.status.SetHint("The section strip shows a run from the side as soon as one is selected", false)
	}
}

// toggleZones shows or hides the rings and numbers of zones.
func (w *Window) toggleZones() {
	w.plan.SetZones(!w.plan.Zones())
	w.side.zones.Checked = w.plan.Zones()
	w.tray.legend.setZones(w.plan.Zones())
	w.menus.main.Refresh()
	w.sayUnseen("Zones of lamps", w.plan.Zones())
}

// toggleHatch shows or hides the hatched areas of the zones.
func (w *Window) toggleHatch() {
	w.plan.SetHatch(!w.plan.Hatch())
	w.side.hatch.Checked = w.plan.Hatch()
	w.tray.legend.setHatch(w.plan.Hatch())
	w.menus.main.Refresh()
	w.sayUnseen("Hatched zones", w.plan.Hatch())
	if w.plan.Hatch() && w.desk.Frame().Scheme.Zones.Len() == 0 {
		w.status.SetHint("There is no zone yet: select lamps, then New zone under Properties", false)
	}
}

// sayUnseen tells of something on the plan that was shown or hidden while another
// view is in its place.
func (w *Window) sayUnseen(what string, on bool) {
	switch {
	case w.onPlan():
	case on:
		w.status.SetHint(what+" are shown on the plan now: Ctrl+1 goes there", false)
	default:
		w.status.SetHint(what+" are hidden on the plan now", false)
	}
}

// stripEntries are those of the View menu.
func (w *Window) stripEntries() []*entry {
	w.side.entry = w.item("Section strip", "F7", nil, w.toggleStrip)
	w.side.zones = w.item("Zones of lamps", "F8", nil, w.toggleZones)
	w.side.hatch = w.item("Hatch the zones", "F9", nil, w.toggleHatch)
	w.side.entry.Checked, w.side.zones.Checked, w.side.hatch.Checked = !w.side.off, w.plan.Zones(), w.plan.Hatch()
	return []*entry{w.side.entry, w.side.zones, w.side.hatch}
}

// functionKey answers to the keys that have no letter; false for any other.
func (w *Window) functionKey(k fyne.KeyName) bool {
	if len(w.sheets) > 0 {
		return false
	}
	switch k {
	case fyne.KeyF7:
		w.toggleStrip()
	case fyne.KeyF8:
		w.toggleZones()
	case fyne.KeyF9:
		w.toggleHatch()
	default:
		return w.windowKey(k)
	}
	return true
}

// key gets the keys that the plan has no use for.
func (w *Window) key(k fyne.KeyName) { w.functionKey(k) }

// stripKey gets the keys that the strip has no use for.
func (w *Window) stripKey(k fyne.KeyName) {
	if !w.functionKey(k) && k == fyne.KeyEscape {
		w.focusPlan()
	}
}

// stripMenu offers the supports of the chosen leg; -1 stands for an end.
func (w *Window) stripMenu(leg int, at fyne.Position) {
	r, ok := w.desk.Frame().Scheme.Runs.Get(w.side.strip.Run())
	if !ok {
		return
	}
	var items []*fyne.MenuItem
	for i, word := range edit.Supports {
		if leg < 0 || leg >= len(r.Legs) {
			break
		}
		item := fyne.NewMenuItem(strconv.Itoa(i+1)+"  Leg "+strconv.Itoa(leg+1)+" "+word, func() {
			op := edit.TurnLeg{Run: r.ID, Leg: leg, Support: network.Support(i), Depth: w.defaults.Depth, Height: w.defaults.Height}
			if err := w.desk.Commit(op); err != nil {
				w.refuse(err.Error())
			}
			w.win.Canvas().Focus(w.side.strip)
		})
		item.Checked = r.Legs[leg].Support == network.Support(i)
		items = append(items, item)
	}
	if len(items) > 0 {
		items = append(items, fyne.NewMenuItemSeparator())
	}
	items = append(items, fyne.NewMenuItem("Properties of "+strings.TrimSpace(doc.TagOf(w.desk.Frame().Scheme, r.ID)), func() { w.tabs.SelectIndex(0) }),
		fyne.NewMenuItem("Hide the strip (F7)", w.toggleStrip))
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", items...), w.win.Canvas(), at)
}

// setZones explains zones or leaves them out.
func (l *legend) setZones(on bool) {
	if l.noZones == on {
		l.noZones = !on
		l.fill(false)
	}
}

// setHatch explains the hatches of zones or leaves them out.
func (l *legend) setHatch(on bool) {
	if l.hatch != on {
		l.hatch = on
		l.fill(false)
	}
}

// findings are those that the look of digging marks.
func (l *legend) findings() []finding.Finding {
	if l.look != scene.LookDig {
		return nil
	}
	return l.frame.Findings
}

// digGroups are the headings of the look of digging in the legend.
var digGroups = [...]string{scene.GroupDepths, scene.GroupGround, scene.GroupMarks}

func init() {
	for _, g := range digGroups {
		legendGroups[g] = g
	}
}
