package ui

import (
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"

	"duskwire/layout/journal"
)

// fileMenu makes the menu of what is done with files.
func (w *Window) fileMenu(m *menus) *fyne.Menu {
	quit := w.item("Quit", "Ctrl+Q", control(fyne.KeyQ), w.quit)
	quit.IsQuit = true
	m.recent = w.item("Open recent", "", nil, func() {})
	m.recent.ChildMenu = fyne.NewMenu("")
	return m.menu("File",
		w.item("New…", "Ctrl+N", control(fyne.KeyN), w.newScheme),
		w.item("Open…", "Ctrl+O", control(fyne.KeyO), w.open),
		m.recent,
		w.item("Open example", "Ctrl+E", control(fyne.KeyE), w.openExample),
		w.item("Work not saved…", "", nil, w.askLost),
		nil,
		w.item("Save", "Ctrl+S", control(fyne.KeyS), func() { w.save(nil) }),
		w.item("Save as…", "Ctrl+Shift+S", controlShift(fyne.KeyS), func() { w.saveAs(nil) }),
		nil,
		w.item("Pages…", "Ctrl+P", control(fyne.KeyP), w.showPages),
		w.packMenu(m),
		w.item("Price list…", "Ctrl+Shift+Q", controlShift(fyne.KeyQ), w.showPrices),
		w.item("Save data files…", "Ctrl+Shift+U", controlShift(fyne.KeyU), w.saveData),
		w.item("Save picture…", "", nil, w.savePicture),
		w.item("Save night picture…", "", nil, w.saveNight),
		w.item("Save standing view…", "", nil, w.saveStanding),
		w.item("Save findings…", "", nil, func() { w.saveReport(findingsReport) }),
		w.item("Save readings…", "", nil, func() { w.saveReport(readingsReport) }),
		w.item("Save measured readings…", "", nil, func() { w.saveReport(measuredReport) }),
		w.item("Save lengths…", "", nil, func() { w.saveReport(lengthsReport) }),
		nil, w.item("Mark as issued for site…", "", nil, w.markIssued),
		nil, quit)
}

// listRecent fills the list of recent files. Those that are gone stay in it,
// greyed, with the reason, until they are forgotten.
func (m *menus) listRecent(w *Window) {
	if m.recent == nil {
		return
	}
	var items []*fyne.MenuItem
	gone := false
	for _, path := range w.memory.Recent {
		label := filepath.Base(path) + "   " + shortFolder(path)
		i := fyne.NewMenuItem(label, func() {
			if len(w.sheets) == 0 {
				w.keepWork(func() { w.load(path) })
			}
		})
		if w.missing[path] {
			i.Label += "   (not there now)"
			i.Disabled, gone = true, true
		}
		items = append(items, i)
	}
	if gone {
		items = append(items, fyne.NewMenuItemSeparator(), fyne.NewMenuItem("Forget those that are not there", w.forgetMissing))
	}
	if len(items) == 0 {
		none := fyne.NewMenuItem("No file was opened yet", nil)
		none.Disabled = true
		items = append(items, none)
	}
	m.recent.ChildMenu.Items = items
	if m.main != nil {
		m.main.Refresh()
	}
}

func (w *Window) forgetMissing() {
	gone := w.missing
	w.remember(func(m *journal.Memory) {
		for path := range gone {
			m.Forget(path)
		}
	})
}

// longestFolder is how many letters of a folder a menu shows.
const longestFolder = 48

// shortFolder is the folder of a file as short as a menu wants it: the home
// folder is ~, and what is too long loses its beginning.
func shortFolder(path string) string {
	folder := filepath.Dir(path)
	if home, err := os.UserHomeDir(); err == nil && home != "" && home != "/" {
		if rest, ok := strings.CutPrefix(folder, home); ok && (rest == "" || rest[0] == filepath.Separator) {
			folder = "~" + rest
		}
	}
	letters := []rune(folder)
	if len(letters) > longestFolder {
		folder = "…" + string(letters[len(letters)-longestFolder:])
	}
	return folder
}
