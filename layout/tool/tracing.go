package tool

import (
	"fmt"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// tracing draws an area or a line of the ground corner by corner, or an area
// as a rectangle by dragging. Until it is finished nothing of it is in the
// scheme, so that giving up leaves nothing.
type tracing struct {
	set     *Defaults
	what    *shape
	drawing bool
	corners []geom.Point
	typed   entry
	down    geom.Point // where the button went down last
	held    bool       // the button is down
}

// Name implements Tool.
func (t tracing) Name() string { return t.what.name }

// Handle implements Tool.
func (t tracing) Handle(e Event, w *World) Verdict {
	switch e.Kind {
	case Down:
		if e.Button == LeftButton {
			return t.press(e, w)
		}
	case Up:
		if e.Button == LeftButton && t.held {
			return t.release(e, w)
		}
	case Cancel:
		return t.rest()
	case Key:
		return t.key(e, w)
	case Rune:
		if t.what.area && !t.drawing && (e.Rune == 'o' || e.Rune == 'O') {
			return otherShape(t.set)
		}
		if t.typed.takes(e.Rune, t.drawing) {
			t.typed = t.typed.with(e.Rune)
			return t.used(e, w)
		}
	}
	return t.show(e, w)
}

// rest returns the verdict that goes back to waiting for a first corner.
func (t tracing) rest() Verdict {
	next := tracing{set: t.set, what: t.what}
	return Verdict{Next: next, Hint: next.hint(), Used: true}
}

func (t tracing) hint() string {
	noun := t.what.noun(t.set)
	switch {
	case !t.drawing && t.what.area:
		return "Click the first corner of the " + noun + ", drag a rectangle, or type =x,y; O: round; Esc goes back to Select"
	case !t.drawing:
		return "Click where the " + noun + " starts, or type =x,y; Esc goes back to Select"
	case len(t.corners) < t.what.least:
		return "Click the next corner or " + typeHint + "; Shift keeps to 15°, Esc cancels"
	}
	return "Click the next corner or " + typeHint + "; Return ends, Backspace takes back, Esc cancels"
}

// target returns where the pointer is pulled to: the first corner when a click
// there closes the shape, else as every corner is.
func (t tracing) target(e Event, w *World) snapped {
	how := snap{}
	if t.drawing {
		last := t.last()
		how.from, how.step = &last, fine
		if n := len(t.corners); n > 1 {
			how.before = &t.corners[n-2]
		}
	}
	if len(t.corners) > 2 {
		how.closing = &t.corners[0]
	}
	to := snapTo(e, w, how)
	if how.closing != nil && !e.Mods.Alt && geom.Distance(e.At, t.corners[0]) <= spotReach(e) {
		w.caught = Caught{At: t.corners[0], Rank: geom.RankVertex, Word: "First corner, closes it"}
		return snapped{at: t.corners[0], rank: geom.RankVertex}
	}
	return to
}

func (t tracing) last() geom.Point { return t.corners[len(t.corners)-1] }

// aim returns the next corner, by what was typed if anything was.
func (t tracing) aim(e Event, w *World) (geom.Point, snapped, error) {
	to := t.target(e, w)
	switch {
	case t.typed == "":
		return to.at, to, nil
	case !t.drawing:
		at, err := t.typed.coordinates()
		return at, to, err
	}
	at, err := t.typed.aim(t.last(), to, gridOf(e, w))
	return at, to, err
}

// show returns the verdict for what only moves: the shape so far.
func (t tracing) show(e Event, w *World) Verdict {
	v := Verdict{Hint: t.hint(), Next: t}
	if t.dragsRectangle(e) {
		return t.showRectangle(e, w, v)
	}
	at, to, err := t.aim(e, w)
	v.Overlay = Overlay{Snap: to.mark(), NoteAt: to.at, Typed: t.typed.shown()}
	if t.typed != "" {
		v.Overlay.Snap = nil
		if err == nil {
			v.Overlay.Snap, v.Overlay.NoteAt, v.Overlay.Leads = &at, at, &at
		}
	}
	if !t.drawing {
		if t.typed == "" {
			v.Overlay.Note = capital(t.what.noun(t.set))
		}
		return v
	}
	if err != nil {
		at = t.last()
	}
	path := append(t.corners[:len(t.corners):len(t.corners)], at)
	if t.what.area && len(path) > 2 {
		path = append(path, path[0])
	}
	v.Overlay.Lines = [][]geom.Point{path}
	v.Overlay.Note = t.note(at)
	return v
}

// note measures the edge being drawn and what it makes of the whole.
func (t tracing) note(at geom.Point) string {
	last := t.last()
	whole := append(t.corners[:len(t.corners):len(t.corners)], at)
	switch {
	case last == at:
		return ""
	case len(t.corners) == 1:
		return measure(last, at)
	case t.what.area:
		return fmt.Sprintf("%s, %s", measure(last, at), squareMetres(whole))
	}
	return fmt.Sprintf("%s, in all %.2f m", measure(last, at), geom.PathLength(whole).Metres())
}

// squareMetres writes the area of a ring, half of what ringSize gives.
func squareMetres(ring []geom.Point) string {
	m := float64(geom.Metre)
	return fmt.Sprintf("%.1f m²", ringSize(ring)/2/(m*m))
}

// used is show for a key that the tool has taken.
func (t tracing) used(e Event, w *World) Verdict {
	v := t.show(e, w)
	v.Used = true
	return v
}

func (t tracing) refuse(e Event, w *World, why string) Verdict {
	v := t.used(e, w)
	v.Refused = why
	return v
}

func (t tracing) press(e Event, w *World) Verdict {
	if e.Clicks > 1 {
		// The first click of the two has placed the corner, or closed the shape.
		if len(t.corners) >= t.what.least {
			return t.finish(e, w)
		}
		return t.show(e, w)
	}
	t.held, t.down = true, e.At
	return t.accept(e, w)
}

// accept takes the place under the pointer, or what was typed, as the next
// corner; the first one again closes the shape.
func (t tracing) accept(e Event, w *World) Verdict {
	at, _, err := t.aim(e, w)
	switch {
	case err != nil:
		return t.refuse(e, w, err.Error())
	case !t.drawing:
		t.drawing = true
	case len(t.corners) > 2 && at == t.corners[0]:
		if !t.what.area {
			t.corners = append(t.corners[:len(t.corners):len(t.corners)], at)
		}
		return t.finish(e, w)
	case at == t.last():
		return t.refuse(e, w, "The next corner must be somewhere else")
	}
	t.corners, t.typed = append(t.corners[:len(t.corners):len(t.corners)], at), ""
	return t.used(e, w)
}

// release ends an edge, or a rectangle, that was drawn by holding the button.
func (t tracing) release(e Event, w *World) Verdict {
	rectangle := t.dragsRectangle(e)
	t.held = false
	if !t.drawing || geom.Distance(t.down, e.At) <= 2*e.Reach {
		return t.show(e, w)
	}
	if rectangle {
		return t.endRectangle(e, w)
	}
	if at, _, err := t.aim(e, w); err != nil || at == t.last() {
		return t.show(e, w)
	}
	return t.accept(e, w)
}

// finish adds the shape, if its corners make one.
func (t tracing) finish(e Event, w *World) Verdict {
	n := len(t.corners)
	switch {
	case n < t.what.least:
		return t.refuse(e, w, fmt.Sprintf("A %s needs %d corners before it can end, it has %d", t.what.noun(t.set), t.what.least, n))
	case t.what.area && ringSize(t.corners) == 0:
		return t.refuse(e, w, "The corners lie in one line and enclose nothing")
	case t.what.area && crosses(t.corners):
		return t.refuse(e, w, "The edges cross; Backspace takes corners back")
	}
	v := t.rest()
	id := t.set.id()
	v.Commit, v.Select, v.Selects = t.what.add(t.set, w.Scheme, id, t.corners), []doc.ID{id}, true
	return v
}

// crosses reports whether two edges of a ring cross.
func crosses(ring []geom.Point) bool {
	n := len(ring)
	for i := range ring {
		for j := i + 1; j < n; j++ {
			if _, ok := geom.Cross(ring[i], ring[(i+1)%n], ring[j], ring[(j+1)%n]); ok {
				return true
			}
		}
	}
	return false
}

func (t tracing) key(e Event, w *World) Verdict {
	switch {
	case t.typed != "" && e.Key == KeyEscape:
		t.typed = ""
	case t.typed != "" && e.Key == KeyBackSpace:
		t.typed = t.typed.back()
	case t.typed != "" && e.Key == KeyReturn:
		return t.accept(e, w)
	case !t.drawing && e.Key == KeyEscape:
		return Verdict{Next: NewSelect(t.set), Hint: selectHint, Used: true}
	case !t.drawing:
		// Delete and the arrows work on what was drawn last; the tool stays.
		v := selecting{set: t.set}.key(e, w)
		v.Next, v.Hint = t, t.hint()
		return v
	case e.Key == KeyEscape, e.Key == KeyBackSpace && len(t.corners) == 1:
		return t.rest()
	case e.Key == KeyBackSpace:
		t.corners = t.corners[:len(t.corners)-1]
	case e.Key == KeyReturn:
		return t.finish(e, w)
	default:
		return t.show(e, w)
	}
	return t.used(e, w)
}
