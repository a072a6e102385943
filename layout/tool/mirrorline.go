package tool

import (
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

const (
	mirrorFrom = "Click a point of the line to mirror about; Esc goes back to Select"
	mirrorTo   = "Click another point of the line; Shift keeps to 15°, Esc takes back"
)

// mirroring mirrors the selection about a line that is picked by two points.
type mirroring struct {
	set   *Defaults
	ids   []doc.ID
	begun bool
	from  geom.Point
}

// NewMirror returns the tool that mirrors things about a line.
func NewMirror(d *Defaults, ids []doc.ID) Tool { return mirroring{set: d, ids: ids} }

// Name implements Tool.
func (mirroring) Name() string { return NameSelect }

// Handle implements Tool.
func (t mirroring) Handle(e Event, w *World) Verdict {
	back := Verdict{Cancel: true, Next: NewSelect(t.set), Hint: selectHint, Used: true}
	how := snap{points: true, leave: t.ids}
	if t.begun {
		how.from, how.step = &t.from, fine
	}
	to := snapTo(e, w, how)
	switch {
	case e.Kind == Cancel || e.Kind == Key && e.Key == KeyEscape && !t.begun:
		return back
	case e.Kind == Key && e.Key == KeyEscape:
		t.begun = false
		return Verdict{Cancel: true, Next: t, Hint: mirrorFrom, Used: true}
	case e.Kind == Down && e.Button == LeftButton && !t.begun:
		t.begun, t.from = true, to.at
	case e.Kind == Down && e.Button == LeftButton && to.at != t.from:
		back.Cancel, back.Commit = false, edit.Mirror{IDs: t.ids, A: t.from, B: to.at}
		return back
	}
	v := Verdict{Next: t, Hint: mirrorFrom, Used: e.Kind == Key && e.Key != "", Overlay: Overlay{Snap: to.mark(), NoteAt: to.at}}
	if arrowKey(e) {
		v.Used = false // it moves the pointer
	}
	if t.begun {
		v.Hint = mirrorTo
		if to.at != t.from {
			v.Preview = edit.Mirror{IDs: t.ids, A: t.from, B: to.at}
			v.Overlay.Note = measure(t.from, to.at)
			v.Overlay.Lines = [][]geom.Point{{t.from, to.at}}
		}
	}
	return v
}

// arrowKey reports whether the event is one of the arrow keys.
func arrowKey(e Event) bool {
	switch e.Key {
	case KeyUp, KeyDown, KeyLeft, KeyRight:
		return e.Kind == Key
	}
	return false
}
