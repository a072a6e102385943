package panel

import (
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// sourceForm is the properties of a transformer or driver.
func sourceForm(on *subject) *form {
	f := newForm(on)
	source := func() *doc.Source { e, _ := on.scheme().Sources.Get(on.id); return e }
	set := func(change func(*doc.Source)) edit.Operation {
		e := *source()
		change(&e)
		return put(&e)
	}
	f.text("Label", func() string { return source().Tag },
		func(v string) edit.Operation { return set(func(e *doc.Source) { e.Tag = v }) })
	f.stock("Source", func() []option { return sourceOptions(on.frame.Stock) }, func() string { return source().Stock },
		func(v string) edit.Operation { return set(func(e *doc.Source) { e.Stock = v }) })
	f.figure("", func() string {
		s, ok := on.frame.Stock.Converter(source().Stock)
		if !ok {
			return ""
		}
		c := s.Converter
		kind := "wound transformer"
		if c.Regulated {
			kind = "regulated"
		}
		out := c.Nominal.String() + " " + c.Current.String() + ", " + c.Rated.String() + ", " + kind
		if c.Drive > 0 {
			out = driverFacts(c)
		}
		if c.SELV {
			out += ", SELV"
		}
		if s.IP != "" {
			out += ", " + s.IP
		}
		return out + supplyFacts(s.Leakage, c.Inrush, s.Dimmable)
	})
	placeRows(f, func() doc.Place { return source().Place }, func(p doc.Place) edit.Operation {
		return set(func(e *doc.Source) { e.Place = p })
	})
	readings(f)
	return f
}
