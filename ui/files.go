package ui

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"

	"duskwire/layout/doc"
)

// fileEnding is the ending of scheme files.
const fileEnding = ".yaml"

// Names of the work that leaves the UI goroutine; work of one name supersedes
// itself.
const (
	workLoad = "load"
	workSave = "save"
	workList = "list"
)

// open asks for a file, after unsaved work is cared for.
func (w *Window) open() {
	w.keepWork(func() { w.chooseFile(false, w.load) })
}

// openExample puts the example on the desk. It has no file: Save asks for one.
func (w *Window) openExample() {
	w.keepWork(func() {
		Run(w.bridge, workLoad, func(context.Context) (*doc.Scheme, error) { return w.cfg.Example() },
			func(s *doc.Scheme, err error) {
				if err != nil {
					w.fail("The example could not be opened", err)
					return
				}
				w.put(s, "")
			})
	})
}

// load reads a scheme file.
func (w *Window) load(path string) {
	Run(w.bridge, workLoad, func(context.Context) (*doc.Scheme, error) { return w.cfg.Load(path) },
		func(s *doc.Scheme, err error) {
			if err != nil {
				w.fail("This file could not be opened", err)
				return
			}
			w.put(s, path)
		})
}

// dropped opens a file that was dropped on the window.
func (w *Window) dropped(_ fyne.Position, files []fyne.URI) {
	if len(files) > 0 && len(w.sheets) == 0 {
		w.keepWork(func() { w.load(files[0].Path()) })
	}
}

// put replaces what is on the desk.
func (w *Window) put(s *doc.Scheme, path string) {
	w.plan.Select()
	w.desk.Load(s, path)
	w.plan.ZoomFit()
	w.focusPlan()
}

// save writes the scheme to its file, asking for one when it has none, and
// does then, which may be nil, once it is written.
func (w *Window) save(then func()) {
	w.settle()
	path := w.desk.Frame().Path
	if path == "" {
		w.saveAs(then)
		return
	}
	w.write(path, then)
}

// saveAs asks for a place and writes the scheme there.
func (w *Window) saveAs(then func()) {
	w.settle()
	w.chooseFile(true, func(path string) { w.write(path, then) })
}

// settle ends what is half done: text that is being typed is committed, a
// gesture is dropped.
func (w *Window) settle() {
	w.properties.Flush()
	w.desk.Cancel()
}

// write hands the scheme as it is now to a worker. Edits made in the meantime
// stay unsaved; when something waits for a saved scheme they are written too.
func (w *Window) write(path string, then func()) {
	scheme := w.desk.Frame().Scheme
	Run(w.bridge, workSave, func(context.Context) (struct{}, error) { return struct{}{}, w.cfg.Save(path, scheme) },
		func(_ struct{}, err error) {
			if err != nil {
				w.fail("The scheme could not be saved", err)
				return
			}
			w.desk.Saved(scheme, path)
			w.status.SetHint("Saved "+filepath.Base(path), false)
			switch {
			case then == nil:
			case w.desk.Frame().Unsaved:
				w.save(then)
			default:
				then()
			}
		})
}

// withEnding adds the ending of scheme files to a bare name.
func withEnding(name string) string {
	if filepath.Ext(name) == "" {
		return name + fileEnding
	}
	return name
}

// listing is what is in a folder: folders first, then scheme files, by name.
type listing struct {
	folder  string
	folders []string
	files   []string
}

// readFolder lists a folder; hidden things are left out.
func readFolder(folder string) (listing, error) {
	folder, err := filepath.Abs(folder)
	if err != nil {
		return listing{}, err
	}
	entries, err := os.ReadDir(folder)
	if err != nil {
		var p *fs.PathError
		if errors.As(err, &p) {
			return listing{}, errors.New(p.Path + ": " + p.Err.Error())
		}
		return listing{}, err
	}
	out := listing{folder: folder}
	for _, e := range entries {
		name := e.Name()
		if strings.HasPrefix(name, ".") {
			continue
		}
		dir := e.IsDir()
		if e.Type()&fs.ModeSymlink != 0 {
			if info, err := os.Stat(filepath.Join(folder, name)); err == nil {
				dir = info.IsDir()
			}
		}
		switch ext := strings.ToLower(filepath.Ext(name)); {
		case dir:
			out.folders = append(out.folders, name)
		case ext == ".yaml" || ext == ".yml":
			out.files = append(out.files, name)
		}
	}
	return out, nil
}

// exists reports whether there is something at a path.
func exists(path string) bool {
	_, err := os.Lstat(path)
	return err == nil
}
