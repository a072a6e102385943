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
		if b.Buried {
			out += ", made for burial"
		}
		return out
	})
	placeRows(f, func() doc.Place { return box().Place }, func(p doc.Place) edit.Operation {
		return set(func(e *doc.Box) { e.Place = p })
	})
	readings(f)
	return f
}
