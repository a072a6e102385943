package tool

import (
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

const (
	mirrorFrom = "Click a point of the line to mirror about or type =x,y; Esc goes back to Select"
	mirrorTo   = "Click another point of the line or type <90, @1,2 or =4,2; Shift keeps to 15°, Esc takes back"
)

// mirroring mirrors the selection about a line that is picked by two points.
type mirroring struct {
	set   *Defaults
	ids   []doc.ID
	begun bool
	from  geom.Point
	typed entry
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
	next, typed := t.typed.answer(e, t.begun)
	t.typed = next
	at, err := t.aim(to, gridOf(e, w))
	press := e.Kind == Down && e.Button == LeftButton || typed == typedEnd || e.Kind == Key && e.Key == KeyReturn
	refused := ""
	switch {
	case typed == typedOn:
	case e.Kind == Cancel || e.Kind == Key && e.Key == KeyEscape && !t.begun:
		return back
	case e.Kind == Key && e.Key == KeyEscape:
		return Verdict{Cancel: true, Next: mirroring{set: t.set, ids: t.ids}, Hint: mirrorFrom, Used: true}
	case press && err != nil:
		refused = err.Error()
	case press && !t.begun:
		t.begun, t.from, t.typed = true, at, ""
	case press && at == t.from:
		refused = "The line needs another point"
	case press:
		back.Cancel, back.Commit = false, edit.Mirror{IDs: t.ids, A: t.from, B: at}
		return back
	}
	v := t.show(to, at, err)
	v.Refused = refused
	v.Used = (e.Kind == Key && e.Key != "" || typed != notTyped) && !arrowKey(e) // an arrow moves the pointer
	return v
}

// aim returns where the pointer was pulled to, or the point that is typed.
func (t mirroring) aim(to snapped, grid geom.Length) (geom.Point, error) {
	switch {
	case t.typed == "":
		return to.at, nil
	case !t.begun:
		return t.typed.coordinates()
	}
	return t.typed.heading(t.from, to, grid, usualLeg)
}

// show previews the mirrored things.
func (t mirroring) show(to snapped, at geom.Point, err error) Verdict {
	v := Verdict{Next: t, Hint: mirrorFrom, Overlay: Overlay{Snap: to.mark(), NoteAt: to.at}}
	v.Overlay.typed(t.typed, at, err)
	if !t.begun {
		return v
	}
	v.Hint = mirrorTo
	if err == nil && at != t.from {
		v.Preview = edit.Mirror{IDs: t.ids, A: t.from, B: at}
		v.Overlay.Note = measure(t.from, at)
		v.Overlay.Lines = [][]geom.Point{{t.from, at}}
	}
	v.Cancel = v.Preview == nil
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
