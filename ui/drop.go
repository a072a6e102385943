package ui

import (
	"path/filepath"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
)

// dropped takes a file that was dropped on the window: a scheme is opened, a
// picture goes under the plan, a photometric file is looked at for the fitting of the
// selected lamp.
func (w *Window) dropped(_ fyne.Position, files []fyne.URI) {
	switch {
	case len(files) == 0:
		return
	case len(w.sheets) > 0:
		w.status.SetHint("Answer the open question first, then drop the file again", true)
		return
	case len(files) > 1:
		w.status.SetHint("Drop one file at a time: found "+strconv.Itoa(len(files))+", nothing was opened", true)
		return
	}
	path := files[0].Path()
	switch ending := strings.ToLower(filepath.Ext(path)); ending {
	case ".yaml", ".yml":
		w.keepWork(func() { w.load(path) })
	case ".png", ".jpg", ".jpeg", ".pdf":
		w.importPicture(path)
	case ".ies", ".ldt":
		w.dropLight(path)
	default:
		w.tell("This file cannot be opened here", filepath.Base(path)+": found the ending "+strconv.Quote(ending)+
			", expected a scheme (.yaml), a picture (.png, .jpg, .pdf) or a photometric file (.ies, .ldt) for the lamp that is selected.")
	}
}
