package panel

import (
	"fmt"
	"strconv"
	"strings"

	q "duskwire/calc/quantity"
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
	f.figure("Light", func() string { return lightState(on, lamp().Stock) })
	f.button("Light of this fitting…", func() { on.light() })
	f.choice("Switched in", func() []option { return zoneOptions(on.scheme()) }, func() string { return string(lamp().Zone) },
		func(v string) edit.Operation { return set(func(e *doc.Lamp) { e.Zone = doc.ID(v) }) })
	f.button("Properties of the zone", func() { on.show(lamp().Zone) }).when = func() bool { return lamp().Zone != "" }
	f.button("New zone for this lamp", func() { on.newZone(on.id) }).when = func() bool { return lamp().Zone == "" }
	maybe(f, "Length of the strip", "m", q.ParseMetre, func() q.Maybe[q.Metre] { return lamp().Length },
		func(v q.Maybe[q.Metre]) edit.Operation { return set(func(e *doc.Lamp) { e.Length = v }) }).when = func() bool {
		return isStrip(on.frame.Stock, lamp())
	}
	placeRows(f, func() doc.Place { return lamp().Place },
		func(p doc.Place) edit.Operation {
			return set(func(e *doc.Lamp) { e.Place = p })
		})
	aimRows(f, lamp, set)
	readings(f)
	return f
}

// isStrip reports whether a lamp is a strip with two ends.
func isStrip(s *doc.Stock, l *doc.Lamp) bool {
	item, ok := s.Lamp(l.Stock)
	return ok && item.Length > 0
}

// aimRows adds where the beam of a lamp points.
func aimRows(f *form, lamp func() *doc.Lamp, set func(func(*doc.Lamp)) edit.Operation) {
	angle := func(name string, of func(*doc.Lamp) *float64) {
		f.angle(name, func() float64 { return *of(lamp()) },
			func(v float64) edit.Operation { return set(func(e *doc.Lamp) { *of(e) = v }) })
	}
	aimed := func() bool { return lamp().Aim != 0 || lamp().Tilt != 0 }
	f.fold(func() string {
		if !aimed() {
			return "Beam: not aimed"
		}
		return "Beam: aim " + degrees(lamp().Aim) + ", tilt " + degrees(lamp().Tilt)
	}, func() {
		f.hint("Aim is on the plan, clockwise: 0° up the sheet, 90° to the right. Tilt is above the horizon: 90° straight up, -90° straight down. " +
			"Spin turns the lamp about its beam, clockwise as seen from behind. Aim and tilt both 0° means not aimed: the beam is not checked.")
		angle("Aim", func(e *doc.Lamp) *float64 { return &e.Aim })
		angle("Tilt", func(e *doc.Lamp) *float64 { return &e.Tilt })
		angle("Spin", func(e *doc.Lamp) *float64 { return &e.Spin })
	})
}

// lightState says where the light of a fitting comes from.
func lightState(on *subject, fitting string) string {
	of, ok := on.scheme().LightOf(fitting)
	l := on.frame.Lights.Of(fitting)
	switch {
	case !ok:
		return "by the stock book" + modelText(on.frame.Stock, fitting)
	case l == nil:
		return of.Name() + ", being read"
	case l.Good():
		set := ""
		if len(l.Table.Sets) > 1 {
			set = fmt.Sprintf(", lamp set %d", l.Table.Set)
		}
		return fmt.Sprintf("%s%s, %.0f lm", of.Name(), set, l.TableFlux())
	}
	return l.Found().Error() + "; by the stock book instead"
}

// modelText writes what the stock book says of the light of a fitting.
func modelText(s *doc.Stock, fitting string) string {
	l, ok := s.Lamp(fitting)
	if !ok || !l.Lit() {
		return ", which does not say how much"
	}
	var out []string
	if l.Flux > 0 {
		out = append(out, fmt.Sprintf("%.4g lm", float64(l.Flux)))
	}
	switch {
	case l.Beam <= 0:
		out = append(out, "beam not known")
	case l.Across > 0:
		out = append(out, fmt.Sprintf("beam %g° upright, %g° across", l.Beam, l.Across))
	default:
		out = append(out, fmt.Sprintf("beam %g°", l.Beam))
	}
	if l.Peak > 0 {
		out = append(out, fmt.Sprintf("peak %.4g cd", float64(l.Peak)))
	}
	return ": " + strings.Join(out, ", ")
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
	if l.Load.Drive > 0 {
		out = milliamps(l.Load.Drive) + " in series, " + l.Load.Nominal.String() + " across it"
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

// placeRows adds height and place of a point entity; more adds to the place.
func placeRows(f *form, read func() doc.Place, set func(p doc.Place) edit.Operation, more ...func()) {
	f.length("Above ground", func() geom.Length { return read().Height }, func(v geom.Length) edit.Operation {
		p := read()
		p.Height = v
		return set(p)
	})
	f.fold(named("Place on the plan"), func() {
		f.coordinates(func() geom.Point { return read().At }, func(at geom.Point) edit.Operation {
			p := read()
			p.At = at
			return set(p)
		})
		for _, add := range more {
			add()
		}
	})
}
