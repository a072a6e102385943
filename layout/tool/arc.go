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
	steps := []string{"Click where the arc starts", "Click a point on the arc", "Click where the arc ends"}
	other := "; O: by its centre"
	if t.centred {
		steps = []string{"Click the centre of the arc", "Click where the arc starts, or type radius<angle and Return", "Click the direction in which it ends, clockwise"}
		other = "; O: by three points"
	}
	h := steps[len(t.points)]
	if len(t.points) == 0 {
		return h + other + seriesHint(t.set) + "; Esc goes back to Select"
	}
	if t.centred && len(t.points) == 1 {
		return h + "; Esc takes back"
	}
	return h + seriesHint(t.set) + "; Esc takes back"
}

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
	if !t.centred || len(t.points) != 1 {
		next, refused, ok := typing(t.set, t.typed, e)
		if !ok {
			return Verdict{}, false
		}
		t.typed = next
		v := t.show(e, w)
		if refused != "" {
			v.Refused = refused
		}
		return v, true
	}
	switch {
	case e.Kind == Rune && t.typed.takes(e.Rune, true) && e.Rune != '@' && e.Rune != '=':
		t.typed = t.typed.with(e.Rune)
	case e.Kind == Key && t.typed != "" && e.Key == KeyBackSpace:
		t.typed = t.typed.back()
	case e.Kind == Key && t.typed != "" && e.Key == KeyEscape:
		t.typed = ""
	case e.Kind == Key && t.typed != "" && e.Key == KeyReturn:
		return t.byNumbers(e, w), true
	default:
		return Verdict{}, false
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

func (t arcing) press(e Event, w *World) Verdict {
	to := t.target(e, w)
	for _, p := range t.points {
		if p.at == to.at && !(t.centred && len(t.points) == 2 && to.at == t.points[1].at) {
			v := t.show(e, w)
			v.Refused = "The next point must be somewhere else"
			return v
		}
	}
	if len(t.points) < 2 {
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
	to := t.target(e, w)
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
	v.Overlay.Typed = typedNote(t.typed)
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
