package tool

import (
	"fmt"
	"math"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

const (
	dimensionHint = "Click where to measure from or type =x,y; over an edge or corner it is read off at once; Esc goes back to Select"
	toHint        = "Click where to measure to or " + typeShort + "; Backspace takes back, Esc cancels and leaves nothing"
	offsetHint    = "Click where the line stands or type how far off; A: straight, H: across, V: up the sheet; Backspace takes back, Esc cancels"
)

// measuring draws a dimension line in three clicks: from, to, and where its
// line stands. Until the last nothing is left on the plan, so that it serves to
// measure as well.
type measuring struct {
	set   *Defaults
	id    doc.ID // "" at rest
	from  snapped
	to    snapped
	both  bool // to is set
	kind  string
	typed entry
	shown bool // a preview is on
}

// NewDimension returns the tool that draws dimension lines and measures.
func NewDimension(d *Defaults) Tool { return measuring{set: d, kind: doc.Aligned} }

// Name implements Tool.
func (measuring) Name() string { return NameDimension }

// Handle implements Tool.
func (t measuring) Handle(e Event, w *World) Verdict {
	next, how := t.typed.answer(e, t.id != "")
	if t.typed = next; how != notTyped {
		v := Verdict{}
		if how == typedEnd {
			e.Clicks = 1
			v = t.press(e, w)
		} else {
			v = t.show(e, w)
		}
		v.Used = true
		return v
	}
	switch e.Kind {
	case Down:
		if e.Button == LeftButton {
			return t.press(e, w)
		}
	case Cancel:
		return t.rest()
	case Key:
		return t.key(e, w)
	case Rune:
		kind, ok := map[rune]string{'a': doc.Aligned, 'h': doc.Horizontal, 'v': doc.Vertical}[e.Rune|0x20]
		if ok && t.both {
			t.kind = kind
			v := t.show(e, w)
			v.Used = true
			return v
		}
	}
	return t.show(e, w)
}

// rest returns the verdict that goes back to waiting for a start.
func (t measuring) rest() Verdict {
	return Verdict{Cancel: t.shown, Next: measuring{set: t.set, kind: t.kind}, Hint: dimensionHint, Used: true}
}

func (t measuring) target(e Event, w *World) snapped {
	how := snap{points: true}
	if t.id != "" {
		how.from, how.step = &t.from.at, fine
	}
	return snapTo(e, w, how)
}

// aim returns where the pointer was pulled to, or the point that is typed: the
// thing or corner that stands exactly there.
func (t measuring) aim(e Event, w *World) (snapped, error) {
	to := t.target(e, w)
	if t.typed == "" {
		return to, nil
	}
	var from *geom.Point
	if t.id != "" {
		from = &t.from.at
	}
	at, err := t.typed.place(from, to, gridOf(e, w))
	if err != nil {
		return to, err
	}
	return standing(w, at), nil
}

// standing returns the thing at a place, else the corner, else the place itself.
func standing(w *World, at geom.Point) snapped {
	if to := exactly(w.Scheme, at); to.rank == geom.RankPoint {
		return to
	}
	out := snapped{at: at, rank: geom.RankFree}
	list := placesOf(w)
	list.cells.Near(geom.Around(at).Grow(geom.Millimetre), func(i int) {
		if p := &list.list[i]; p.what == aCorner && out.rank == geom.RankFree && geom.Distance(p.a, at) <= geom.Millimetre {
			out = snapped{p.a, geom.RankVertex, p.on, p.n}
		}
	})
	return out
}

func (t measuring) press(e Event, w *World) Verdict {
	to, err := snapped{}, error(nil)
	if t.both {
		_, err = t.dimension(w, e)
	} else {
		to, err = t.aim(e, w)
	}
	if err != nil {
		v := t.show(e, w)
		v.Refused = err.Error()
		return v
	}
	switch {
	case t.id == "":
		t.id, t.from, t.typed = t.set.id(), to, ""
	case !t.both && to.at == t.from.at:
		v := t.show(e, w)
		if e.Clicks < 2 {
			v.Refused = "It measures from there; click another place"
		}
		return v
	case !t.both:
		t.to, t.both, t.typed = to, true, ""
	default:
		d, _ := t.dimension(w, e)
		if doc.ShapeOf(w.Scheme, d).Measured == 0 {
			v := t.show(e, w)
			v.Refused = "The two places do not differ that way; A measures straight"
			return v
		}
		v := measuring{set: t.set, kind: t.kind}.rest()
		v.Commit, v.Select, v.Selects = edit.AddDimension{Dimension: d}, []doc.ID{d.ID}, true
		return v
	}
	return t.show(e, w)
}

// dimension returns the dimension whose line passes the pointer, or the point that
// is typed; of a typed length it is so far off, on the side of the pointer.
func (t measuring) dimension(w *World, e Event) (*doc.Dimension, error) {
	to := snapTo(e, w, snap{})
	d := &doc.Dimension{ID: t.id, Tag: doc.FreeTag(w.Scheme, doc.DimensionKind), Kind: t.kind,
		From: t.from.anchor(), To: t.to.anchor(), Offset: doc.OffsetAt(t.kind, t.from.at, t.to.at, to.at)}
	switch {
	case t.typed == "":
		return d, nil
	case t.typed.isPoint():
		at, err := t.typed.place(&t.to.at, to, gridOf(e, w))
		if err == nil {
			d.Offset = doc.OffsetAt(t.kind, t.from.at, t.to.at, at)
		}
		return d, err
	}
	off, err := readLength(string(t.typed))
	if err != nil {
		return d, err
	}
	if d.Offset < 0 {
		off = -off
	}
	d.Offset = off
	return d, nil
}

func (t measuring) show(e Event, w *World) Verdict {
	if t.both {
		d, _ := t.dimension(w, e)
		t.shown = true
		v := Verdict{Preview: edit.AddDimension{Dimension: d}, Next: t, Hint: offsetHint} // its own figure tells
		v.Overlay.Typed, v.Overlay.NoteAt = t.typed.shown(), e.At
		return v
	}
	to, err := t.aim(e, w)
	v := Verdict{Next: t, Hint: dimensionHint, Cancel: t.shown, Overlay: Overlay{Snap: to.mark(), NoteAt: to.at}}
	t.shown = false
	v.Next = t
	v.Overlay.typed(t.typed, to.at, err)
	if t.id == "" {
		if t.typed == "" {
			v.Overlay.Note = readOff(w.Scheme, to)
		}
		return v
	}
	v.Hint = toHint
	if to.at != t.from.at {
		v.Overlay.Note = between(t.from.at, to.at)
		v.Overlay.Lines = [][]geom.Point{{t.from.at, to.at}}
	}
	return v
}

// between measures two places: the distance, its direction, and its parts
// across and up the sheet.
func between(a, b geom.Point) string {
	d := b.Sub(a)
	return fmt.Sprintf("%.3f m  %.1f°  (%+.3f, %+.3f)", geom.Distance(a, b).Metres(),
		math.Mod(math.Round(geom.Bearing(a, b)*10)/10, 360), d.X.Metres(), d.Y.Metres())
}

// readOff measures what the pointer is caught by: the length and direction of
// an edge, the angle of a corner, "" for anything else.
func readOff(s *doc.Scheme, at snapped) string {
	e, _ := doc.Find(s, at.on)
	ps := doc.Corners(s, e)
	_, ring := e.(*doc.Area)
	n := len(ps)
	if n < 2 {
		return ""
	}
	switch at.rank {
	case geom.RankEdge:
		a, b := ps[at.corner], ps[(at.corner+1)%n]
		return fmt.Sprintf("%s %.3f m  %.1f°", e.Label(), geom.Distance(a, b).Metres(),
			math.Mod(math.Round(geom.Bearing(a, b)*10)/10, 360))
	case geom.RankVertex:
		if !ring && (at.corner == 0 || at.corner == n-1) {
			return ""
		}
		a, p, b := ps[(at.corner+n-1)%n], ps[at.corner], ps[(at.corner+1)%n]
		turn := math.Mod(geom.Direction(p, a)-geom.Direction(p, b)+720, 360)
		return fmt.Sprintf("%s corner %.1f°", e.Label(), min(turn, 360-turn))
	}
	return ""
}

func (t measuring) key(e Event, w *World) Verdict {
	switch {
	case t.id == "" && e.Key == KeyEscape:
		return Verdict{Next: NewSelect(t.set), Hint: selectHint, Used: true}
	case t.id == "":
		v := selecting{set: t.set}.key(e, w)
		v.Hint = dimensionHint
		return v
	case e.Key == KeyEscape:
		return t.rest()
	case e.Key == KeyReturn:
		e.Clicks = 1
		v := t.press(e, w)
		v.Used = true
		return v
	case e.Key == KeyBackSpace && !t.both:
		return t.rest()
	case e.Key == KeyBackSpace:
		t.both, t.to = false, snapped{}
		v := t.show(e, w)
		v.Used = true
		return v
	}
	return t.show(e, w)
}
