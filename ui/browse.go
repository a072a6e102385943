package ui

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"duskwire/ui/panel"
)

// browser is the sheet that asks for a file. It only ever names a path: the
// usual dialog would empty an existing file before the last version could be
// kept as a backup.
type browser struct {
	choice
	win  *Window
	done func(path string)

	sheet *sheet
	where *sheetEntry // the folder shown
	entry *sheetEntry // of the file's name
	list  *sheetList
	note  *widget.Label
	empty *widget.Label
	now   listing
}

// choice says what file is asked for.
type choice struct {
	title, verb string
	saving      bool
	endings     []string // of the files listed; the first is added to a bare name
	name        string   // proposed
	loses       string   // said before an existing file is written over
	// folder asks for a folder: the name is that of one within the folder shown, to
	// be made where there is none, or "" for the one shown.
	folder bool
	more   func(*sheet) fyne.CanvasObject // a further row of the sheet; nil: none
}

// chooseFile asks for a scheme file to open or to save to.
func (w *Window) chooseFile(saving bool, done func(path string)) {
	c := choice{title: "Open a scheme", verb: "Open", endings: []string{fileEnding, ".yml"}}
	if saving {
		c.title, c.verb, c.saving, c.name = "Save the scheme as", "Save", true, w.stem()+fileEnding
		c.loses = "There is a file of this name already. Its present content is kept beside it, with the ending .bak."
		if p := w.desk.Frame().Path; p != "" {
			c.name = filepath.Base(p)
		}
	}
	w.chooseFrom(c, done)
}

// chooseFrom asks for a file.
func (w *Window) chooseFrom(c choice, done func(path string)) {
	b := &browser{choice: c, win: w, done: done, note: wrapped("")}
	b.note.Importance = widget.DangerImportance
	b.note.Hide()
	b.sheet = w.openSheet(c.title, fyne.NewSize(560, 380), b.build,
		answer{text: "Cancel", cancel: true}, answer{text: c.verb, main: true, check: b.accept})
	// The folder stands there before its list comes: a name given in the meantime
	// belongs to it, not to wherever the program was started.
	start := w.startFolder()
	if full, err := filepath.Abs(start); err == nil {
		start = full
	}
	b.now.folder = start
	b.where.SetText(start)
	b.goTo(start)
	b.sheet.focus(b.entry)
	b.entry.TypedShortcut(&fyne.ShortcutSelectAll{}) // so that typing replaces it
}

// startFolder is where the file of the scheme lies, or the home folder.
func (w *Window) startFolder() string {
	if p := w.desk.Frame().Path; p != "" {
		return filepath.Dir(p)
	}
	if w.cfg.Folder != "" {
		return w.cfg.Folder
	}
	if f := w.memory.Folder; f != "" && exists(f) {
		return f
	}
	if home, err := os.UserHomeDir(); err == nil {
		return home
	}
	return "."
}

func (b *browser) build(s *sheet) fyne.CanvasObject {
	b.sheet = s
	b.where = newSheetEntry(s, "", "folder")
	b.where.OnSubmitted = func(text string) { b.goTo(text) }
	what, caption, none := "file name", "File", "There are no folders here and no files that end in "+strings.Join(b.endings, ", ")+"."
	if b.folder {
		what, caption, none = "new folder, or empty for the one above", "New", "There are no folders here."
	}
	b.entry = newSheetEntry(s, b.name, what)
	b.list = newSheetList(s, func() int { return len(b.now.folders) + len(b.now.files) }, b.fill)
	b.list.OnSelected = b.pick
	up := newSheetButton(s, "Up", func() { b.goTo(filepath.Dir(b.now.folder)) })
	top := container.New(captioned{short}, widget.NewLabel("Folder"), container.NewBorder(nil, nil, nil, up.object(), b.where.object()))
	bottom := container.NewVBox(captionedShort(caption, b.entry.object()))
	if b.more != nil {
		bottom.Add(b.more(s))
	}
	bottom.Add(b.note)
	b.empty = wrapped(none)
	b.empty.Importance = widget.LowImportance
	b.empty.Hide()
	return container.NewBorder(top, bottom, nil, nil, panel.Framed(container.NewStack(b.list, b.empty)))
}

// captionedShort is a short caption with its entry or list.
func captionedShort(name string, o fyne.CanvasObject) fyne.CanvasObject {
	return container.New(captioned{short}, widget.NewLabel(name), o)
}

func (b *browser) fill(i int, icon *widget.Icon, label *widget.Label) {
	if n := len(b.now.folders); i < n {
		icon.SetResource(theme.FolderIcon())
		label.SetText(b.now.folders[i])
	} else if i-n < len(b.now.files) {
		icon.SetResource(theme.DocumentIcon())
		label.SetText(b.now.files[i-n])
	}
}

// pick goes into a folder or takes a file's name; a file that is picked twice
// is taken.
func (b *browser) pick(i widget.ListItemID) {
	b.list.Unselect(i)
	if n := len(b.now.folders); i < n {
		b.goTo(filepath.Join(b.now.folder, b.now.folders[i]))
	} else if i-n < len(b.now.files) {
		file := b.now.files[i-n]
		if b.entry.Text == file {
			b.sheet.key(fyne.KeyReturn)
			return
		}
		b.entry.SetText(file)
	}
}

// goTo lists another folder.
func (b *browser) goTo(folder string) {
	Run(b.win.bridge, workList, func(context.Context) (listing, error) { return readFolder(folder, b.endings) },
		func(l listing, err error) {
			if err != nil {
				b.complain(err.Error())
				return
			}
			b.complain("")
			b.now = l
			b.where.SetText(l.folder)
			if b.list.Length() == 0 {
				b.empty.Show()
			} else {
				b.empty.Hide()
			}
			b.list.UnselectAll()
			b.list.ScrollToTop()
			b.list.Refresh()
		})
}

func (b *browser) complain(text string) {
	b.note.SetText(text)
	if text == "" {
		b.note.Hide()
	} else {
		b.note.Show()
	}
}

// accept checks the name and hands the path on.
func (b *browser) accept() bool {
	if b.folder {
		path := filepath.Join(b.where.Text, b.entry.Text)
		if filepath.IsAbs(b.entry.Text) {
			path = b.entry.Text
		}
		b.win.memory.Folder = filepath.Dir(path)
		b.after(func() { b.done(path) })
		return true
	}
	if b.entry.Text == "" {
		b.complain("Give the file a name, such as garden" + b.endings[0] + ".")
		return false
	}
	path := b.entry.Text
	if !filepath.IsAbs(path) {
		path = filepath.Join(b.where.Text, path)
	}
	if !b.saving {
		b.after(func() { b.done(path) })
		return true
	}
	path = withEnding(path, b.endings[0])
	if ending := strings.ToLower(filepath.Ext(path)); len(b.endings) > 1 && b.endings[0] != fileEnding && !slices.Contains(b.endings, ending) {
		b.complain("Found the ending " + ending + ", expected one of " + strings.Join(b.endings, ", ") + ": it chooses the form.")
		return false
	}
	b.win.memory.Folder = filepath.Dir(path)
	b.after(func() { b.win.replace(path, b.loses, b.done) })
	return true
}

// after does something once the sheet is closed.
func (b *browser) after(do func()) {
	for i := range b.sheet.answer {
		if b.sheet.answer[i].main {
			b.sheet.answer[i].then = do
		}
	}
}

// replace asks before an existing file is written over.
func (w *Window) replace(path, loses string, done func(string)) {
	Run(w.bridge, workList, func(context.Context) (bool, error) { return exists(path), nil }, func(there bool, _ error) {
		if !there || path == w.desk.Frame().Path {
			done(path)
			return
		}
		s := w.openSheet("Replace "+filepath.Base(path)+"?", fyne.NewSize(sheetWidth, 0), func(*sheet) fyne.CanvasObject {
			return wrapped(loses)
		}, answer{text: "Cancel", cancel: true}, answer{text: "Replace", main: true, then: func() { done(path) }})
		s.focus(s.buttons[0])
	})
}

// sheetList is a list that knows Escape; Return picks, as a click does.
type sheetList struct {
	widget.List
	sheet *sheet
}

func newSheetList(s *sheet, length func() int, fill func(int, *widget.Icon, *widget.Label)) *sheetList {
	l := &sheetList{sheet: s}
	l.Length = length
	l.CreateItem = func() fyne.CanvasObject {
		return container.NewBorder(nil, nil, widget.NewIcon(nil), nil, widget.NewLabel(""))
	}
	l.UpdateItem = func(i widget.ListItemID, o fyne.CanvasObject) {
		parts := o.(*fyne.Container).Objects
		fill(i, parts[1].(*widget.Icon), parts[0].(*widget.Label))
	}
	l.ExtendBaseWidget(l)
	return l
}

// TypedKey implements fyne.Focusable.
func (l *sheetList) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyEscape:
		l.sheet.key(e.Name)
	case fyne.KeyReturn, fyne.KeyEnter:
		l.List.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	default:
		l.List.TypedKey(e)
	}
}
