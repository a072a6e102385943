package file

import (
	"slices"
	"strconv"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// entities reads one section. An id is compared here, before a set is made,
// because a set of two entities with one id cannot be.
func entities[E doc.Entity](r *reader, top *object, section string, kind doc.Kind, read func(*object, doc.ID, string) E) doc.Set[E] {
	if n := top.get(section); n.present() && n.y.later != nil {
		return later(r, n.y.later, read)
	}
	var out []E
	for i, n := range top.list(section) {
		o, e, id := entity(n.within(r.nameOf(n, kind, i)), read)
		if id != "" && r.ownID(o.get("id"), id) {
			r.spots[spot{id: id}] = o.node
			out = append(out, e)
		}
	}
	return doc.NewSet(out...)
}

// entity reads one entity. What read does must be up to the object alone: long
// lists are read side by side.
func entity[E doc.Entity](n node, read func(*object, doc.ID, string) E) (o *object, e E, id doc.ID) {
	o = n.object()
	named := o.need("id", "an id")
	id = doc.ID(named.text())
	if id == "" && named.present() {
		named.fail(named.found(), "an id")
	}
	tag := string(id)
	if f := o.get("tag"); f.present() {
		tag = o.needText("tag")
	}
	e = read(o, id, tag)
	if o.flag("lock") {
		e = doc.WithLock(e, true).(E)
	}
	o.done()
	return o, e, id
}

// nameOf returns what messages call an entity, before it has been read.
func (r *reader) nameOf(n node, kind doc.Kind, i int) string {
	for _, field := range []string{"tag", "id"} {
		if c, ok := n.child(field); ok && c.y.shape == scalar && c.y.text != "" {
			return kind.String() + " " + c.y.text
		}
	}
	return kind.String() + " " + strconv.Itoa(i+1) + " of the list"
}

// ownID reports whether no entity before has the id, and otherwise blames the
// one that comes later in the file.
func (r *reader) ownID(n node, id doc.ID) bool {
	other, twice := r.ids[id]
	if !twice {
		r.ids[id] = n
		return true
	}
	if n.line() < other.line() {
		n, other = other, n
	}
	n.fail(strconv.Quote(string(id)), "an id of its own ("+other.entity+" has this one)")
	return false
}

// exact makes a reader return the double nearest to the written decimal. The
// factor of a unit such as mA costs the last digit, which would then be saved
// as 0.009000000000000001 A. A text of up to 15 digits is found again from the
// 15 digits of the value; longer texts were written by the program, in the
// unit without a factor.
func exact[T ~float64](parse func(string) (T, error)) func(string) (T, error) {
	return func(s string) (T, error) {
		v, err := parse(s)
		digits := 0
		for _, c := range s {
			if c >= '0' && c <= '9' {
				digits++
			}
		}
		if err == nil && digits <= 15 {
			near, _ := strconv.ParseFloat(strconv.FormatFloat(float64(v), 'g', 15, 64), 64)
			v = T(near)
		}
		return v, err
	}
}

func place(o *object) doc.Place {
	return doc.Place{At: o.need("at", "a point such as [4 m, 2 m]").point(), Height: o.length("height")}
}

func (r *reader) supply(o *object, id doc.ID, tag string) *doc.Supply {
	e := &doc.Supply{
		ID: id, Tag: tag, Place: place(o),
		Spur:          o.need("kind", oneOf(supplyWords)).word(supplyWords) == 0,
		Nominal:       needValue(o, "nominal", exact(q.ParseVolt)),
		Earthing:      network.Earthing(o.word("earthing", earthingWords)),
		Ze:            maybe(o, "ze", exact(q.ParseOhm)),
		Electrode:     maybe(o, "electrode", exact(q.ParseOhm)),
		MeasuredZs:    maybe(o, "measured_zs", exact(q.ParseOhm)),
		FaultCurrent:  maybe(o, "fault_current", exact(q.ParseAmpere)),
		ExistingLoad:  maybe(o, "existing_load", exact(q.ParseAmpere)),
		Leakage:       maybe(o, "leakage", exact(q.ParseAmpere)),
		OtherCircuits: maybe(o, "other_circuits", q.ParseCount), Shares: o.text("shares"),
		Switched: o.flag("switched"),
		Upstream: o.text("upstream"),
		Residual: o.text("residual"),
		Fuse:     o.text("fuse"),
	}
	in := o.get("indoor").object()
	e.Indoor = doc.Indoor{
		Cable:  in.text("cable"),
		Length: maybe(in, "length", exact(q.ParseMetre)),
		Method: in.text("method"),
	}
	in.done()
	return e
}

func box(o *object, id doc.ID, tag string) *doc.Box {
	return &doc.Box{
		ID: id, Tag: tag, Place: place(o), Stock: o.needText("stock"),
		Fill: o.text("fill"), Hidden: o.flag("hidden"),
		TopEntries: o.whole("top_entries", 0, 100), Open: o.whole("open_entries", 0, 100),
		Unlinked: o.flagOff("linked"),
	}
}

func gear(o *object, id doc.ID, tag string) *doc.Gear {
	return &doc.Gear{ID: id, Tag: tag, Place: place(o), Stock: o.needText("stock"), Aim: o.angle("aim")}
}

func source(o *object, id doc.ID, tag string) *doc.Source {
	return &doc.Source{ID: id, Tag: tag, Place: place(o), Stock: o.needText("stock")}
}

func lamp(o *object, id doc.ID, tag string) *doc.Lamp {
	return &doc.Lamp{
		ID: id, Tag: tag, Place: place(o), Stock: o.needText("stock"),
		Zone: doc.ID(o.text("zone")),
		Aim:  o.angle("aim"), Tilt: o.angle("tilt"), Spin: o.angle("spin"),
		Length: maybe(o, "length", exact(q.ParseMetre)),
	}
}

func (r *reader) run(o *object, id doc.ID, tag string) *doc.Run {
	e := &doc.Run{
		ID: id, Tag: tag,
		Cable: o.text("cable"),
		From:  end(o.need("from", "an end such as {on: L1}").object()),
		To:    end(o.need("to", "an end such as {on: L1}").object()),
		Slack: value(o, "slack", exact(q.ParseMetre)),
		Waste: maybeRatio(o, "waste"),
		Cut:   maybe(o, "cut", exact(q.ParseMetre)),
		With:  doc.ID(o.text("with")),
	}
	legs := o.need("legs", "a list of at least one leg").list()
	e.Legs = slices.Grow(e.Legs, len(legs))
	for i, n := range legs {
		e.Legs = append(e.Legs, leg(n.object(), i == len(legs)-1))
	}
	return e
}

// end reads {on: L1, side: primary, tail: 250 mm} or {at: [3 m, 4 m]}.
func end(o *object) doc.End {
	e := doc.End{
		On:   doc.ID(o.text("on")),
		Side: doc.Side(o.word("side", sideWords)),
		At:   o.point("at"),
		Tail: maybe(o, "tail", exact(q.ParseMetre)),

		Gland:    o.text("gland"),
		Untagged: o.flagOff("tag"),
	}
	if o.y != nil && (e.On == "") != o.has("at") {
		found := "neither of them"
		if e.On != "" {
			found = "both of them"
		}
		o.fail(found, "either on or at")
	}
	o.done()
	return e
}

func leg(o *object, last bool) doc.Leg {
	l := doc.Leg{
		Support: network.Support(o.need("support", supportWanted).word(supportWords)),
		Depth:   o.length("depth"),
		Height:  o.length("height"),
		Method:  o.text("method"),
		Group:   o.whole("group", 0, 100),
		NoTape:  o.has("tape") && !o.flag("tape"),
		Sleeve:  o.flag("sleeve"),
		Hole:    o.text("hole"),
	}
	switch to := o.get("to"); {
	case !last:
		l.To = o.need("to", "a point such as [4 m, 2 m]").point()
	case to.present():
		to.fail("a point", "nothing: the last leg ends where the run ends")
	}
	o.done()
	return l
}

func zone(o *object, id doc.ID, tag string) *doc.Zone {
	return &doc.Zone{
		ID: id, Tag: tag, Name: o.text("name"),
		Number: o.whole("number", 0, 10000), Colour: o.text("colour"),
		Control: doc.ID(o.text("control")), Dimmed: o.flag("dimmed"),
		Off: offTime(o, "off", `a time such as "22:30", or dawn`),
	}
}

// points reads a list of points.
func points(n node) []geom.Point {
	var out []geom.Point
	for _, p := range n.list() {
		out = append(out, p.point())
	}
	return out
}

func area(o *object, id doc.ID, tag string) *doc.Area {
	return &doc.Area{
		ID: id, Tag: tag, Kind: o.needText("kind"), Name: o.text("name"),
		Ring:     points(o.need("ring", "a list of points")),
		DigDepth: o.length("dig_depth"), Height: o.length("height"),
		Low: o.flag("low"), Use: o.text("use"),
	}
}

func line(o *object, id doc.ID, tag string) *doc.Line {
	return &doc.Line{
		ID: id, Tag: tag, Kind: o.needText("kind"), Name: o.text("name"),
		Path:   points(o.need("path", "a list of points")),
		Height: o.length("height"), Owner: o.text("owner"), Use: o.text("use"),
	}
}

func mark(o *object, id doc.ID, tag string) *doc.Mark {
	return &doc.Mark{
		ID: id, Tag: tag, Kind: o.needText("kind"), Name: o.text("name"),
		Place: place(o), Radius: o.length("radius"), Crown: o.length("crown"),
		CrownBase: o.length("crown_base"), CrownTop: o.length("crown_top"), CrownPass: maybeRatio(o, "crown_pass"),
		Owner: o.text("owner"),
	}
}
