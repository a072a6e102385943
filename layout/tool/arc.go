package tool

import (
	"fmt"
	"math"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// arcing puts lamps on an arc. By three points: where it starts, a point on
// its way, where it ends. By its centre: the centre, where it starts, the
// direction in which it ends, always clockwise, as bearings are; or the centre and a typed
// radius with its angle, "2.5m<120", from the direction of the pointer on.
type arcing struct {
	layout
	centred bool
	points  []snapped
	typed   entry
}

// NewArc returns the tool that puts lamps on an arc.
func NewArc(d *Defaults) Tool { return arcing{layout: layout{set: d, name: "Arc"}} }

// Name implements Tool.
func (arcing) Name() string { return NameArc }

func (t arcing) hint() string {
	n := len(t.points)
	points := []string{"the arc starts there", "the arc passes there", "the arc ends there"}
	if t.centred {
		points = []string{"its centre is there", "the arc starts there", "it ends in that direction"}
	}
	if h := t.set.typingHint(t.typed, points[n]); h != "" && (!t.byRadius() || t.typed.pair()) {
		return h
	}
	steps := []string{"Click where the arc starts or type =x,y", "Click a point on the arc or " + typeShort, "Click where the arc ends or " + typeShort}
	other := "; O: by its centre"
	if t.centred {
		steps = []string{"Click the centre of the arc or type =x,y", "Click where the arc starts, or type radius<angle, @1,2 or =4,2 and Return", "Click the direction in which it ends, clockwise, or type <90"}
		other = "; O: by three points"
	}
	switch {
	case n == 0:
		return steps[n] + other + seriesHint(t.set) + "; Esc: Select"
	case t.byRadius():
		return steps[n] + "; Esc takes back"
	}
	return steps[n] + seriesHint(t.set) + "; Esc takes back"
}

// byRadius reports whether a typed number is the radius, which stands before the
// lamps are spaced.
func (t arcing) byRadius() bool { return t.centred && len(t.points) == 1 }

// Handle implements Tool.
func (t arcing) Handle(e Event, w *World) Verdict {
	if v, ok := t.typing(e, w); ok {
		v.Used = true
		return v
	}
	switch e.Kind {
	case Down:
		if e.Button == LeftButton && e.Clicks < 2 {
			return t.press(e, w)
		}
	case Cancel:
		t.points, t.typed = nil, ""
		return Verdict{Cancel: true, Next: t, Hint: t.hint()}
	case Key:
		switch {
		case e.Key == KeyEscape && len(t.points) > 0:
			t.points = t.points[:len(t.points)-1]
			v := t.show(e, w)
			v.Used, v.Cancel = true, v.Preview == nil
			return v
		case e.Key == KeyEscape:
			return Verdict{Next: NewSelect(t.set), Hint: selectHint, Used: true}
		case len(t.points) == 0:
			v := selecting{set: t.set}.key(e, w)
			v.Next, v.Hint = nil, t.hint()
			return v
		}
	}
	return t.show(e, w)
}

// typing takes typed characters: of the radius and angle once the centre is
// clicked, else of the series.
func (t arcing) typing(e Event, w *World) (Verdict, bool) {
	if e.Kind == Rune && len(t.points) == 0 && (e.Rune == 'o' || e.Rune == 'O') {
		t.centred = !t.centred
		return t.show(e, w), true
	}
	if !t.byRadius() {
		next, refused, how := t.set.typed(t.typed, e, len(t.points) > 0)
		t.typed = next
		switch how {
		case notTyped:
			return Verdict{}, false
		case typedEnd:
			return t.press(e, w), true
		}
		v := t.show(e, w)
		if refused != "" {
			v.Refused = refused
		}
		return v, true
	}
	next, how := t.typed.answer(e, true)
	t.typed = next
	switch {
	case how == notTyped:
		return Verdict{}, false
	case how == typedEnd && t.typed.pair():
		return t.press(e, w), true
	case how == typedEnd:
		return t.byNumbers(e, w), true
	}
	return t.show(e, w), true
}

// byNumbers makes the arc of the typed radius and angle, or with a radius
// alone takes the start at that distance from the centre.
func (t arcing) byNumbers(e Event, w *World) Verdict {
	radius, sweep, turned, err := t.typed.polar()
	centre := t.points[0].at
	switch {
	case err != nil:
	case radius == 0:
		err = fmt.Errorf("found %q, expected a radius such as 2.5m or 2.5m<120", string(t.typed))
	case turned && sweep == 0:
		err = fmt.Errorf("found the angle 0, expected how far the arc goes, such as 120")
	}
	if err != nil {
		v := t.show(e, w)
		v.Refused = err.Error()
		return v
	}
	from := geom.Direction(centre, t.target(e, w).at)
	start := snapped{at: geom.Along(centre, from, radius), rank: geom.RankFree}
	if !turned {
		t.points, t.typed = append(t.points[:1:1], start), ""
		return t.show(e, w)
	}
	arc := geom.Arc{Centre: centre, Radius: float64(radius), Start: from, Sweep: -sweep}
	at, _, refused := t.lamps(arc, start)
	if refused != "" {
		v := t.show(e, w)
		v.Refused = refused
		return v
	}
	return t.commit(e, w, start, at)
}

func (t arcing) target(e Event, w *World) snapped {
	how := snap{points: len(t.points) == 0 && !t.centred || t.centred && len(t.points) == 1}
	if n := len(t.points); n > 0 {
		how.from, how.step = &t.points[n-1].at, fine
		if t.centred {
			how.from = &t.points[0].at
		}
	}
	return snapTo(e, w, how)
}

// aim returns where the pointer was pulled to, or the point that is typed. A
// direction is one from the centre, where there is one.
func (t arcing) aim(e Event, w *World) (snapped, error) {
	to := t.target(e, w)
	if !t.typed.isPoint() || t.byRadius() && !t.typed.pair() {
		return to, nil
	}
	n := len(t.points)
	if n == 0 {
		at, err := t.typed.place(nil, to, 0)
		if err != nil || t.centred {
			return snapped{at: at, rank: geom.RankFree}, err
		}
		return exactly(w.Scheme, at), nil
	}
	last, grid := t.points[n-1].at, gridOf(e, w)
	at, err := geom.Point{}, error(nil)
	switch {
	case t.centred && n == 2 && !t.typed.pair():
		at, err = t.typed.heading(t.points[0].at, to, grid, geom.Distance(t.points[0].at, last))
	default:
		at, err = t.typed.place(&last, to, grid)
	}
	if err != nil {
		return to, err
	}
	if t.byRadius() {
		return exactly(w.Scheme, at), nil
	}
	return snapped{at: at, rank: geom.RankFree}, nil
}

func (t arcing) press(e Event, w *World) Verdict {
	to, err := t.aim(e, w)
	if err != nil {
		v := t.show(e, w)
		v.Refused = err.Error()
		return v
	}
	for _, p := range t.points {
		if p.at == to.at && !(t.centred && len(t.points) == 2 && to.at == t.points[1].at) {
			v := t.show(e, w)
			v.Refused = "The next point must be somewhere else"
			return v
		}
	}
	if len(t.points) < 2 {
		if t.typed.isPoint() {
			t.typed = ""
		}
		t.points = append(t.points[:len(t.points):len(t.points)], to)
		return t.show(e, w)
	}
	arc, start, refused := t.arc(to.at)
	var at []geom.Point
	if refused == "" {
		at, _, refused = t.lamps(arc, start)
	}
	if refused != "" {
		v := t.show(e, w)
		v.Refused = refused
		return v
	}
	return t.commit(e, w, start, at)
}

func (t arcing) commit(e Event, w *World, start snapped, at []geom.Point) Verdict {
	op, why := t.build(w, start, at)
	if why != "" {
		v := t.show(e, w)
		v.Refused = why
		return v
	}
	next := NewArc(t.set).(arcing)
	next.centred = t.centred
	return done(op, next, t.ids, len(at))
}

// done commits a row or arc and selects its lamps.
func done(op edit.AddMany, next Tool, ids []doc.ID, n int) Verdict {
	v := Verdict{Commit: op, Select: selectLamps(ids, n), Selects: true, Next: next, Used: true}
	if h, ok := next.(interface{ hint() string }); ok {
		v.Hint = h.hint()
	}
	return v
}

// arc returns the arc that ends at a place, or towards it.
func (t arcing) arc(end geom.Point) (arc geom.Arc, start snapped, refused string) {
	if !t.centred {
		arc, ok := geom.Through(t.points[0].at, t.points[1].at, end)
		if !ok {
			return arc, start, "The three points lie on one line, which gives no arc"
		}
		return arc, t.points[0], ""
	}
	c, from := t.points[0].at, t.points[1].at
	arc = geom.Arc{Centre: c, Radius: float64(geom.Distance(c, from)), Start: geom.Direction(c, from)}
	arc.Sweep = math.Mod(geom.Direction(c, end)-arc.Start-360, 360)
	if arc.Sweep == 0 {
		arc.Sweep = -360 // back to the start: all the way round
	}
	return arc, t.points[1], ""
}

// lamps returns the places on an arc. On a full circle the last lamp would
// stand on the first, so the spacing is one more.
func (t arcing) lamps(arc geom.Arc, start snapped) (at []geom.Point, note, refused string) {
	length := arc.Length()
	series := t.set.Series
	ring := math.Abs(arc.Sweep) >= 360-1e-9
	if ring && series.Spacing == 0 {
		series.Count = series.Number() + 1
		if start.rank == geom.RankPoint {
			series.Count = series.Number() // the thing takes the place of the last
		}
	}
	ds, err := series.places(length, start.rank == geom.RankPoint)
	if err != nil {
		return nil, "", err.Error()
	}
	if n := len(ds); ring && n > 1 && ds[n-1] >= float64(length)-float64(geom.Millimetre) {
		ds = ds[:n-1]
	}
	for _, d := range ds {
		at = append(at, arc.At(math.Copysign(d/arc.Radius*180/math.Pi, arc.Sweep)))
	}
	if len(at) > 0 && ds[0] == 0 {
		at[0] = start.at
	}
	return at, series.note(ds, length) + fmt.Sprintf("  r %.2f m", arc.Radius/float64(geom.Metre)), ""
}

func (t arcing) show(e Event, w *World) Verdict {
	to, err := t.aim(e, w)
	v := Verdict{Hint: t.hint(), Next: t, Overlay: Overlay{Snap: to.mark(), NoteAt: to.at}}
	if to.rank == geom.RankPoint {
		v.Overlay.Hover = to.on
	}
	switch n := len(t.points); {
	case n == 1 && to.at != t.points[0].at:
		v.Overlay.Lines = [][]geom.Point{{t.points[0].at, to.at}}
		v.Overlay.Note = measure(t.points[0].at, to.at)
	case n == 2 && to.at != t.points[1].at:
		arc, start, refused := t.arc(to.at)
		if refused != "" {
			v.Overlay.Lines = [][]geom.Point{{t.points[0].at, t.points[1].at, to.at}}
			v.Cancel = true
			break
		}
		at, note, refused := t.lamps(arc, start)
		v.Overlay.Note = note
		v.Overlay.Lines = [][]geom.Point{drawn(arc)}
		preview(&v, &t.layout, w, start, at, refused)
		v.Next = t
	}
	if t.byRadius() && !t.typed.pair() {
		if v.Overlay.Typed = t.typed.shown(); v.Overlay.Typed != "" && err == nil {
			v.Overlay.Leads = &to.at
		}
		return v
	}
	v.Overlay.typedSeries(t.typed, to.at, err)
	return v
}

// drawn returns the arc as a polyline for the overlay, every five degrees.
func drawn(a geom.Arc) []geom.Point {
	n := int(math.Abs(a.Sweep)/5) + 2
	out := make([]geom.Point, n+1)
	for i := range out {
		out[i] = a.At(a.Sweep * float64(i) / float64(n))
	}
	return out
}

// straight returns the point at t of the way from a to b.
func straight(a, b geom.Point, t float64) geom.Point {
	return geom.Point{
		X: a.X + geom.Length(math.Round(t*float64(b.X-a.X))),
		Y: a.Y + geom.Length(math.Round(t*float64(b.Y-a.Y))),
	}
}
