package ui

import (
	"context"

	"fyne.io/fyne/v2"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
	"duskwire/layout/geom"
	"duskwire/layout/tool"
)

// clipboardName is what messages about a pasted text call it.
const clipboardName = "clipboard"

// copied returns what a copy of the selection takes, with the runs that lie
// between its things; nil, with the reason told, for nothing.
func (w *Window) copied() *doc.Fragment {
	s := w.desk.Frame().Scheme
	f, ok := doc.FragmentOf(s, edit.Together(s, w.plan.Selection()))
	if !ok {
		w.refuse("Nothing is selected, so nothing was copied")
		return nil
	}
	return f
}

// copy puts the selection on the clipboard as text.
func (w *Window) copy() { w.putOnClipboard() }

func (w *Window) putOnClipboard() bool {
	w.properties.Flush()
	f := w.copied()
	if f == nil {
		return false
	}
	text, err := file.WriteFragment(f)
	if err != nil {
		w.refuse(err.Error())
		return false
	}
	fyne.CurrentApp().Clipboard().SetContent(string(text))
	w.status.SetHint("Copied "+edit.Title(edit.Paste{Fragment: f, Verb: "Copy"}, f.Scheme)[len("Copy "):]+"; Ctrl+V pastes at the pointer, here or in another window", false)
	return true
}

// cut copies the selection and takes it out; what is locked stays, and then
// nothing is copied either.
func (w *Window) cut() {
	ids := edit.Together(w.desk.Frame().Scheme, w.plan.Selection())
	op := edit.Cut{IDs: ids}
	if _, err := op.Apply(w.desk.Frame().Scheme); err != nil {
		w.refuse(err.Error())
		return
	}
	if w.putOnClipboard() {
		w.commit(op)
	}
}

// paste adds what is on the clipboard at the pointer. The text may be long and
// from anywhere, so it is read in a worker.
func (w *Window) paste() {
	text := fyne.CurrentApp().Clipboard().Content()
	if !file.IsFragment([]byte(text)) {
		w.refuse("The clipboard holds no part of a scheme; copy something from a plan first")
		return
	}
	stock := *w.desk.Frame().Stock
	Run(w.bridge, "paste", func(context.Context) (edit.Paste, error) {
		f, err := file.ReadFragment(clipboardName, []byte(text), stock)
		if err != nil {
			return edit.Paste{}, err
		}
		return edit.NewPaste(f, geom.Point{}, doc.NewID), nil
	}, func(op edit.Paste, err error) {
		if err != nil {
			w.refuse(err.Error())
			return
		}
		w.putIn(op, "Paste", true)
	})
}

// duplicate pastes a copy of the selection beside it, past the clipboard.
func (w *Window) duplicate() {
	w.properties.Flush()
	if f := w.copied(); f != nil {
		w.putIn(edit.NewPaste(f, geom.Point{}, doc.NewID), "Duplicate", false)
	}
}

// putIn pastes beside where it was cut, or at the pointer, and selects the copy.
func (w *Window) putIn(op edit.Paste, verb string, atPointer bool) {
	s := w.desk.Frame().Scheme
	at, inside := w.plan.Pointer()
	op.By = tool.PasteAt(s, op.Fragment, nil)
	if inside && atPointer {
		op.By = tool.PasteAt(s, op.Fragment, &at)
	}
	op.Verb = verb
	if w.commit(op) {
		w.plan.Select(op.Pasted()...)
	}
}
