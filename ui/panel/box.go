package panel

import (
	"strconv"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// boxForm is the properties of a junction box.
func boxForm(on *subject) *form {
	f := newForm(on)
	box := func() *doc.Box { e, _ := on.scheme().Boxes.Get(on.id); return e }
	set := func(change func(*doc.Box)) edit.Operation {
		e := *box()
		change(&e)
		return put(&e)
	}
	f.text("Label", func() string { return box().Tag },
		func(v string) edit.Operation { return set(func(e *doc.Box) { e.Tag = v }) })
	f.stock("Box", func() []option { return boxOptions(on.frame.Stock) }, func() string { return box().Stock },
		func(v string) edit.Operation { return set(func(e *doc.Box) { e.Stock = v }) })
	f.figure("", func() string {
		b, ok := on.frame.Stock.Box(box().Stock)
		if !ok {
			return ""
		}
		out := strconv.Itoa(b.Entries) + " entries, " + b.IP
		if b.Side > 0 {
			out += ", " + strconv.FormatFloat(float64(b.Side)*1e3, 'f', 0, 64) + " mm square"
		}
		if b.Buried {
			out += ", made for burial"
		}
		return out
	})
	boxRows(f, box, set)
	placeRows(f, func() doc.Place { return box().Place }, func(p doc.Place) edit.Operation {
		return set(func(e *doc.Box) { e.Place = p })
	})
	readings(f)
	return f
}

// boxRows adds what is filled in, reached and left open.
func boxRows(f *form, box func() *doc.Box, set func(func(*doc.Box)) edit.Operation) {
	on := f.on
	f.choice("Filled with", fillOptions, func() string { return box().Fill },
		func(v string) edit.Operation { return set(func(e *doc.Box) { e.Fill = v }) })
	f.check("Hidden, without a hatch", func() bool { return box().Hidden },
		func(v bool) edit.Operation { return set(func(e *doc.Box) { e.Hidden = v }) })
	number := func(name string, of func(*doc.Box) *int) {
		f.number(name, "", func() string { return strconv.Itoa(*of(box())) }, func(s string) error {
			n, err := parseCount(s)
			if err != nil {
				return err
			}
			return on.desk.Commit(set(func(e *doc.Box) { *of(e) = n }))
		})
	}
	f.fold(named("Entries and armour"), func() {
		number("Entries in the top", func(e *doc.Box) *int { return &e.TopEntries })
		number("Entries left open", func(e *doc.Box) *int { return &e.Open })
		f.check("Armours linked", func() bool { return !box().Unlinked },
			func(v bool) edit.Operation { return set(func(e *doc.Box) { e.Unlinked = !v }) }).when = func() bool {
			b, ok := on.frame.Stock.Box(box().Stock)
			return ok && !b.Metal
		}
	})
}
