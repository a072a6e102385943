package panel

import (
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

// manyForm is what several things have in common, to be set for all at once:
// one step that undo takes back whole.
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
		f.common(k.caption, k.what, func() []option { return k.options(on.frame.Stock) }, doc.StockOf, withStock).
			when = func() bool { return on.all(k.kind) }
	}
	f.common("Switched in", "zone", func() []option { return zoneOptions(on.scheme()) },
		func(e doc.Entity) string { return string(e.(*doc.Lamp).Zone) },
		func(e doc.Entity, key string) edit.Operation {
			return edit.SetZone{Lamps: []doc.ID{e.Key()}, Zone: doc.ID(key)}
		}).when = func() bool { return on.all(doc.LampKind) }
	heightRow(f)
	manyLock(f)
	return f
}

// heightRow adds how high things stand, when all stand at one place each.
func heightRow(f *form) {
	on := f.on
	height := func(e doc.Entity) string {
		p, _ := doc.PlaceOf(e)
		return LengthText(p.Height)
	}
	f.field("Above ground", differing, "m", func() string {
		if v := on.shared(height); v != differs {
			return v
		}
		return ""
	}, func(s string) error {
		m, err := q.ParseMetre(s)
		if err != nil {
			return err
		}
		return on.desk.Commit(on.setAll("height", func(e doc.Entity) edit.Operation {
			return edit.SetHeight{ID: e.Key(), Height: geom.Metres(float64(m))}
		}))
	}).when = func() bool {
		return on.every(func(e doc.Entity) bool { _, ok := doc.PlaceOf(e); return ok })
	}
}

// manyLock adds whether the things stay as they are drawn.
func manyLock(f *form) {
	on := f.on
	r := newChoiceRow("Lock", func() []option {
		return on.withDiffers(on.shared(lockKey), []option{{keyFree, "Free"}, {keyLocked, "Locked: not moved, bent or deleted"}})
	}, func() string { return on.shared(lockKey) }, func(key string) error {
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

// common adds a list that shows what the things have in common and sets it for
// all of them.
func (f *form) common(name, what string, options func() []option, read func(doc.Entity) string, set func(doc.Entity, string) edit.Operation) *line {
	on := f.on
	r := newChoiceRow(name, func() []option { return on.withDiffers(on.shared(read), options()) },
		func() string { return on.shared(read) },
		func(key string) error {
			return on.desk.Commit(on.setAll(what, func(e doc.Entity) edit.Operation { return set(e, key) }))
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

// setAll is the operation that sets one property of all things shown.
func (s *subject) setAll(what string, op func(doc.Entity) edit.Operation) edit.Operation {
	out := edit.SetAll{What: what, IDs: s.ids}
	for _, id := range s.ids {
		e, _ := doc.Find(s.scheme(), id)
		out.Ops = append(out.Ops, op(e))
	}
	return out
}

// shared returns what read says of all things shown, or differs.
func (s *subject) shared(read func(doc.Entity) string) string {
	value := differs
	for i, id := range s.ids {
		e, kind := doc.Find(s.scheme(), id)
		if kind == doc.NoKind {
			continue
		}
		switch v := read(e); {
		case i == 0:
			value = v
		case v != value:
			return differs
		}
	}
	return value
}

// every reports whether something holds of all things shown.
func (s *subject) every(is func(doc.Entity) bool) bool {
	for _, id := range s.ids {
		e, kind := doc.Find(s.scheme(), id)
		if kind == doc.NoKind || !is(e) {
			return false
		}
	}
	return len(s.ids) > 0
}

func (s *subject) all(k doc.Kind) bool {
	return s.every(func(e doc.Entity) bool { return doc.KindOfEntity(e) == k })
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
