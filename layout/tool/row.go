package tool

import (
	"fmt"
	"math"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// rowing puts lamps in a straight row: click where it starts, click where it
// ends. It starts on a thing when there is one under the pointer; the first
// lamp then stands one spacing further.
type rowing struct {
	layout
	begun bool
	start snapped
	typed entry
}

// NewRow returns the tool that puts lamps in a straight row.
func NewRow(d *Defaults) Tool { return rowing{layout: layout{set: d, name: "Row"}} }

// Name implements Tool.
func (rowing) Name() string { return NameRow }

func (t rowing) hint() string {
	if t.begun {
		if h := t.set.typingHint(t.typed, "the row ends there"); h != "" {
			return h
		}
		return "Click where the row ends or " + typeShort + seriesHint(t.set) + "; Esc takes back"
	}
	if h := t.set.typingHint(t.typed, "the row starts there"); h != "" {
		return h
	}
	return "Click where the row starts or type =x,y" + seriesHint(t.set) + "; Esc: Select"
}

// Handle implements Tool.
func (t rowing) Handle(e Event, w *World) Verdict {
	next, refused, how := t.set.typed(t.typed, e, t.begun)
	switch how {
	case typedOn:
		t.typed = next
		v := t.show(e, w)
		v.Used = true
		if refused != "" {
			v.Refused = refused
		}
		return v
	case typedEnd:
		v := t.press(e, w)
		v.Used = true
		return v
	}
	switch e.Kind {
	case Down:
		if e.Button == LeftButton && e.Clicks < 2 {
			return t.press(e, w)
		}
	case Cancel:
		return Verdict{Cancel: true, Next: NewRow(t.set), Hint: t.hint()}
	case Key:
		switch {
		case e.Key == KeyEscape && t.begun:
			return Verdict{Cancel: true, Next: NewRow(t.set), Hint: NewRow(t.set).(rowing).hint(), Used: true}
		case e.Key == KeyEscape:
			return Verdict{Next: NewSelect(t.set), Hint: selectHint, Used: true}
		case !t.begun:
			v := selecting{set: t.set}.key(e, w)
			v.Next, v.Hint = nil, t.hint()
			return v
		}
	}
	return t.show(e, w)
}

func (t rowing) target(e Event, w *World) snapped {
	how := snap{points: !t.begun}
	if t.begun {
		how.from, how.step = &t.start.at, fine
	}
	return snapTo(e, w, how)
}

// aim returns where the pointer was pulled to, or the point that is typed.
func (t rowing) aim(e Event, w *World) (snapped, error) {
	to := t.target(e, w)
	if !t.typed.isPoint() {
		return to, nil
	}
	var from *geom.Point
	if t.begun {
		from = &t.start.at
	}
	at, err := t.typed.place(from, to, gridOf(e, w))
	if err != nil {
		return to, err
	}
	if !t.begun {
		return exactly(w.Scheme, at), nil
	}
	return snapped{at: at, rank: geom.RankFree}, nil
}

func (t rowing) press(e Event, w *World) Verdict {
	to, err := t.aim(e, w)
	if err != nil {
		v := t.show(e, w)
		v.Refused = err.Error()
		return v
	}
	if !t.begun {
		if t.typed.isPoint() {
			t.typed = ""
		}
		t.begun, t.start = true, to
		return t.show(e, w)
	}
	at, _, refused := t.lamps(to.at)
	op, why := t.build(w, t.start, at)
	if refused == "" {
		refused = why
	}
	if refused != "" {
		v := t.show(e, w)
		v.Refused = refused
		return v
	}
	return done(op, NewRow(t.set), t.ids, len(at))
}

// lamps returns the places of the lamps for a row that ends at a place.
func (t rowing) lamps(end geom.Point) (at []geom.Point, note, refused string) {
	length := geom.Distance(t.start.at, end)
	ds, err := t.set.Series.places(length, t.start.rank == geom.RankPoint)
	if err != nil {
		return nil, "", err.Error()
	}
	for _, d := range ds {
		at = append(at, straight(t.start.at, end, d/float64(length)))
	}
	return at, t.set.Series.note(ds, length) + fmt.Sprintf("  %.0f°", math.Mod(math.Round(geom.Bearing(t.start.at, end)), 360)), ""
}

func (t rowing) show(e Event, w *World) Verdict {
	to, err := t.aim(e, w)
	v := Verdict{Hint: t.hint(), Next: t, Overlay: Overlay{Snap: to.mark(), NoteAt: to.at}}
	if to.rank == geom.RankPoint {
		v.Overlay.Hover = to.on
	}
	if t.begun && to.at != t.start.at {
		at, note, refused := t.lamps(to.at)
		v.Overlay.Note = note
		v.Overlay.Lines = [][]geom.Point{{t.start.at, to.at}}
		preview(&v, &t.layout, w, t.start, at, refused)
		v.Next = t // build may have made ids
	}
	v.Overlay.typedSeries(t.typed, to.at, err)
	return v
}

// preview shows the lamps, or drops the preview and says why there are none.
func preview(v *Verdict, l *layout, w *World, start snapped, at []geom.Point, refused string) {
	op, why := l.build(w, start, at)
	if refused == "" {
		refused = why
	}
	if refused != "" {
		v.Refused, v.Cancel = refused, true
		return
	}
	v.Preview = op
}

// typedSeries shows a number, a spacing or a point while it is typed.
func (o *Overlay) typedSeries(t entry, at geom.Point, err error) {
	if t.isPoint() {
		o.typed(t, at, err)
	}
	o.Typed = seriesNote(t)
}

// selectLamps returns the ids of the lamps of a layout.
func selectLamps(ids []doc.ID, n int) []doc.ID {
	out := make([]doc.ID, n)
	for i := range out {
		out[i] = ids[2*i]
	}
	return out
}
