package panel

import (
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// zoneForm is the properties of a zone: lamps that are switched together.
func zoneForm(on *subject) *form {
	f := newForm(on)
	zone := func() *doc.Zone { e, _ := on.scheme().Zones.Get(on.id); return e }
	set := func(change func(*doc.Zone)) edit.Operation {
		e := *zone()
		change(&e)
		return put(&e)
	}
	f.text("Label", func() string { return zone().Tag },
		func(v string) edit.Operation { return set(func(e *doc.Zone) { e.Tag = v }) })
	f.text("Name", func() string { return zone().Name },
		func(v string) edit.Operation { return set(func(e *doc.Zone) { e.Name = v }) })
	f.number("Number on the plan", "", func() string { return strconv.Itoa(zone().Number) }, func(s string) error {
		n, err := parseCount(s)
		if err != nil {
			return err
		}
		return on.desk.Commit(set(func(e *doc.Zone) { e.Number = n }))
	})
	f.choice("Colour", colourOptions, func() string { return zone().Colour },
		func(v string) edit.Operation { return set(func(e *doc.Zone) { e.Colour = v }) })
	f.choice("Switched by", func() []option { return controlOptions(on.scheme(), on.frame.Stock) },
		func() string { return string(zone().Control) },
		func(v string) edit.Operation { return set(func(e *doc.Zone) { e.Control = doc.ID(v) }) })
	f.hint("Place a receiver, photocell, time switch or dimmer on the plan (G) and draw the runs to these lamps from behind it.").when = func() bool {
		return on.scheme().Gear.Len() == 0
	}
	f.check("Dimmed", func() bool { return zone().Dimmed },
		func(v bool) edit.Operation { return set(func(e *doc.Zone) { e.Dimmed = v }) })
	f.off("Off at", "22:30, 01:00 or dawn", true, func() doc.Off { return zone().Off },
		func(v doc.Off) edit.Operation { return set(func(e *doc.Zone) { e.Off = v }) })
	f.hint("When its lamps go out every night. What is off by curfew is left out of light after curfew; empty is taken to burn on.")
	f.figure("Lamps", func() string { return strings.Join(lampsIn(on.scheme(), on.id), ", ") })
	roomRows(f)
	return f
}

// lampsIn lists the tags of a zone's lamps.
func lampsIn(s *doc.Scheme, zone doc.ID) (tags []string) {
	for _, l := range s.Lamps.All() {
		if l.Zone == zone {
			tags = append(tags, l.Tag)
		}
	}
	return tags
}

func colourOptions() []option {
	out := []option{{"", "As it comes"}}
	for _, c := range doc.ZoneColours {
		out = append(out, option{c, capital(c)})
	}
	return out
}

// controlOptions lists the gear of the plan.
func controlOptions(s *doc.Scheme, book *doc.Stock) []option {
	out := []option{{"", "Not said"}}
	for _, g := range s.Gear.All() {
		name := g.Tag
		if item, ok := book.GearItem(g.Stock); ok {
			name += ", " + item.Name
		}
		out = append(out, option{string(g.ID), name})
	}
	return out
}

// zoneName is what people call a zone.
func zoneName(z *doc.Zone) string {
	if z.Name == "" {
		return z.Tag
	}
	return z.Name
}

// zoneLine says in a few words what a zone is.
func zoneLine(s *doc.Scheme, z *doc.Zone) string {
	n := len(lampsIn(s, z.ID))
	out := zoneName(z) + ": " + strconv.Itoa(n) + plural(n, " lamp, ", " lamps, ")
	if z.Control == "" {
		out += "control not said"
	} else {
		out += "by " + doc.TagOf(s, z.Control)
	}
	if z.Dimmed {
		out += ", dimmed"
	}
	if z.Off.Set {
		out += ", off at " + z.Off.String()
	}
	return out
}

// newZone adds a zone with the lamps and shows it.
func (s *subject) newZone(lamps ...doc.ID) {
	z := &doc.Zone{ID: doc.NewID(), Colour: doc.ZoneColours[s.scheme().Zones.Len()%len(doc.ZoneColours)]}
	ops := []edit.Operation{edit.AddZone{Zone: z}}
	if len(lamps) > 0 {
		ops = append(ops, edit.SetZone{Lamps: lamps, Zone: z.ID})
	}
	if s.desk.Commit(edit.Batch{Label: "Add zone", Ops: ops}) == nil {
		s.show(z.ID)
	}
}

// zonesRow lists the zones, a button each that shows its properties.
type zonesRow struct {
	line
	on      *subject
	list    *fyne.Container
	buttons []*Button
	ids     []doc.ID
}

func newZonesRow(on *subject) *zonesRow {
	r := &zonesRow{on: on, list: container.NewVBox()}
	r.box = container.NewVBox(r.list, NewButton("New zone", func() { on.newZone() }).Object())
	return r
}

func (r *zonesRow) flush() {}
func (r *zonesRow) reset() { r.show() }

func (r *zonesRow) show() {
	s := r.on.scheme()
	r.ids = r.ids[:0]
	for i, z := range s.Zones.All() {
		r.ids = append(r.ids, z.ID)
		if i == len(r.buttons) {
			b := NewButton("", func() { r.on.show(r.ids[i]) })
			b.OnFocus = r.on.seen
			r.buttons = append(r.buttons, b)
			r.list.Add(container.New(brokenButton{b}, b, b.ring))
		}
		breaks(r.buttons[i], zoneLine(s, z))
	}
	for i, o := range r.list.Objects {
		if i < len(r.ids) {
			o.Show()
		} else {
			o.Hide()
		}
	}
}

// buttonRow is a button on the value side of a form.
type buttonRow struct {
	line
	button *Button
}

// button adds a button.
func (f *form) button(text string, tapped func()) *line {
	r := &buttonRow{button: NewButton(text, tapped)}
	r.box = container.New(pair{}, caption(""), r.button.Object())
	f.add(r)
	return &r.line
}

func (r *buttonRow) show()  { r.applies() }
func (r *buttonRow) reset() { r.applies() }
func (r *buttonRow) flush() {}
