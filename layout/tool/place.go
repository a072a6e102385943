package tool

import (
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

const suppliedHint = "Enter under Properties what the survey found, then place lamps with L"

// placing puts one kind of point entity on the plan, as often as one clicks.
type placing struct {
	set  *Defaults
	kind kind
	// down is set while the button is held.
	down bool
	// pressed is where the button went down.
	pressed geom.Point
	typed   entry // the place, "=4,2"
	id      doc.ID
	at      geom.Point
	op      edit.Operation
}

// kind is one kind of point entity that can be placed.
type kind struct {
	name string
	hint string
	// make returns the new entity; refused says why there is none.
	make func(d *Defaults, w *World, id doc.ID, at geom.Point) (e doc.Entity, refused string)
}

// NewSupply returns the tool that places supply points.
func NewSupply(d *Defaults) Tool {
	return placing{set: d, kind: kind{NameSupply, "Click where the garden takes its power; Esc goes back to Select", makeSupply}}
}

// NewBox returns the tool that places junction boxes.
func NewBox(d *Defaults) Tool {
	return placing{set: d, kind: kind{NameBox, "Click to place a box; Esc goes back to Select", makeBox}}
}

// NewLamp returns the tool that places lamps of the chosen stock.
func NewLamp(d *Defaults) Tool {
	return placing{set: d, kind: kind{NameLamp, "Click to place a lamp; Esc goes back to Select", makeLamp}}
}

// NewGear returns the tool that places gear.
func NewGear(d *Defaults) Tool {
	return placing{set: d, kind: kind{NameGear, "Click to place gear; Esc goes back to Select", makeGear}}
}

// NewSource returns the tool that places sources.
func NewSource(d *Defaults) Tool {
	return placing{set: d, kind: kind{NameSource, "Click to place a source; Esc goes back to Select", makeSource}}
}

// Name implements Tool.
func (t placing) Name() string { return t.kind.name }

// Handle implements Tool.
func (t placing) Handle(e Event, w *World) Verdict {
	if t.kind.name == NameMark {
		t.kind.hint = markHint(t.set)
	}
	stay := Verdict{Hint: t.kind.hint}
	switch e.Kind {
	case Down:
		if e.Button != LeftButton {
			return stay
		}
		t.down, t.typed, t.id, t.pressed = true, "", t.set.id(), e.At
		return t.move(e, w)
	case Move:
		if t.down && t.crowns(e) {
			return t.crown(e, w)
		}
		if t.down {
			return t.move(e, w)
		}
		return t.hover(e, w)
	case Up:
		if e.Button == LeftButton && t.down {
			return t.up()
		}
	case Cancel:
		return t.idle(true)
	case Key:
		return t.key(e, w)
	case Rune:
		if !t.down && t.typed.takes(e.Rune, false) {
			t.typed = t.typed.with(e.Rune)
			return t.used(e, w)
		}
	}
	return stay
}

// hover shows where a click, or what was typed, would place something.
func (t placing) hover(e Event, w *World) Verdict {
	s := t.snap(e, w)
	v := Verdict{Hint: t.kind.hint, Next: t}
	v.Overlay = Overlay{Snap: &s.at, Note: t.called(), NoteAt: s.at, Typed: t.typed.shown()}
	if t.typed != "" {
		v.Overlay.Snap = nil
		if at, err := t.typed.coordinates(); err == nil {
			v.Overlay.Snap, v.Overlay.NoteAt, v.Overlay.Leads = &at, at, &at
		}
	}
	return v
}

// called returns what is placed: of a mark its kind.
func (t placing) called() string {
	if t.kind.name == NameMark {
		return capital(t.set.Ground.Mark.Kind)
	}
	return t.kind.name
}

// used is hover for a key that the tool has taken.
func (t placing) used(e Event, w *World) Verdict {
	v := t.hover(e, w)
	v.Used = true
	return v
}

// typedKey takes the keys while a place is typed.
func (t placing) typedKey(e Event, w *World) Verdict {
	switch e.Key {
	case KeyEscape:
		t.typed = ""
	case KeyBackSpace:
		t.typed = t.typed.back()
	case KeyReturn:
		at, err := t.typed.coordinates()
		if err != nil {
			v := t.used(e, w)
			v.Refused = err.Error()
			return v
		}
		t.id = t.set.id()
		placed := t.putAt(w, at)
		if t = placed.Next.(placing); t.op == nil {
			return placed
		}
		return t.up()
	}
	return t.used(e, w)
}

func (t placing) snap(e Event, w *World) snapped { return snapTo(e, w, snap{}) }

// idle returns the verdict that goes back to waiting for a click.
func (t placing) idle(cancel bool) Verdict {
	return Verdict{Cancel: cancel, Next: placing{set: t.set, kind: t.kind}, Hint: t.kind.hint}
}

func (t placing) move(e Event, w *World) Verdict {
	return t.putAt(w, t.snap(e, w).at)
}

// putAt previews the thing at a place.
func (t placing) putAt(w *World, at geom.Point) Verdict {
	v := Verdict{Hint: t.kind.hint, Overlay: Overlay{Snap: &at, NoteAt: at}}
	thing, refused := t.kind.make(t.set, w, t.id, at)
	if refused == "" && t.kind.name != NameMark {
		refused = taken(w.Scheme, at)
	}
	if refused != "" {
		t.op = nil
		v.Refused, v.Cancel, v.Next = refused, true, t
		return v
	}
	t.at, t.op = at, edit.Place{Entity: thing}
	v.Overlay.Note = thing.Label()
	v.Preview, v.Next = t.op, t
	return v
}

func (t placing) up() Verdict {
	v := t.idle(false)
	if t.op == nil {
		v.Cancel = true
		return v
	}
	v.Commit, v.Select, v.Selects = t.op, []doc.ID{t.id}, true
	if t.kind.name == NameSupply {
		// A garden seldom has two, and a second click would make one.
		v.Next, v.Hint = NewSelect(t.set), suppliedHint
	}
	return v
}

func (t placing) key(e Event, w *World) Verdict {
	switch {
	case t.typed != "" && !t.down:
		return t.typedKey(e, w)
	case e.Key == KeyEscape && t.down:
		return t.idle(true)
	case e.Key == KeyEscape:
		return Verdict{Next: NewSelect(t.set), Hint: selectHint}
	case !t.down:
		// Delete and the arrows work on what was placed last; the tool stays.
		v := selecting{set: t.set}.key(e, w)
		v.Hint = t.kind.hint
		return v
	}
	return Verdict{Hint: t.kind.hint}
}

// taken says which entity stands exactly at a place already, "" for none: two
// symbols on one spot look like one.
func taken(s *doc.Scheme, at geom.Point) (refused string) {
	eachPoint(s, func(id doc.ID, p geom.Point) {
		if p == at && refused == "" {
			refused = doc.TagOf(s, id) + " stands there already"
		}
	})
	return refused
}

func makeSupply(d *Defaults, w *World, id doc.ID, at geom.Point) (doc.Entity, string) {
	e := d.Supply
	e.ID, e.Tag, e.Place.At = id, doc.FreeTag(w.Scheme, doc.SupplyKind), at
	return &e, ""
}

func makeBox(d *Defaults, w *World, id doc.ID, at geom.Point) (doc.Entity, string) {
	item, ok := w.Stock.Box(d.Box)
	if !ok {
		return nil, noStock("box", d.Box)
	}
	return &doc.Box{ID: id, Tag: doc.FreeTag(w.Scheme, doc.BoxKind), Place: doc.Place{At: at, Height: item.Height}, Stock: d.Box}, ""
}

func makeLamp(d *Defaults, w *World, id doc.ID, at geom.Point) (doc.Entity, string) {
	item, ok := w.Stock.Lamp(d.Lamp)
	if !ok {
		return nil, noStock("lamp", d.Lamp)
	}
	return &doc.Lamp{ID: id, Tag: doc.FreeTag(w.Scheme, doc.LampKind), Place: doc.Place{At: at, Height: item.Height}, Stock: d.Lamp}, ""
}

func makeGear(d *Defaults, w *World, id doc.ID, at geom.Point) (doc.Entity, string) {
	item, ok := w.Stock.GearItem(d.Gear)
	if !ok {
		return nil, noStock("gear", d.Gear)
	}
	return &doc.Gear{ID: id, Tag: doc.FreeTag(w.Scheme, doc.GearKind), Place: doc.Place{At: at, Height: item.Height}, Stock: d.Gear}, ""
}

func makeSource(d *Defaults, w *World, id doc.ID, at geom.Point) (doc.Entity, string) {
	item, ok := w.Stock.Converter(d.Source)
	if !ok {
		return nil, noStock("source", d.Source)
	}
	return &doc.Source{ID: id, Tag: doc.FreeTag(w.Scheme, doc.SourceKind), Place: doc.Place{At: at, Height: item.Height}, Stock: d.Source}, ""
}

func noStock(what, key string) string {
	if key == "" {
		return "No " + what + " is chosen in the tray"
	}
	return "The stock book has no " + what + " \"" + key + "\""
}
