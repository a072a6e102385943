package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"

	"duskwire/layout"
	"duskwire/layout/tool"
)

// menus are the entries of the menu bar.
type menus struct {
	main             *fyne.MainMenu
	entries          map[*fyne.Menu][]*entry
	undo, redo       *entry
	snap, grid, dark *entry
	wide, fold       *entry
	recent           *entry
	filled           bool
}

// entry is one menu entry: its name and the keys shown behind it.
type entry struct {
	*fyne.MenuItem
	name, keys string
}

// named is a shortcut that a menu answers to without drawing it: the driver
// draws shortcuts too faint to read, so the keys are part of the label.
type named string

// ShortcutName implements fyne.Shortcut.
func (n named) ShortcutName() string { return string(n) }

func control(key fyne.KeyName) fyne.Shortcut {
	return &desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierControl}
}

func controlShift(key fyne.KeyName) fyne.Shortcut {
	return &desktop.CustomShortcut{KeyName: key, Modifier: fyne.KeyModifierControl | fyne.KeyModifierShift}
}

// item makes a menu entry that does nothing while a question is open: menu
// shortcuts reach past a sheet. keys are shown; the shortcut is nil when the
// plan answers to them itself.
func (w *Window) item(name, keys string, shortcut fyne.Shortcut, do func()) *entry {
	e := &entry{fyne.NewMenuItem(name, func() {
		if len(w.sheets) == 0 {
			do()
		}
	}), name, keys}
	if shortcut != nil {
		e.Shortcut = named(shortcut.ShortcutName())
	}
	return e
}

// textItem is a menu entry whose shortcut belongs to a text that has the focus:
// there Ctrl+Z takes back typing.
func (w *Window) textItem(name, keys string, shortcut fyne.Shortcut, do func()) *entry {
	e := w.item(name, keys, shortcut, do)
	plain := e.Action
	e.Action = func() {
		if text := w.focusedText(); text != nil {
			text.TypedShortcut(shortcut)
			return
		}
		plain()
	}
	return e
}

// menu puts entries into a menu; nil stands for a line.
func (m *menus) menu(name string, entries ...*entry) *fyne.Menu {
	out := fyne.NewMenu(name)
	for _, e := range entries {
		if e == nil {
			out.Items = append(out.Items, fyne.NewMenuItemSeparator())
			continue
		}
		out.Items = append(out.Items, e.MenuItem)
		m.entries[out] = append(m.entries[out], e)
	}
	return out
}

// label writes names and keys so that the keys of one menu stand in a column.
func (m *menus) label() {
	width := func(s string) float32 {
		return fyne.MeasureText(s, theme.Size(theme.SizeNameText), fyne.TextStyle{}).Width
	}
	space := width("a a") - width("aa")
	for _, entries := range m.entries {
		widest := float32(0)
		for _, e := range entries {
			widest = max(widest, width(e.name))
		}
		for _, e := range entries {
			e.Label = e.name
			if e.keys != "" {
				gap := int((widest-width(e.name))/space + 0.5)
				e.Label += strings.Repeat(" ", gap+6) + e.keys
			}
		}
	}
}

// focusedText returns the text entry that has the focus, nil for none.
func (w *Window) focusedText() fyne.Shortcutable {
	type text interface {
		fyne.Shortcutable
		SelectedText() string
	}
	if t, ok := w.win.Canvas().Focused().(text); ok {
		return t
	}
	return nil
}

func (w *Window) buildMenus() {
	m := &w.menus
	m.entries = map[*fyne.Menu][]*entry{}
	file := w.fileMenu(m)
	m.undo = w.textItem("Undo", "Ctrl+Z", &fyne.ShortcutUndo{}, w.undo)
	m.redo = w.textItem("Redo", "Ctrl+Y", &fyne.ShortcutRedo{}, w.redo)
	clip := fyne.CurrentApp().Clipboard()
	edit := m.menu("Edit", m.undo, m.redo, nil,
		w.textItem("Cut", "Ctrl+X", &fyne.ShortcutCut{Clipboard: clip}, w.cut),
		w.textItem("Copy", "Ctrl+C", &fyne.ShortcutCopy{Clipboard: clip}, w.copy),
		w.textItem("Paste", "Ctrl+V", &fyne.ShortcutPaste{Clipboard: clip}, w.paste),
		w.item("Duplicate", "Ctrl+Shift+D", controlShift(fyne.KeyD), w.duplicate),
		w.item("Delete", "Del", nil, w.deleteSelected),
		w.textItem("Select all", "Ctrl+A", &fyne.ShortcutSelectAll{}, w.selectAll),
		nil, w.item("Light of this fitting…", "Ctrl+Shift+5", controlShift(fyne.Key5), w.showLight),
		nil, w.item("History…", "Ctrl+H", control(fyne.KeyH), w.showHistory))
	m.snap = w.item("Snap", "Ctrl+K", control(fyne.KeyK), w.toggleSnap)
	m.grid = w.item("Grid", "Ctrl+G", control(fyne.KeyG), w.toggleGrid)
	m.dark = w.item("Dark window and paper", "Ctrl+D", control(fyne.KeyD), w.toggleDark)
	m.wide = w.item("Wider panel", "Ctrl+Shift+W", controlShift(fyne.KeyW), w.toggleWide)
	m.fold = w.item("Fold the panel", "Ctrl+B", control(fyne.KeyB), w.toggleFold)
	m.snap.Checked, m.grid.Checked, m.dark.Checked = w.plan.Snap(), w.plan.Grid(), w.theme.Dark()
	view := m.menu("View", append(append(append(w.viewEntries(), nil), w.stripEntries()...),
		nil, m.snap, w.snapMenu(m), m.grid, m.dark, w.panelMenu(m),
		nil,
		w.item("Next finding", "Ctrl+J", control(fyne.KeyJ), func() { w.openPanel(); w.findings.Next() }),
		w.item("Properties", "Ctrl+5", control(fyne.Key5), func() { w.showTab(0) }),
		w.item("Working", "Ctrl+6", control(fyne.Key6), func() { w.showTab(1) }),
		w.item("Lengths", "Ctrl+7", control(fyne.Key7), func() { w.showTab(2) }),
		w.item("Readings", "Ctrl+Shift+7", controlShift(fyne.Key7), func() { w.showReadings("") }))...)
	var tools []*entry
	for _, name := range toolOrder {
		tools = append(tools, w.item(name, toolKey(name), nil, func() { w.take(name) }))
	}
	for _, name := range []string{tool.NameRow, tool.NameArc, tool.NameEye} { // also under Arrange
		tools = append(tools, w.item(name, toolKey(name), nil, func() { w.take(name) }))
	}
	tools = append(tools, nil)
	for _, name := range groundOrder {
		tools = append(tools, w.item(name, toolKey(name), nil, func() { w.take(name) }))
	}
	place := m.menu("Place", append(tools, w.groundMenu(m))...)
	arrange, choose, pict := w.arrangeMenu(m), w.selectMenu(m), w.pictureMenu(m)
	help := m.menu("Help", w.item("Keys and mouse", "F1, ?", nil, w.keys), w.item("First steps", "", nil, func() { w.showSteps(true) }), w.item("About and cautions", "Ctrl+I", control(fyne.KeyI), w.about))
	m.label()
	m.main = fyne.NewMainMenu(file, edit, view, place, arrange, choose, pict, help)
	m.listRecent(w)
	w.win.SetMainMenu(m.main)
}

// update writes the names of the steps that undo and redo would do.
func (m *menus) update(f *layout.Frame) {
	if m.main == nil {
		return
	}
	undo, redo := stepName("Undo", f.Undo), stepName("Redo", f.Redo)
	if m.filled && undo == m.undo.name && redo == m.redo.name {
		return
	}
	m.filled, m.undo.name, m.redo.name = true, undo, redo
	m.undo.Disabled, m.redo.Disabled = f.Undo == "", f.Redo == ""
	m.label()
	m.main.Refresh()
}

func stepName(verb, step string) string {
	if step == "" {
		return verb
	}
	return verb + " " + lowerFirst(step)
}

// lowerFirst makes "Move L7" read on after "Undo".
func lowerFirst(s string) string {
	if s != "" && s[0] >= 'A' && s[0] <= 'Z' {
		return string(s[0]-'A'+'a') + s[1:]
	}
	return s
}

// upperFirst lets a sentence start with a capital.
func upperFirst(s string) string {
	if s != "" && s[0] >= 'a' && s[0] <= 'z' {
		return string(s[0]-'a'+'A') + s[1:]
	}
	return s
}
