package ui

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/file"
	"duskwire/layout/journal"
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

// Steps of opening, as they are told while it takes long.
const (
	stepReading  = "reading"
	stepCircuits = "working out the circuits"
)

// openExample puts the example on the desk. It has no file: Save asks for one.
func (w *Window) openExample() {
	w.keepWork(func() {
		w.bring("Opening the example", "", w.cfg.Example, "The example could not be opened")
	})
}

// unreadTitle is said of a scheme file that could not be read.
const unreadTitle = "This file could not be opened"

// load reads a scheme file.
func (w *Window) load(path string) {
	read := w.cfg.Load
	w.bring("Opening "+filepath.Base(path), path, func() (*doc.Scheme, error) { return read(path) }, unreadTitle)
}

// bring reads a scheme and works it out in a worker, then puts it on the desk.
func (w *Window) bring(title, path string, read func() (*doc.Scheme, error), failed string) {
	prepare, before := w.desk.Preparer(), w.desk.Frame().Scheme
	mark := "" // set by the worker before anybody looks at it
	RunTask(w.bridge, Task{Key: workLoad, Title: title}, func(ctx context.Context, report Report) (*layout.Prepared, error) {
		report(0.1, stepReading)
		mark = FileMark(path) // before it is read: a change in between is then asked about
		s, err := read()
		if err == nil {
			err = ctx.Err()
		}
		if err != nil {
			return nil, err
		}
		report(0.5, stepCircuits)
		return prepare(s, path), nil
	}, func(p *layout.Prepared, err error) {
		if err != nil {
			w.failLoad(failed, err)
			return
		}
		put := func() {
			w.putPrepared(p)
			w.disk = onDisk{path: path, hash: mark}
			w.opened(path)
		}
		if f := w.desk.Frame(); f.Unsaved && f.Scheme != before {
			w.keepWork(put) // drawn on while it was read
			return
		}
		put()
	})
}

// failLoad tells why nothing was opened; that somebody cancelled it is no
// failure.
func (w *Window) failLoad(title string, err error) {
	if errors.Is(err, context.Canceled) {
		w.status.SetHint("Cancelled: nothing was opened", true)
		return
	}
	w.fail(title, err)
}

// put replaces what is on the desk.
func (w *Window) put(s *doc.Scheme, path string) { w.putPrepared(w.desk.Preparer()(s, path)) }

func (w *Window) putPrepared(p *layout.Prepared) {
	w.plan.Select()
	w.steps.box.Hide()
	w.circuit.Fresh()
	w.findings.Fresh()
	w.disk = onDisk{}
	w.puts++
	w.desk.Put(p)
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
// gesture is dropped. The figures of a large edit may still be on their way then:
// papers are made of what Desk.Whole returns, in a worker.
func (w *Window) settle() {
	w.properties.Flush()
	w.measured.Flush()
	w.desk.Cancel()
}

// write hands the scheme as it is now to a worker. Edits made in the meantime
// stay unsaved; when something waits for a saved scheme they are written too.
// Only one file is written at a time: what is asked for during that comes next.
func (w *Window) write(path string, then func()) {
	puts := w.puts
	if w.bridge.Busy(workSave) {
		w.saveNext = func() {
			if puts == w.puts {
				w.write(path, then)
			}
		}
		return
	}
	scheme, save, disk := w.desk.Frame().Scheme, w.cfg.Save, w.disk
	RunTask(w.bridge, Task{Key: workSave, Title: "Saving " + filepath.Base(path), Whole: true}, func(ctx context.Context, report Report) (onDisk, error) {
		if err := ctx.Err(); err != nil {
			return onDisk{}, err
		}
		report(-1, "writing")
		text, err := file.SchemeText(path, scheme)
		if err == nil {
			err = disk.guard(path, text)
		}
		if err != nil {
			return onDisk{}, err
		}
		return onDisk{path: path, hash: journal.Hash(text)}, save(path, scheme)
	}, func(now onDisk, err error) {
		if puts != w.puts {
			w.writtenLate(path, err)
			return
		}
		w.written(scheme, now, err, then)
	})
}

// writtenLate goes on after a save of what is no longer on the desk: the scheme
// that is there now must not take over its file.
func (w *Window) writtenLate(path string, err error) {
	next := w.saveNext
	w.saveNext = nil
	if err != nil {
		w.fail(filepath.Base(path)+" was not saved", err)
	} else {
		w.status.SetHint("Saved "+filepath.Base(path), false)
	}
	if next != nil {
		next()
	}
}

// written goes on after a save; now is what the file holds then.
func (w *Window) written(scheme *doc.Scheme, now onDisk, err error, then func()) {
	next := w.saveNext
	w.saveNext = nil
	var held *otherHands
	switch {
	case err == nil:
		w.disk = now
		w.desk.Saved(scheme, now.path)
		w.status.SetHint("Saved "+filepath.Base(now.path), false)
		w.opened(now.path)
	case errors.As(err, &held):
		if next == nil { // else the next save asks
			w.askOver(held, then)
		}
	case errors.Is(err, context.Canceled):
		w.status.SetHint("Cancelled: the scheme was not saved", true)
	default:
		w.fail("The scheme could not be saved", err)
	}
	if next != nil {
		next()
	}
	switch {
	case then == nil || err != nil:
	case next != nil || w.desk.Frame().Unsaved:
		w.save(then)
	default:
		then()
	}
}

// withEnding adds an ending to a bare name.
func withEnding(name, ending string) string {
	if filepath.Ext(name) == "" {
		return name + ending
	}
	return name
}

// listing is what is in a folder: folders first, then the files asked for, by name.
type listing struct {
	folder  string
	folders []string
	files   []string
}

// readFolder lists a folder with the files of the endings given; hidden things
// are left out.
func readFolder(folder string, endings []string) (listing, error) {
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
		switch {
		case dir:
			out.folders = append(out.folders, name)
		case slices.Contains(endings, strings.ToLower(filepath.Ext(name))):
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
