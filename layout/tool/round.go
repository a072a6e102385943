package tool

import (
	"fmt"
	"math"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// rounding draws a round area, a pond or a bed, by its middle and its radius: both
// by pressing at the middle and dragging, or by two clicks, or typed. The area is a
// polygon like any other, close enough to the circle to dig by.
type rounding struct {
	set    *Defaults
	begun  bool
	held   bool // the button is down
	down   geom.Point
	middle geom.Point
	typed  entry
}

// Name implements Tool.
func (rounding) Name() string { return NameArea }

// Handle implements Tool.
func (t rounding) Handle(e Event, w *World) Verdict {
	switch e.Kind {
	case Down:
		if e.Button == LeftButton && e.Clicks < 2 {
			return t.press(e, w)
		}
	case Up:
		if e.Button == LeftButton && t.held {
			t.held = false
			if geom.Distance(t.down, e.At) > 2*e.Reach {
				return t.finish(e, w)
			}
		}
	case Cancel:
		return t.rest()
	case Key:
		return t.key(e, w)
	case Rune:
		if !t.begun && (e.Rune == 'o' || e.Rune == 'O') {
			return otherShape(t.set)
		}
		if t.typed.takes(e.Rune, t.begun) && e.Rune != '<' && e.Rune != '@' {
			t.typed = t.typed.with(e.Rune)
			return t.used(e, w)
		}
	}
	return t.show(e, w)
}

// otherShape goes from areas by corners to round ones, or back.
func otherShape(d *Defaults) Verdict {
	d.Ground.Round = !d.Ground.Round
	next := NewArea(d)
	hint := ""
	switch n := next.(type) {
	case rounding:
		hint = n.hint()
	case tracing:
		hint = n.hint()
	}
	return Verdict{Next: next, Hint: hint, Used: true}
}

func (t rounding) rest() Verdict {
	next := rounding{set: t.set}
	return Verdict{Next: next, Hint: next.hint(), Used: true}
}

func (t rounding) hint() string {
	noun := t.set.Ground.Area.Kind
	if t.begun {
		return "Click where the edge of the " + noun + " is, or type its radius and Return; Alt lets go of the grid, Esc cancels"
	}
	return "Press in the middle of the round " + noun + " and drag to its edge, or type =x,y; O: by corners; Esc: Select"
}

func (t rounding) press(e Event, w *World) Verdict {
	if t.begun {
		return t.finish(e, w)
	}
	return t.start(e, w, snapTo(e, w, snap{}).at)
}

// start takes the middle.
func (t rounding) start(e Event, w *World, middle geom.Point) Verdict {
	t.begun, t.middle, t.typed = true, middle, ""
	t.held, t.down = e.Kind == Down, e.At
	return t.used(e, w)
}

// size returns the radius, as typed or as far as the pointer is.
func (t rounding) size(e Event, w *World) (geom.Length, snapped, error) {
	r, to := radiusTo(e, w, t.middle)
	if t.typed == "" {
		return r, to, nil
	}
	r, err := readLength(string(t.typed))
	if err == nil && r <= 0 {
		err = fmt.Errorf("found %q, expected a radius such as 1.5 or 800mm", string(t.typed))
	}
	return r, to, err
}

func (t rounding) show(e Event, w *World) Verdict {
	v := Verdict{Hint: t.hint(), Next: t}
	if !t.begun {
		to := snapTo(e, w, snap{})
		v.Overlay = Overlay{Snap: to.mark(), NoteAt: to.at, Typed: t.typed.shown()}
		if t.typed == "" {
			v.Overlay.Note = "Round, " + t.set.Ground.Area.Kind
		} else if at, err := t.typed.coordinates(); err == nil {
			v.Overlay.Snap, v.Overlay.NoteAt, v.Overlay.Leads = &at, at, &at
		}
		return v
	}
	r, to, err := t.size(e, w)
	v.Overlay = Overlay{NoteAt: to.at, Typed: t.typed.shown()}
	if t.typed == "" {
		v.Overlay.Snap = caughtMark(to)
	}
	if err == nil && r > 0 {
		ring := roundRing(t.middle, r)
		v.Overlay.Lines = [][]geom.Point{append(ring, ring[0]), {t.middle, t.middle.Add(geom.Point{X: r})}}
		v.Overlay.Note = fmt.Sprintf("radius %.2f m, %s", r.Metres(), squareMetres(ring))
	}
	return v
}

func (t rounding) used(e Event, w *World) Verdict {
	v := t.show(e, w)
	v.Used = true
	return v
}

func (t rounding) refuse(e Event, w *World, why string) Verdict {
	v := t.used(e, w)
	v.Refused = why
	return v
}

// finish adds the area.
func (t rounding) finish(e Event, w *World) Verdict {
	r, _, err := t.size(e, w)
	switch {
	case err != nil:
		return t.refuse(e, w, err.Error())
	case r < geom.Centimetre:
		return t.refuse(e, w, "A round area needs a radius; drag further from the middle, or type it")
	}
	v := t.rest()
	id, ring := t.set.id(), roundRing(t.middle, r)
	v.Commit, v.Select, v.Selects = areaShape.add(t.set, w.Scheme, id, ring), []doc.ID{id}, true
	v.Hint = fmt.Sprintf("Kept as %d corners within 1 cm. ", len(ring)) + v.Hint
	return v
}

func (t rounding) key(e Event, w *World) Verdict {
	switch {
	case t.typed != "" && e.Key == KeyEscape:
		t.typed = ""
	case t.typed != "" && e.Key == KeyBackSpace:
		t.typed = t.typed.back()
	case e.Key == KeyReturn && t.begun:
		return t.finish(e, w)
	case e.Key == KeyReturn && t.typed != "":
		at, err := t.typed.coordinates()
		if err != nil {
			return t.refuse(e, w, err.Error())
		}
		return t.start(e, w, at)
	case t.begun && (e.Key == KeyEscape || e.Key == KeyBackSpace):
		return t.rest()
	case !t.begun && e.Key == KeyEscape:
		return Verdict{Next: NewSelect(t.set), Hint: selectHint, Used: true}
	case !t.begun:
		// Delete and the arrows work on what was drawn last; the tool stays.
		v := selecting{set: t.set}.key(e, w)
		v.Next, v.Hint = t, t.hint()
		return v
	default:
		return t.show(e, w)
	}
	return t.used(e, w)
}

// radiusStep is what a dragged radius is rounded to.
const radiusStep = 50 * geom.Millimetre

// radiusTo returns how far the pointer is from a middle: exactly to what on the plan
// has caught it, else in steps; with Alt, or with snapping off, as it comes.
func radiusTo(e Event, w *World, middle geom.Point) (geom.Length, snapped) {
	to := snapTo(e, w, snap{})
	switch {
	case caughtMark(to) != nil:
		return geom.Distance(middle, to.at), to
	case e.Mods.Alt || e.Keyed || !w.Snap:
		return geom.Distance(middle, e.At), snapped{at: e.At, rank: geom.RankFree}
	}
	r := geom.ToGrid(geom.Point{X: geom.Distance(middle, e.At)}, radiusStep).X
	return r, snapped{at: e.At, rank: geom.RankFree}
}

// caughtMark returns the mark of what has caught the pointer, nil for the grid.
func caughtMark(to snapped) *geom.Point {
	switch to.rank {
	case geom.RankGrid, geom.RankAngle, geom.RankFree:
		return nil
	}
	return to.mark()
}

// roundRing returns the corners of a circle, anticlockwise from the right: as many
// as keep the middle of every edge within a centimetre of the circle, a multiple of
// four, at least 16 and at most 72.
func roundRing(middle geom.Point, r geom.Length) []geom.Point {
	const least, most = 16, 72
	n := least
	if r > geom.Centimetre {
		n = int(math.Ceil(math.Pi / math.Acos(1-float64(geom.Centimetre)/float64(r))))
	}
	n = min(most, max(least, (n+3)/4*4))
	arc := geom.Arc{Centre: middle, Radius: float64(r)}
	out := make([]geom.Point, n)
	for i := range out {
		out[i] = arc.At(360 * float64(i) / float64(n))
	}
	return out
}
