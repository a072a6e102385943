package tool

import (
	"fmt"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

const (
	runHint     = "Click where the run starts: on a thing or in the air, or type =x,y; Esc goes back to Select"
	drawingHint = "Click bends or an end, or " + typeHint + "; Return ends, Backspace takes back, Esc cancels"
	chainHint   = "Drawn. Go on from here: click bends or the next thing; Esc stops here"
)

// running draws a run click by click. At rest id is "". A run that ends on a
// thing starts the next one there, because lamps stand in rows.
type running struct {
	set   *Defaults
	id    doc.ID
	start snapped
	legs  []doc.Leg // up to the last bend clicked
	typed entry
	down  geom.Point // where the button went down last
	held  bool       // the button is down
	shown bool       // a preview is on
	// chained says that the run before ended where this one starts.
	chained bool
}

// NewRun returns the tool that draws runs.
func NewRun(d *Defaults) Tool { return running{set: d} }

// Name implements Tool.
func (running) Name() string { return NameRun }

// Handle implements Tool.
func (t running) Handle(e Event, w *World) Verdict {
	switch e.Kind {
	case Down:
		if e.Button == LeftButton {
			return t.press(e, w)
		}
	case Up:
		if e.Button == LeftButton {
			return t.release(e, w)
		}
	case Cancel:
		return t.rest()
	case Key:
		return t.key(e, w)
	case Rune:
		if t.typed.takes(e.Rune, t.id != "") {
			t.typed = t.typed.with(e.Rune)
			return t.used(e, w)
		}
	}
	return t.show(e, w)
}

// last returns the vertex that the next leg starts from.
func (t running) last() geom.Point {
	if n := len(t.legs); n > 0 {
		return t.legs[n-1].To
	}
	return t.start.at
}

// target returns where the pointer is pulled to.
func (t running) target(e Event, w *World) snapped {
	how := snap{points: true}
	if t.id != "" {
		from := t.last()
		how.from, how.step = &from, fine
		if path := t.path(); len(path) > 1 {
			how.before = &path[len(path)-2]
		}
	}
	return snapTo(e, w, how)
}

// refused says why the run cannot go to a place, "" when it can.
func (t running) refused(to snapped) string {
	switch {
	case to.rank == geom.RankPoint && t.start.rank == geom.RankPoint && to.on == t.start.on:
		return "A run cannot end where it starts"
	case to.at == t.last():
		return "The next bend must be somewhere else"
	}
	return ""
}

// show returns the verdict for a pointer that only moved: the line so far and,
// over a thing where the run could end, a preview of the finished run.
func (t running) show(e Event, w *World) Verdict {
	to := t.target(e, w)
	v := Verdict{Hint: runHint, Overlay: Overlay{Snap: to.mark(), NoteAt: to.at}}
	if to.rank == geom.RankPoint {
		v.Overlay.Hover = to.on
	}
	if t.id == "" {
		return t.showStart(v)
	}
	v.Hint = t.hint()
	if t.waiting() && to.on == t.start.on {
		return t.calm(v) // still over the thing the last run ended on
	}
	at, note, err := t.aim(to, gridOf(e, w))
	v.Overlay.Note, v.Overlay.NoteAt, v.Overlay.Typed = note, at, t.typed.shown()
	if t.typed != "" {
		v.Overlay.Snap = nil // the leg ends where its length says, not at the mark
		if err == nil {
			v.Overlay.Leads = &at
		}
	}
	v.Overlay.Lines = [][]geom.Point{append(t.path(), at)}
	ends := err == nil && t.typed == "" && to.rank == geom.RankPoint && t.refused(to) == ""
	switch {
	case ends:
		v.Preview = edit.AddRun{Run: t.finished(w, to)}
		t.shown = true
	case t.shown:
		v.Cancel, t.shown = true, false
	}
	v.Next = t
	return v
}

// waiting reports whether the run goes on from the one before and nothing of
// it has been drawn yet.
func (t running) waiting() bool { return t.chained && len(t.legs) == 0 && t.typed == "" }

func (t running) hint() string {
	if t.waiting() {
		return chainHint
	}
	return drawingHint
}

// calm returns the verdict with no preview on.
func (t running) calm(v Verdict) Verdict {
	v.Cancel, t.shown = t.shown, false
	v.Next = t
	return v
}

// used is show for a key that the tool has taken.
func (t running) used(e Event, w *World) Verdict {
	v := t.show(e, w)
	if v.Next == nil {
		v.Next = t
	}
	v.Used = true
	return v
}

// showStart shows where a typed start lies, when one is typed.
func (t running) showStart(v Verdict) Verdict {
	if t.typed == "" {
		return v
	}
	v.Overlay.Typed, v.Overlay.Hover, v.Overlay.Snap, v.Next = t.typed.shown(), "", nil, t
	if at, err := t.typed.coordinates(); err == nil {
		v.Overlay.Snap, v.Overlay.NoteAt, v.Overlay.Leads = &at, at, &at
	}
	return v
}

// aim returns the end of the leg being drawn, by what was typed if anything
// was, and the note for it.
func (t running) aim(to snapped, grid geom.Length) (geom.Point, string, error) {
	from := t.last()
	if t.typed == "" {
		return to.at, t.note(from, to.at), nil
	}
	at, err := t.typed.aim(from, to, grid)
	if err != nil {
		return to.at, "", err
	}
	return at, t.note(from, at), nil
}

// note measures the leg and, from the second on, the whole run.
func (t running) note(from, to geom.Point) string {
	switch {
	case from == to:
		return "" // the pointer has not left the last bend yet
	case len(t.legs) == 0:
		return measure(from, to)
	}
	all := geom.PathLength(append(t.path(), to)).Metres()
	return fmt.Sprintf("%s, run %.2f m", measure(from, to), all)
}

func (t running) path() []geom.Point {
	out := make([]geom.Point, 0, len(t.legs)+2)
	out = append(out, t.start.at)
	for _, l := range t.legs {
		out = append(out, l.To)
	}
	return out
}

func (t running) press(e Event, w *World) Verdict {
	if e.Clicks > 1 {
		// The first click of the two has placed the bend, or ended the run.
		if len(t.legs) > 0 {
			return t.endInAir(w)
		}
		return t.show(e, w)
	}
	t.held, t.down = true, e.At
	to := t.target(e, w)
	if t.waiting() && to.on == t.start.on {
		return t.used(e, w) // pressed to draw on by holding the button
	}
	if t.id == "" {
		return t.begin(e, w, to)
	}
	return t.accept(e, w, to)
}

// begin starts a run under the pointer, or at the place typed.
func (t running) begin(e Event, w *World, to snapped) Verdict {
	if t.typed != "" {
		at, err := t.typed.coordinates()
		if err != nil {
			v := t.used(e, w)
			v.Refused = err.Error()
			return v
		}
		to = exactly(w.Scheme, at)
	}
	t.id, t.start, t.typed = t.set.id(), to, ""
	return t.used(e, w)
}

// release ends a leg that was drawn by holding the button down from one thing
// to the next instead of clicking twice.
func (t running) release(e Event, w *World) Verdict {
	held := t.held
	t.held = false
	to := t.target(e, w)
	if !held || t.id == "" || geom.Distance(t.down, e.At) <= 2*e.Reach || t.refused(to) != "" {
		v := t.show(e, w)
		if v.Next == nil {
			v.Next = t
		}
		return v
	}
	return t.accept(e, w, to)
}

// accept takes the place under the pointer, or the typed length, as the next
// vertex, and ends the run when a thing stands there.
func (t running) accept(e Event, w *World, to snapped) Verdict {
	at, _, err := t.aim(to, gridOf(e, w))
	if err != nil {
		v := t.used(e, w)
		v.Refused = err.Error()
		return v
	}
	if t.typed != "" {
		to = exactly(w.Scheme, at)
	}
	if why := t.refused(to); why != "" {
		v := t.used(e, w)
		v.Refused = why
		return v
	}
	if to.rank == geom.RankPoint {
		return t.goOn(w, t.done(t.finished(w, to)), to)
	}
	t.typed = ""
	t.legs = append(t.legs[:len(t.legs):len(t.legs)], t.set.leg(to.at))
	return t.used(e, w)
}

// exactly returns the thing that stands at a place, or the place itself.
func exactly(s *doc.Scheme, at geom.Point) snapped {
	m := geom.NewMagnet(at, geom.Millimetre)
	var ids []doc.ID
	eachPoint(s, func(id doc.ID, p geom.Point) {
		ids = append(ids, id)
		m.Offer(p, geom.RankPoint, len(ids)-1)
	})
	if p, rank, key := m.Caught(); rank == geom.RankPoint {
		return snapped{at: p, rank: rank, on: ids[key]}
	}
	return snapped{at: at, rank: geom.RankFree}
}

func (t running) key(e Event, w *World) Verdict {
	switch {
	case t.id == "" && t.typed != "":
		return t.keyStart(e, w)
	case t.id == "":
		if e.Key == KeyEscape {
			return Verdict{Next: NewSelect(t.set), Hint: selectHint, Used: true}
		}
		v := selecting{set: t.set}.key(e, w)
		v.Hint = runHint
		return v
	case e.Key == KeyEscape && t.typed != "":
		t.typed = ""
		return t.used(e, w)
	case e.Key == KeyEscape, e.Key == KeyReturn && t.waiting():
		return t.rest()
	case e.Key == KeyDelete && t.waiting():
		// Delete takes out the run drawn last, which is selected.
		v := selecting{set: t.set}.key(e, w)
		v.Next, v.Hint = running{set: t.set}, runHint
		return v
	case e.Key == KeyReturn && t.typed != "":
		return t.accept(e, w, t.target(e, w))
	case e.Key == KeyReturn:
		return t.endInAir(w)
	case e.Key == KeyBackSpace:
		return t.takeBack(e, w)
	}
	return t.show(e, w)
}

// keyStart takes the keys while the place of the start is typed.
func (t running) keyStart(e Event, w *World) Verdict {
	switch e.Key {
	case KeyReturn:
		return t.begin(e, w, snapped{})
	case KeyBackSpace:
		t.typed = t.typed.back()
	case KeyEscape:
		t.typed = ""
	default:
		return t.show(e, w)
	}
	return t.used(e, w)
}

// takeBack takes back one typed character, else one bend, else the start.
func (t running) takeBack(e Event, w *World) Verdict {
	switch {
	case t.typed != "":
		t.typed = t.typed.back()
	case len(t.legs) > 0:
		t.legs = t.legs[:len(t.legs)-1]
	default:
		return t.rest()
	}
	return t.used(e, w)
}

// rest returns the verdict that goes back to waiting for a start.
func (t running) rest() Verdict {
	return Verdict{Cancel: t.shown, Next: running{set: t.set}, Hint: runHint, Used: true}
}

func (t running) endInAir(w *World) Verdict {
	n := len(t.legs)
	if n == 0 {
		return Verdict{Next: t, Hint: drawingHint, Used: true, Refused: "A run needs a second point before it can end"}
	}
	to := snapped{at: t.legs[n-1].To, rank: geom.RankFree}
	t.legs = t.legs[:n-1]
	return t.done(t.finished(w, to))
}

func (t running) done(r *doc.Run) Verdict {
	return Verdict{
		Commit: edit.AddRun{Run: r}, Select: []doc.ID{r.ID}, Selects: true,
		Next: running{set: t.set}, Hint: runHint, Used: true,
	}
}

// goOn makes the next run start on the thing where this one ended. One drawn
// towards the supply point has arrived, so that nothing follows it.
func (t running) goOn(w *World, v Verdict, to snapped) Verdict {
	if doc.KindOf(w.Scheme, to.on) == doc.SupplyKind {
		return v
	}
	v.Next, v.Hint = running{set: t.set, id: t.set.id(), start: to, chained: true}, chainHint
	return v
}

// finished returns the run that ends at a place.
func (t running) finished(w *World, to snapped) *doc.Run {
	r := &doc.Run{ID: t.id, Tag: doc.FreeTag(w.Scheme, doc.RunKind), Cable: t.set.Cable}
	r.From, r.To = ends(w, t.start, to)
	r.Legs = append(t.legs[:len(t.legs):len(t.legs)], t.set.leg(to.at))
	onLow := systemOf(w, r.From.On, r.From.Side) == low || systemOf(w, r.To.On, r.To.Side) == low
	if onLow && t.set.LowCable != "" {
		r.Cable = t.set.LowCable
	}
	return r
}
