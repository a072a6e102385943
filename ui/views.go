package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
	"duskwire/ui/board"
	"duskwire/ui/panel"
)

// shown is what a view puts into the middle of the window.
type shown interface {
	fyne.CanvasObject
	fyne.Focusable
	ZoomIn()
	ZoomOut()
	ZoomFit()
	FlyTo(doc.ID)
}

// planView is one way to look at the scheme. To add one, add an entry in
// viewsOf: switch, menu and keys follow from the list.
type planView struct {
	name string
	key  fyne.KeyName // with Ctrl
	icon fyne.Resource
	hint string
	in   shown
	// look is how the plan is drawn, when the view is one of the plan; the person
	// may choose volts or amperes over it.
	look scene.Look
}

// viewsOf lists the views in the order of the switch.
func (w *Window) viewsOf() []planView {
	return []planView{
		{"Plan", fyne.Key1, viewIcons["plan"], "The garden to scale: draw here", w.plan, scene.LookPlan},
		{"Circuit", fyne.Key2, viewIcons["circuit"], "One-line diagram of every circuit, drawn by itself", w.circuit, scene.LookPlan},
		{"Dig", fyne.Key3, viewIcons["dig"], "Runs by depth over the ground by how deep people dig; clashes are marked where they are", w.plan, scene.LookDig},
		{"Dusk", fyne.Key4, viewIcons["dusk"], "The garden at night with lines of equal lux: " + layout.NightCaveat, w.plan, scene.LookDusk},
	}
}

// viewIcons tell the views by shape: a garden with a path, a line with lamps.
var viewIcons = map[string]fyne.Resource{
	"plan":    drawing("view plan", `<path `+stroke+` d="M3 4H21V20H3ZM3 14L11 11L14 20"/><circle `+stroke+` cx="15.5" cy="8.5" r="2.6"/>`),
	"dusk":    drawing("view dusk", `<path `+stroke+` d="M3 19H21M12 4V10M12 10L5 19M12 10L19 19"/><path `+stroke+` d="M9 4H15"/>`),
	"dig":     drawing("view dig", `<path `+stroke+` d="M3 7H21M3 7L6 11M8 7L11 11M13 7L16 11M18 7L21 11"/><path `+stroke+` d="M3 18H14L21 14"/><circle `+stroke+` cx="9" cy="18" r="2"/>`),
	"circuit": drawing("view circuit", `<path `+stroke+` d="M2 7H16M9 7V17H16"/><circle `+stroke+` cx="19" cy="7" r="3"/><circle `+stroke+` cx="19" cy="17" r="3"/><path `+stroke+` d="M2 3V11"/>`),
}

// views is the switch between the views.
type views struct {
	all     []planView
	now     int
	buttons []*toolButton
	entries []*entry
	along   map[scene.Look]*entry
	look    scene.Look // volts or amperes over the plan, LookPlan for neither
	row     *fyne.Container
	stage   *fyne.Container
}

// makeViews makes the switch and what it switches; the plan is there already.
func (w *Window) makeViews() {
	w.circuit = board.NewDiagram(board.DiagramConfig{
		Now: w.cfg.Now, Modifiers: modifiers,
		OnSelect: func(ids []doc.ID) { w.plan.Select(ids...) },
		OnOpen: func(id doc.ID) {
			w.showView(0)
			w.plan.Select(id)
			w.plan.FlyTo(id)
		},
		OnHint: func(text string) {
			if w.views.current().in == shown(w.circuit) {
				w.status.SetHint(text, false)
				w.changed()
			}
		},
		OnMenu: w.contextMenu, OnShortcut: w.shortcut, OnRune: w.letter, OnKey: w.key,
		OnDelete: w.deleteSelected, OnEscape: w.tips.Hide, Ring: w.plan,
		OnFigure: func(f *board.Figure) { w.rest(w.circuit, f, panel.DrawnFigure{}) },
		Work:     w.paced("circuit", panelsEvery, 0),
	})
	v := &w.views
	v.all, v.along = w.viewsOf(), map[scene.Look]*entry{}
	v.row, v.stage = container.New(viewRow{v}), container.NewStack()
	for i, view := range v.all {
		b := newToolButton(view.name, "Ctrl+"+string(view.key), view.icon, func() { w.showView(i) })
		v.buttons = append(v.buttons, b)
		v.row.Add(b)
		if !contains(v.stage.Objects, view.in) {
			v.stage.Add(view.in)
		}
	}
	w.circuit.Hide()
	w.makeDusk()
	w.makeStanding()
	v.buttons[0].setOn(true)
}

func contains(all []fyne.CanvasObject, o fyne.CanvasObject) bool {
	for _, other := range all {
		if other == o {
			return true
		}
	}
	return false
}

// stageBox is the switch over what it shows.
func (w *Window) stageBox() fyne.CanvasObject {
	return container.NewBorder(container.NewVBox(w.views.row, widget.NewSeparator()), nil, nil, nil, w.overStage(w.views.stage))
}

// onPlan reports whether the plan is what is shown.
func (w *Window) onPlan() bool {
	return len(w.views.all) == 0 || w.views.current().in == shown(w.plan)
}

func (v *views) current() *planView { return &v.all[v.now] }

// showView goes to a view of the list. The selection stays as it is.
func (w *Window) showView(n int) {
	v := &w.views
	if n < 0 || n >= len(v.all) {
		return
	}
	v.now = n
	now := v.current()
	w.tips.Hide() // of a figure in the view before
	for i := range v.all {
		v.buttons[i].setOn(i == n)
		v.entries[i].Checked = i == n
		if in := v.all[i].in; in != now.in {
			in.Hide()
		}
	}
	now.in.Show()
	v.row.Refresh() // the name of another one may be shown now
	w.blank.setFrame(w.desk.Frame(), now.in == shown(w.plan))
	w.status.SetPointer(geom.Point{}, false)
	w.status.SetHint(now.hint, false)
	w.circuit.SetActive(now.in == shown(w.circuit))
	w.applyLook()
	w.menus.main.Refresh()
	w.placeStrip()
	w.focusPlan()
	w.changed()
}

// applyLook draws the plan as the view and the choice of figures ask.
func (w *Window) applyLook() {
	v := &w.views
	look := v.current().look
	if look == scene.LookPlan {
		look = v.look
	}
	w.plan.SetLook(look)
	w.tray.legend.setLook(look)
	w.lookDusk()
	for l, e := range v.along {
		e.Checked = l == v.look
	}
}

// toggleAlong shows a figure along the runs of the plan, or takes it off.
func (w *Window) toggleAlong(look scene.Look) {
	if w.views.look == look {
		look = scene.LookPlan
	}
	w.views.look = look
	if w.views.current().look != scene.LookPlan || !w.onPlan() {
		w.showView(0)
	}
	w.applyLook()
	w.menus.main.Refresh()
}

// viewEntries are the entries of the View menu.
func (w *Window) viewEntries() []*entry {
	v := &w.views
	var out []*entry
	for i, view := range v.all {
		e := w.item(view.name, "Ctrl+"+string(view.key), control(view.key), func() { w.showView(i) })
		e.Checked = i == v.now
		v.entries = append(v.entries, e)
		out = append(out, e)
	}
	out = append(out, w.curfewEntry(), w.standEntry())
	v.along[scene.LookVolts] = w.item("Volts along runs", "Ctrl+8", control(fyne.Key8), func() { w.toggleAlong(scene.LookVolts) })
	v.along[scene.LookAmperes] = w.item("Amperes along runs", "Ctrl+9", control(fyne.Key9), func() { w.toggleAlong(scene.LookAmperes) })
	return append(out, nil, v.along[scene.LookVolts], v.along[scene.LookAmperes], nil,
		w.item("Zoom in", "Ctrl+=", control(fyne.KeyEqual), func() { v.current().in.ZoomIn() }),
		w.item("Zoom out", "Ctrl+-", control(fyne.KeyMinus), func() { v.current().in.ZoomOut() }),
		w.item("Fit to window", "Ctrl+0", control(fyne.Key0), func() { v.current().in.ZoomFit() }))
}

// fly brings an entity into view, on the plan and in what is shown.
func (w *Window) fly(id doc.ID) {
	w.plan.FlyTo(id)
	if !w.onPlan() {
		w.views.current().in.FlyTo(id)
	}
}
