package panel

import (
	"slices"
	"strconv"
	"strings"

	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// differs is the key, and differing the word, for what the things selected do
// not have in common.
const (
	differs   = "\x00"
	differing = "differs"
)

// The keys of the list about the lock.
const keyFree, keyLocked = "free", "locked"

// part says which of the things selected a row is about.
type part func(doc.Entity) bool

func ofKind(k doc.Kind) part {
	return func(e doc.Entity) bool { return doc.KindOfEntity(e) == k }
}

// anything is the part of a row that is about all of them.
func anything(doc.Entity) bool { return true }

// placed is what stands at one place and so has a height.
func placed(e doc.Entity) bool { _, ok := doc.PlaceOf(e); return ok }

// manyForm is what several things have in common, to be set for all at once:
// one step that undo takes back whole. Of things of several kinds a row sets those
// that it fits.
func manyForm(on *subject) *form {
	f := newForm(on)
	for _, k := range []struct {
		kind    doc.Kind
		caption string
		what    string
		options func(*doc.Stock) []option
	}{
		{doc.LampKind, "Fitting", "fitting", lampOptions},
		{doc.BoxKind, "Box", "stock item", boxOptions},
		{doc.GearKind, "Gear", "stock item", gearOptions},
		{doc.SourceKind, "Source", "stock item", sourceOptions},
		{doc.RunKind, "Cable", "cable", cableOptions},
	} {
		f.common(ofKind(k.kind), k.caption, k.what, func() []option { return k.options(on.frame.Stock) }, doc.StockOf, withStock).
			when = func() bool { return on.every(ofKind(k.kind)) || k.kind == doc.RunKind && on.some(ofKind(k.kind)) }
	}
	runRows(f)
	f.common(ofKind(doc.LampKind), "Switched in", "zone", func() []option { return zoneOptions(on.scheme()) },
		func(e doc.Entity) string { return string(e.(*doc.Lamp).Zone) },
		func(e doc.Entity, key string) edit.Operation {
			return edit.SetZone{Lamps: []doc.ID{e.Key()}, Zone: doc.ID(key)}
		}).when = func() bool { return on.some(ofKind(doc.LampKind)) }
	heightRow(f)
	manyLock(f)
	return f
}

// runRows add how the legs of runs are carried, and how deep those in the ground
// lie.
func runRows(f *form) {
	on, runs := f.on, ofKind(doc.RunKind)
	f.common(runs, "Support, all legs", "support", supportOptions, legsSupport, func(e doc.Entity, key string) edit.Operation {
		return edit.TurnLeg{Run: e.Key(), Leg: -1, Support: supportByKey(key), Depth: usualDepth, Height: usualHeight}
	}).when = func() bool { return on.some(runs) }
	f.commonLength(buriedRun, "Depth in the ground", "depth", legsDepth, withDepth)
}

// usualHeight is given to a leg that comes out of the ground: 300 mm, as a new
// window draws it.
const usualHeight = 300 * geom.Millimetre

// legsSupport is how all legs of a run are carried, differs when not all the same.
func legsSupport(e doc.Entity) string {
	legs := e.(*doc.Run).Legs
	for _, l := range legs {
		if l.Support != legs[0].Support {
			return differs
		}
	}
	if len(legs) == 0 {
		return differs
	}
	return supportKey(legs[0].Support)
}

// buriedRun is a run with a leg in the ground.
func buriedRun(e doc.Entity) bool {
	r, ok := e.(*doc.Run)
	return ok && slices.ContainsFunc(r.Legs, func(l doc.Leg) bool { return underground(l.Support) })
}

// legsDepth is how deep the legs of a run in the ground lie.
func legsDepth(e doc.Entity) string {
	var depth geom.Length
	seen := false
	for _, l := range e.(*doc.Run).Legs {
		switch {
		case !underground(l.Support):
		case !seen:
			depth, seen = l.Depth, true
		case l.Depth != depth && LengthText(l.Depth) != LengthText(depth):
			return differs
		}
	}
	if !seen {
		return ""
	}
	return LengthText(depth) // of thousands of legs: a text for each would take longer than the rest
}

func withDepth(e doc.Entity, depth geom.Length) edit.Operation {
	c := *e.(*doc.Run)
	c.Legs = slices.Clone(c.Legs)
	for i := range c.Legs {
		if underground(c.Legs[i].Support) {
			c.Legs[i].Depth = depth
		}
	}
	return put(&c)
}

// heightRow adds how high things stand, for those that stand at one place each.
func heightRow(f *form) {
	f.commonLength(placed, "Above ground", "height", func(e doc.Entity) string {
		p, _ := doc.PlaceOf(e)
		return LengthText(p.Height)
	}, func(e doc.Entity, height geom.Length) edit.Operation {
		return edit.SetHeight{ID: e.Key(), Height: height}
	})
}

// commonLength adds a length that is shown when the things have it in common and
// set for all of them, while there is one of the part.
func (f *form) commonLength(of part, name, what string, read func(doc.Entity) string, set func(doc.Entity, geom.Length) edit.Operation) {
	on := f.on
	f.field(name, differing, "m", func() string {
		if v := on.shared(of, read); v != differs {
			return v
		}
		return ""
	}, func(s string) error {
		m, err := q.ParseMetre(s)
		if err != nil {
			return err
		}
		return on.desk.Commit(on.setAll(of, what, func(e doc.Entity) edit.Operation { return set(e, geom.Metres(float64(m))) }))
	}).when = func() bool { return on.some(of) }
}

// manyLock adds whether the things stay as they are drawn.
func manyLock(f *form) {
	on := f.on
	r := newChoiceRow("Lock", func() []option {
		return on.withDiffers(on.shared(anything, lockKey), []option{{keyFree, "Free"}, {keyLocked, "Locked: not moved, bent or deleted"}})
	}, func() string { return on.shared(anything, lockKey) }, func(key string) error {
		return on.desk.Commit(edit.SetLock{IDs: on.ids, On: key == keyLocked})
	})
	f.add(r)
}

func lockKey(e doc.Entity) string {
	if doc.Locked(e) {
		return keyLocked
	}
	return keyFree
}

// common adds a list that shows what the things of the part have in common and sets
// it for all of them.
func (f *form) common(of part, name, what string, options func() []option, read func(doc.Entity) string, set func(doc.Entity, string) edit.Operation) *line {
	on := f.on
	r := newChoiceRow(name, func() []option { return on.withDiffers(on.shared(of, read), options()) },
		func() string { return on.shared(of, read) },
		func(key string) error {
			return on.desk.Commit(on.setAll(of, what, func(e doc.Entity) edit.Operation { return set(e, key) }))
		})
	r.widen()
	f.add(r)
	return &r.line
}

// withDiffers puts the word for no common value before the options while it is
// what is shown; choosing it changes nothing.
func (s *subject) withDiffers(now string, options []option) []option {
	if now != differs {
		return options
	}
	return append([]option{{differs, differing}}, options...)
}

// setAll is the operation that sets one property of the things of the part.
func (s *subject) setAll(of part, what string, op func(doc.Entity) edit.Operation) edit.Operation {
	out := edit.SetAll{What: what}
	for _, e := range s.those(of) {
		out.IDs = append(out.IDs, e.Key())
		out.Ops = append(out.Ops, op(e))
	}
	return out
}

// found are the things with ids in a scheme, kept because every row asks for them.
type found struct {
	in   *doc.Scheme
	ids  []doc.ID // never changed in place
	list []doc.Entity
}

// things returns the things shown that the scheme has.
func (s *subject) things() []doc.Entity {
	f := &s.found
	if same := len(f.ids) == len(s.ids) && (len(s.ids) == 0 || &f.ids[0] == &s.ids[0]); same && f.in == s.scheme() {
		return f.list
	}
	*f = found{s.scheme(), s.ids, make([]doc.Entity, 0, len(s.ids))}
	for _, id := range s.ids {
		if e, kind := doc.Find(f.in, id); kind != doc.NoKind {
			f.list = append(f.list, e)
		}
	}
	return f.list
}

// those returns the things shown that are of the part.
func (s *subject) those(of part) (out []doc.Entity) {
	for _, e := range s.things() {
		if of(e) {
			out = append(out, e)
		}
	}
	return out
}

// shared returns what read says of all things of the part, or differs.
func (s *subject) shared(of part, read func(doc.Entity) string) string {
	value, first := differs, true
	for _, e := range s.things() {
		if !of(e) {
			continue
		}
		switch v := read(e); {
		case first:
			value, first = v, false
		case v != value:
			return differs
		}
	}
	return value
}

// some reports whether there is a thing of the part among those shown.
func (s *subject) some(of part) bool { return slices.ContainsFunc(s.things(), of) }

// every reports whether something holds of all things shown.
func (s *subject) every(is func(doc.Entity) bool) bool {
	list := s.things()
	return len(list) > 0 && len(list) == len(s.ids) && !slices.ContainsFunc(list, func(e doc.Entity) bool { return !is(e) })
}

// mixed says, of things of several kinds, how many of them the rows are about; ""
// when the rows are about all of them.
func (s *subject) mixed() string {
	var out []string
	for _, row := range []struct {
		name string
		of   part
	}{{"a height", placed}, {"a zone", ofKind(doc.LampKind)}, {"a cable with its support", ofKind(doc.RunKind)}} {
		if n := len(s.those(row.of)); n > 0 && n < len(s.ids) {
			out = append(out, strconv.Itoa(n)+" may have "+row.name)
		}
	}
	if len(out) == 0 {
		return ""
	}
	return "Of these " + strings.Join(out, ", ") + "; a row sets those that it fits. "
}

// withStock makes a thing another stock item.
func withStock(e doc.Entity, key string) edit.Operation {
	switch e := e.(type) {
	case *doc.Box:
		c := *e
		c.Stock = key
		return put(&c)
	case *doc.Lamp:
		c := *e
		c.Stock = key
		return put(&c)
	case *doc.Gear:
		c := *e
		c.Stock = key
		return put(&c)
	case *doc.Source:
		c := *e
		c.Stock = key
		return put(&c)
	case *doc.Run:
		return edit.SetCable{Runs: []doc.ID{e.ID}, Cable: key}
	}
	return put(e)
}
