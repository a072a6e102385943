package ui

import (
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/tool"
)

// commit does an operation; why it was refused, or that it changed nothing, is
// said in the status bar.
func (w *Window) commit(op edit.Operation) bool {
	before := w.desk.Frame().Scheme
	err := w.desk.Commit(op)
	w.focusPlan()
	switch {
	case err != nil:
		w.refuse(err.Error())
	case w.desk.Frame().Scheme == before:
		w.status.SetHint(edit.Title(op, before)+": nothing had to change, it is so already", false)
	}
	return err == nil
}

// refuse says in the status bar why nothing was done.
func (w *Window) refuse(why string) { w.status.SetHint(upperFirst(why), true) }

// onSelection returns a command that does an operation made for the selection.
func (w *Window) onSelection(op func(s *doc.Scheme, ids []doc.ID) edit.Operation) func() {
	return func() {
		w.properties.Flush()
		w.commit(op(w.desk.Frame().Scheme, w.plan.Selection()))
	}
}

func (w *Window) align(how edit.Alignment) func() {
	return w.onSelection(func(_ *doc.Scheme, ids []doc.ID) edit.Operation { return edit.Align{IDs: ids, How: how} })
}

// alignOrAim is align to a side, whose keys also aim a lamp finely: with nothing but
// a lamp that has a beam selected the plan gets them, for one thing cannot be aligned.
func (w *Window) alignOrAim(how edit.Alignment, key fyne.KeyName) func() {
	align := w.align(how)
	return func() {
		f, ids := w.desk.Frame(), w.plan.Selection()
		if len(ids) == 1 && w.onPlan() && byKeys() && w.focusedText() == nil && tool.Aimable(f.Scheme, f.Stock, ids[0]) {
			w.plan.TypedShortcut(controlShift(key))
			return
		}
		align()
	}
}

// byKeys reports whether a menu entry was chosen by its keys: Control is held then.
// The driver of tests has no keys to ask for.
func byKeys() bool {
	_, asks := fyne.CurrentApp().Driver().(desktop.Driver)
	return !asks || modifiers().Control
}

func (w *Window) distribute(how edit.Spread) func() {
	return w.onSelection(func(_ *doc.Scheme, ids []doc.ID) edit.Operation { return edit.Distribute{IDs: ids, How: how} })
}

func (w *Window) rotate(degrees float64) func() {
	return w.onSelection(func(s *doc.Scheme, ids []doc.ID) edit.Operation { return edit.RotateHere(s, ids, degrees) })
}

// arrangeMenu is the menu of everything that puts what is drawn in order.
func (w *Window) arrangeMenu(m *menus) *fyne.Menu {
	mirror := func(op func(*doc.Scheme, []doc.ID) edit.Mirror) func() {
		return w.onSelection(func(s *doc.Scheme, ids []doc.ID) edit.Operation { return op(s, ids) })
	}
	align := w.within(m, "Align",
		w.item("Left", "Ctrl+Shift+←", controlShift(fyne.KeyLeft), w.alignOrAim(edit.AlignLeft, fyne.KeyLeft)),
		w.item("Right", "Ctrl+Shift+→", controlShift(fyne.KeyRight), w.alignOrAim(edit.AlignRight, fyne.KeyRight)),
		w.item("To the top", "Ctrl+Shift+↑", controlShift(fyne.KeyUp), w.alignOrAim(edit.AlignTop, fyne.KeyUp)),
		w.item("To the bottom", "Ctrl+Shift+↓", controlShift(fyne.KeyDown), w.alignOrAim(edit.AlignBottom, fyne.KeyDown)),
		w.item("On an upright line", "Ctrl+Shift+X", controlShift(fyne.KeyX), w.align(edit.AlignCentreX)),
		w.item("On a level line", "Ctrl+Shift+L", controlShift(fyne.KeyL), w.align(edit.AlignCentreY)),
		w.item("Between first and last", "Ctrl+Shift+I", controlShift(fyne.KeyI), w.align(edit.AlignLine)))
	spread := w.within(m, "Distribute",
		w.item("Across", "Ctrl+Shift+H", controlShift(fyne.KeyH), w.distribute(edit.SpreadX)),
		w.item("Up and down", "Ctrl+Shift+V", controlShift(fyne.KeyV), w.distribute(edit.SpreadY)),
		w.item("Along the chain", "Ctrl+Shift+C", controlShift(fyne.KeyC), w.distribute(edit.SpreadChain)),
		w.item("In a straight row", "", nil, w.distribute(edit.SpreadRow)),
		w.item("On an arc", "", nil, w.distribute(edit.SpreadArc)),
		w.item("At a spacing…", "Ctrl+Shift+T", controlShift(fyne.KeyT), w.distributeAt))
	turn := w.within(m, "Mirror and rotate",
		w.item("Mirror left and right", "Ctrl+M", control(fyne.KeyM), mirror(edit.MirrorUpright)),
		w.item("Mirror up and down", "Ctrl+Shift+M", controlShift(fyne.KeyM), mirror(edit.MirrorLevel)),
		w.item("Mirror about a line…", "Ctrl+Shift+B", controlShift(fyne.KeyB), w.mirrorLine),
		w.item("Rotate left", "Ctrl+Shift+R", controlShift(fyne.KeyR), w.rotate(90)),
		w.item("Rotate right", "Ctrl+R", control(fyne.KeyR), w.rotate(-90)),
		w.item("Rotate by…", "Ctrl+T", control(fyne.KeyT), w.rotateBy))
	return m.menu("Arrange", align, spread, turn, nil,
		w.item("Row of lamps", "N", nil, func() { w.take(tool.NameRow) }),
		w.item("Arc of lamps", "C", nil, func() { w.take(tool.NameArc) }),
		w.item("Repeat the selection…", "Ctrl+Shift+E", controlShift(fyne.KeyE), w.repeat),
		w.item("Number lamps along the runs", "Ctrl+Shift+N", controlShift(fyne.KeyN), func() { w.commit(edit.NumberLamps{}) }),
		nil,
		w.item("Split run at the pointer", "Ctrl+U", control(fyne.KeyU), w.splitRun),
		w.item("Join two runs", "Ctrl+Shift+J", controlShift(fyne.KeyJ), w.joinRuns),
		w.item("Along wall…", "Ctrl+Shift+P", controlShift(fyne.KeyP), w.alongWall),
		nil,
		w.item("Lock or unlock", "Ctrl+L", control(fyne.KeyL), w.toggleLock))
}

// within is an entry that opens a menu of its own.
func (w *Window) within(m *menus, name string, entries ...*entry) *entry {
	e := &entry{fyne.NewMenuItem(name, nil), name, ""}
	e.ChildMenu = m.menu(name, entries...)
	return e
}

// selectMenu is the menu that selects by what things are.
func (w *Window) selectMenu(m *menus) *fyne.Menu {
	by := func(f func(*doc.Scheme, []doc.ID) []doc.ID, from string) func() {
		return func() {
			ids := w.plan.Selection()
			if from != "" && len(ids) == 0 {
				w.refuse("Select " + from + " first")
				return
			}
			w.choose(f(w.desk.Frame().Scheme, ids))
		}
	}
	return m.menu("Select",
		w.item("By kind, zone or stock…", "Ctrl+F", control(fyne.KeyF), w.selectBy),
		w.item("Everything of this kind", "Ctrl+Shift+K", controlShift(fyne.KeyK), by(tool.SameKind, "one of the kind")),
		w.item("Everything of this stock item", "Ctrl+Shift+G", controlShift(fyne.KeyG), by(tool.SameStock, "one of them")),
		w.item("Lamps of this zone", "Ctrl+Shift+O", controlShift(fyne.KeyO), by(tool.SameZone, "a lamp of the zone")),
		w.item("What is connected to it", "Ctrl+Shift+F", controlShift(fyne.KeyF), by(tool.Connected, "a lamp, box or run of the circuit")),
		nil,
		w.item("What is not selected", "Ctrl+Shift+A", controlShift(fyne.KeyA), by(tool.Others, "")),
		w.item("Nothing", "Esc", nil, func() { w.choose(nil) }))
}

// choose selects and says how many.
func (w *Window) choose(ids []doc.ID) {
	w.plan.Select(ids...)
	w.focusPlan()
	switch len(ids) {
	case 0:
		w.status.SetHint("Nothing is selected", false)
	case 1:
		w.status.SetHint("1 thing is selected", false)
	default:
		w.status.SetHint(strconv.Itoa(len(ids))+" things are selected", false)
	}
}

// toggleLock locks what is selected, or unlocks it when all of it is locked.
func (w *Window) toggleLock() {
	s, ids := w.desk.Frame().Scheme, w.plan.Selection()
	on := false
	for _, id := range ids {
		if e, k := doc.Find(s, id); k != doc.NoKind && !doc.Locked(e) {
			on = true
		}
	}
	w.properties.Flush()
	w.commit(edit.SetLock{IDs: ids, On: on})
}

// joinRuns joins the two runs that are selected.
func (w *Window) joinRuns() {
	s := w.desk.Frame().Scheme
	var runs []doc.ID
	for _, id := range w.plan.Selection() {
		switch k := doc.KindOf(s, id); {
		case k == doc.RunKind:
			runs = append(runs, id)
		case k == doc.BoxKind: // the box between them may be selected instead
			for _, r := range doc.RunsAt(s, id) {
				runs = append(runs, r.ID)
			}
		}
	}
	if len(runs) != 2 {
		w.refuse("Joining takes two runs, or the box between them; found " + strconv.Itoa(len(runs)) + " runs")
		return
	}
	if w.commit(edit.JoinRuns{A: runs[0], B: runs[1]}) {
		w.plan.Select(runs[0])
	}
}

// splitRun splits the run under the pointer there.
func (w *Window) splitRun() {
	s := w.desk.Frame().Scheme
	hit, at := w.plan.Hit()
	op, why := tool.SplitAt(s, w.desk.Frame().Stock, w.defaults, hit, at)
	if why != "" {
		w.refuse(why)
		return
	}
	if w.commit(op) {
		w.plan.Select(op.Box.ID)
	}
}

// mirrorLine takes the tool that picks the line to mirror about.
func (w *Window) mirrorLine() {
	ids := w.plan.Selection()
	if len(ids) == 0 {
		w.refuse("Select what is to be mirrored first")
		return
	}
	w.plan.SetTool(tool.NewMirror(w.defaults, ids))
	w.focusPlan()
}

// arrangeItems are the entries of the context menu of a thing.
func (w *Window) arrangeItems(id doc.ID) []*fyne.MenuItem {
	s := w.desk.Frame().Scheme
	e, kind := doc.Find(s, id)
	if kind == doc.NoKind {
		return nil
	}
	items := []*fyne.MenuItem{
		fyne.NewMenuItem("Cut", w.cut), fyne.NewMenuItem("Copy", w.copy), fyne.NewMenuItem("Duplicate", w.duplicate),
	}
	lock := "Lock"
	if doc.Locked(e) {
		lock = "Unlock"
	}
	items = append(items, fyne.NewMenuItem(lock, w.toggleLock))
	if kind == doc.RunKind {
		items = append(items, w.legItems(e.(*doc.Run))...)
	}
	if kind == doc.RunKind || kind == doc.BoxKind {
		if ids := w.plan.Selection(); len(ids) == 2 || kind == doc.BoxKind && len(doc.RunsAt(s, id)) == 2 {
			items = append(items, fyne.NewMenuItem("Join runs", w.joinRuns))
		}
	}
	return append(items, fyne.NewMenuItemSeparator())
}

// legItems are those for a run: what the leg under the pointer lies on, and
// splitting there.
func (w *Window) legItems(r *doc.Run) []*fyne.MenuItem {
	hit, at := w.plan.Hit()
	leg, name := -1, "Turn all legs"
	if hit.ID == r.ID && hit.Leg != tool.NoVertex {
		leg, name = hit.Leg, "Turn leg "+strconv.Itoa(hit.Leg+1)
	}
	turn := fyne.NewMenuItem(name, nil)
	var kinds []*fyne.MenuItem
	for i, word := range edit.Supports {
		item := fyne.NewMenuItem(strconv.Itoa(i+1)+"  "+strings.ToUpper(word[:1])+word[1:], func() {
			w.commit(edit.TurnLeg{Run: r.ID, Leg: leg, Support: network.Support(i), Depth: w.defaults.Depth, Height: w.defaults.Height})
		})
		item.Checked = leg >= 0 && leg < len(r.Legs) && r.Legs[leg].Support == network.Support(i)
		kinds = append(kinds, item)
	}
	turn.ChildMenu = fyne.NewMenu("", kinds...)
	items := []*fyne.MenuItem{turn}
	if leg >= 0 {
		items = append(items, fyne.NewMenuItem("Split here with a box", func() {
			op, why := tool.SplitAt(w.desk.Frame().Scheme, w.desk.Frame().Stock, w.defaults, hit, at)
			if why != "" {
				w.refuse(why)
				return
			}
			if w.commit(op) {
				w.plan.Select(op.Box.ID)
			}
		}))
	}
	return items
}
