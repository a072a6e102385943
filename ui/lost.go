package ui

import (
	"context"
	"errors"
	"os"
	"strconv"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"duskwire/layout"
	"duskwire/layout/journal"
)

// foundAgain is the work that was found without its window.
type foundAgain struct {
	lost    []*journal.Lost
	since   []string // of each: what was done with its file later, "" for nothing
	marks   []string // of each: what its file held before the work, "" when that is gone
	skipped []error
}

// startJournal begins to keep unsaved work, and looks for what an earlier
// window left.
func (w *Window) startJournal() {
	if w.cfg.State == "" {
		return
	}
	w.journal = journal.Start(journal.Config{
		State: w.cfg.State, Quiet: w.cfg.JournalAfter,
		Wrote: func(e journal.Entry) { w.bridge.Tell(func() { w.journalWrote(e) }) },
		Failed: func(err error) {
			w.bridge.Tell(func() {
				w.status.SetHint("Unsaved work could not be kept against a crash: "+err.Error()+". Save often.", true)
			})
		},
	})
	w.findLost(false)
}

// keepUnsaved hands each unsaved state to the journal; a preview is not one.
func (w *Window) keepUnsaved(f *layout.Frame) {
	switch {
	case w.journal == nil || f.Preview:
	case !f.Unsaved:
		if w.noted != nil {
			w.journal.Clear()
			w.noted = nil
		}
		w.dropAdopted()
	case f.Scheme != w.noted:
		w.noted = f.Scheme
		w.journal.Note(f.Scheme, f.Path)
	}
}

// journalWrote ends the keeping of adopted work in its old place, once it is
// in the new one.
func (w *Window) journalWrote(e journal.Entry) {
	if w.adopted != nil && !e.Time.Before(w.adoptedAt) {
		w.dropAdopted()
	}
}

func (w *Window) dropAdopted() {
	if w.adopted != nil {
		w.adopted.Discard()
		w.adopted = nil
	}
}

// askLost offers the work that was put off.
func (w *Window) askLost() { w.findLost(true) }

// findLost looks for lost work in a worker and offers it. asked says that a
// person waits for the answer, so that nothing is an answer too.
func (w *Window) findLost(asked bool) {
	state := w.cfg.State
	if state == "" {
		return
	}
	Run(w.bridge, workLost, func(context.Context) (foundAgain, error) { return lookForLost(state), nil },
		func(f foundAgain, _ error) {
			switch {
			case len(f.lost) > 0:
				w.offer(f)
			case len(f.skipped) > 0:
				w.fail("Unsaved work could not be read", errors.Join(f.skipped...))
			case asked:
				w.tell("Work not saved", "There is none from earlier windows.")
			}
		})
}

// lookForLost finds lost work. What its file holds by now is no longer lost.
func lookForLost(state string) foundAgain {
	lost, skipped := journal.Find(state)
	out := foundAgain{skipped: skipped}
	for _, l := range lost {
		since, mark := "", ""
		if l.Path != "" {
			data, info, err := fileNow(l.Path)
			switch {
			case err != nil:
				since = "The file " + l.Path + " cannot be read now; saving makes it anew."
			case l.SavedAs(data):
				l.Discard()
				continue
			case info.ModTime().After(l.Time):
				since = "Its file was written since, at " + journal.When(info.ModTime(), time.Now()) +
					". You are asked before this work is saved over that."
			default:
				mark = journal.Hash(data)
			}
		}
		out.lost, out.since, out.marks = append(out.lost, l), append(out.since, since), append(out.marks, mark)
	}
	return out
}

// mostSchemeBytes is more than a scheme file may have.
const mostSchemeBytes = 32 << 20

// fileNow reads a scheme's file. It looks before it opens: to open a pipe is to
// wait for somebody who writes into it.
func fileNow(path string) ([]byte, os.FileInfo, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, nil, err
	}
	if !info.Mode().IsRegular() || info.Size() > mostSchemeBytes {
		return nil, nil, errors.New(path + " is no scheme file")
	}
	data, err := os.ReadFile(path)
	return data, info, err
}

// offer asks what becomes of the newest of the lost work, then of the next.
func (w *Window) offer(f foundAgain) {
	l := f.lost[0]
	rest := foundAgain{lost: f.lost[1:], since: f.since[1:], marks: f.marks[1:]}
	later := func(list []*journal.Lost) {
		for _, l := range list {
			l.Later()
		}
	}
	s := w.openSheet("Work that was not saved", fyne.NewSize(sheetWidth, 0), func(*sheet) fyne.CanvasObject {
		box := container.NewVBox(wrapped(l.Words(w.cfg.Now())))
		if l.Path != "" {
			box.Add(wrapped("It belongs to " + l.Path + ", which stays as it is until you save."))
		}
		if f.since[0] != "" {
			box.Add(wrapped(f.since[0]))
		}
		if n := len(rest.lost); n > 0 {
			box.Add(wrapped("There is more of earlier windows: " + strconv.Itoa(n) + ". It is asked about next, or under File ▸ Work not saved."))
		}
		for _, err := range f.skipped {
			box.Add(wrapped(upperFirst(err.Error()) + "."))
		}
		return box
	},
		answer{text: "Look later", cancel: true, then: func() { later(f.lost) }},
		answer{text: "Throw away", then: func() {
			l.Discard()
			if len(rest.lost) > 0 {
				w.offer(rest)
			}
		}},
		answer{text: "Open it", main: true, then: func() {
			later(rest.lost)
			w.keepWorkOr(func() { w.adopt(l, f.marks[0]) }, l.Later)
		}})
	s.focus(s.buttons[2])
}

// adopt puts lost work on the desk, as unsaved. Its old keeping stays until
// this window keeps it. mark is what its file held before.
func (w *Window) adopt(l *journal.Lost, mark string) {
	prepare, read := w.desk.Preparer(), w.cfg.Read
	RunTask(w.bridge, Task{Key: workLoad, Title: "Opening " + l.Name()}, func(ctx context.Context, report Report) (*layout.Prepared, error) {
		s, err := read(l.Name(), l.Text)
		if err != nil {
			return nil, err
		}
		report(0.5, stepCircuits)
		return prepare(s, l.Path).Unsaved(), ctx.Err()
	}, func(p *layout.Prepared, err error) {
		if err != nil {
			l.Later()
			w.failLoad("This work could not be opened; it is still kept", err)
			return
		}
		w.dropAdopted()
		w.adopted, w.adoptedAt = l, time.Now()
		w.putPrepared(p)
		w.disk = onDisk{path: l.Path, hash: mark}
		w.status.SetHint("This work is open again and not saved yet", false)
	})
}
