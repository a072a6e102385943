package panel

import (
	"strconv"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// lampForm is the properties of a lamp.
func lampForm(on *subject) *form {
	f := newForm(on)
	lamp := func() *doc.Lamp { e, _ := on.scheme().Lamps.Get(on.id); return e }
	set := func(change func(*doc.Lamp)) edit.Operation {
		e := *lamp()
		change(&e)
		return put(&e)
	}
	f.text("Label", func() string { return lamp().Tag },
		func(v string) edit.Operation { return set(func(e *doc.Lamp) { e.Tag = v }) })
	f.stock("Fitting", func() []option { return lampOptions(on.frame.Stock) }, func() string { return lamp().Stock },
		func(v string) edit.Operation { return set(func(e *doc.Lamp) { e.Stock = v }) })
	f.figure("", func() string { return lampFacts(on.frame.Stock, lamp().Stock) })
	f.choice("Switched in", func() []option { return zoneOptions(on.scheme()) }, func() string { return string(lamp().Zone) },
		func(v string) edit.Operation { return set(func(e *doc.Lamp) { e.Zone = doc.ID(v) }) })
	f.button("Properties of the zone", func() { on.show(lamp().Zone) }).when = func() bool { return lamp().Zone != "" }
	f.button("New zone for this lamp", func() { on.newZone(on.id) }).when = func() bool { return lamp().Zone == "" }
	placeRows(f, func() doc.Place { return lamp().Place },
		func(p doc.Place) edit.Operation {
			return set(func(e *doc.Lamp) { e.Place = p })
		})
	readings(f)
	return f
}

// lampFacts tells what the stock book says about a fitting.
func lampFacts(s *doc.Stock, key string) string {
	l, ok := s.Lamp(key)
	if !ok {
		return ""
	}
	out := l.Load.Nominal.String()
	if l.AnyCurrent {
		out += " AC or DC"
	} else if l.Load.Nominal < 50 {
		out += " " + l.Current.String()
	}
	out += ", " + l.Load.Power.String() + ", class " + l.Class.String()
	if l.IP != "" {
		out += ", " + l.IP
	}
	if l.Load.PowerFactor < 1 {
		out += ", power factor " + strconv.FormatFloat(l.Load.PowerFactor, 'g', 3, 64)
	}
	return out + supplyFacts(l.Leakage, l.Inrush, l.Dimmable)
}

func zoneOptions(s *doc.Scheme) []option {
	out := []option{{"", "No zone"}}
	for _, z := range s.Zones.All() {
		out = append(out, option{string(z.ID), zoneName(z)})
	}
	return out
}

// placeRows adds height and place of a point entity.
func placeRows(f *form, read func() doc.Place, set func(p doc.Place) edit.Operation) {
	f.length("Height above ground", func() geom.Length { return read().Height }, func(v geom.Length) edit.Operation {
		p := read()
		p.Height = v
		return set(p)
	})
	f.coordinates(func() geom.Point { return read().At }, func(at geom.Point) edit.Operation {
		p := read()
		p.At = at
		return set(p)
	})
}
