package panel

import (
	"strings"

	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// gearForm is the properties of an isolator, fused unit or control.
func gearForm(on *subject) *form {
	f := newForm(on)
	gear := func() *doc.Gear { e, _ := on.scheme().Gear.Get(on.id); return e }
	set := func(change func(*doc.Gear)) edit.Operation {
		e := *gear()
		change(&e)
		return put(&e)
	}
	f.text("Label", func() string { return gear().Tag },
		func(v string) edit.Operation { return set(func(e *doc.Gear) { e.Tag = v }) })
	f.stock("Gear", func() []option { return gearOptions(on.frame.Stock) }, func() string { return gear().Stock },
		func(v string) edit.Operation { return set(func(e *doc.Gear) { e.Stock = v }) })
	f.figure("", func() string {
		g, ok := on.frame.Stock.GearItem(gear().Stock)
		if !ok {
			return ""
		}
		out := g.Kind
		for _, key := range g.Devices {
			if d, ok := on.frame.Stock.Device(key); ok {
				out += ", " + d.Name
			}
		}
		if g.IP != "" {
			out += ", " + g.IP
		}
		return out + gearFacts(g.Control)
	})
	f.figure("Switches", func() string {
		var names []string
		for _, z := range on.scheme().Zones.All() {
			if z.Control == on.id {
				names = append(names, zoneName(z))
			}
		}
		return strings.Join(names, ", ")
	}).when = func() bool {
		for _, z := range on.scheme().Zones.All() {
			if z.Control == on.id {
				return true
			}
		}
		return false
	}
	f.angle("Aim", func() float64 { return gear().Aim },
		func(v float64) edit.Operation { return set(func(e *doc.Gear) { e.Aim = v }) }).when = func() bool {
		g, ok := on.frame.Stock.GearItem(gear().Stock)
		return ok && g.Kind == network.Sensor
	}
	placeRows(f, func() doc.Place { return gear().Place }, func(p doc.Place) edit.Operation {
		return set(func(e *doc.Gear) { e.Place = p })
	})
	readings(f)
	return f
}
