package ui

import (
	"errors"
	"io/fs"
	"path/filepath"
	"strconv"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"duskwire/layout/file"
	"duskwire/layout/journal"
)

// onDisk is what a window knows of the file of its scheme. Another window or a
// text editor may write the same file, and the last to save must not win in
// silence.
type onDisk struct {
	path string // "" when nothing is known: nothing is compared then
	hash string // of the file as last read or saved here; "" when it was not there
	keep string // where what others saved goes before it is written over; "" nowhere
}

// FileMark names what the file at the path holds now, for Config.Mark. It is ""
// when the file cannot be read.
func FileMark(path string) string {
	if path == "" {
		return ""
	}
	data, _, err := fileNow(path)
	if err != nil {
		return ""
	}
	return journal.Hash(data)
}

// otherHands holds a save back: the file is not what this window left there.
type otherHands struct {
	now     onDisk // with a name to keep what is there
	changed time.Time
}

func (*otherHands) Error() string { return "the file was changed by other hands" }

// guard runs in a worker before the file at the path is written with text. It
// returns *otherHands when the file holds what nobody here has seen, and keeps
// that once a person has chosen to write over it. A file that is gone does not
// hold a save back.
func (d onDisk) guard(path string, text []byte) error {
	if d.path != path {
		return nil
	}
	data, info, err := fileNow(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	switch hash := journal.Hash(data); {
	case hash == journal.Hash(text): // nothing would be lost
		return nil
	case hash != d.hash:
		keep := freeName(path + "." + info.ModTime().Format("2006-01-02-150405"))
		return &otherHands{onDisk{path, hash, keep}, info.ModTime()}
	case d.keep != "":
		return file.KeepCopy(path, d.keep, data)
	}
	return nil
}

// freeName adds the ending of kept versions to a name, and a number when there
// is such a file.
func freeName(stem string) string {
	const ending = ".bak"
	name := stem + ending
	for i := 2; exists(name); i++ {
		name = stem + "-" + strconv.Itoa(i) + ending
	}
	return name
}

// askOver asks what becomes of a save that was held back; then is done once the
// scheme is saved.
func (w *Window) askOver(held *otherHands, then func()) {
	name := filepath.Base(held.now.path)
	s := w.openSheet(name+" was changed by other hands", fyne.NewSize(sheetWidth, 0), func(*sheet) fyne.CanvasObject {
		return container.NewVBox(
			wrapped("Another window or program changed the file at "+journal.When(held.changed, w.cfg.Now())+
				", after it was read or saved here. Nothing has been written."),
			wrapped("If you save over it, the other is kept beside it as "+filepath.Base(held.now.keep)+"."))
	},
		answer{text: "Leave it", cancel: true},
		answer{text: "Save over it", then: func() {
			w.disk = held.now
			w.write(held.now.path, then)
		}},
		answer{text: "Save under another name", main: true, then: func() { w.saveAs(then) }})
	s.focus(s.buttons[2])
}
