package packs

import (
	"duskwire/calc/light"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/scene"
)

// runningCost is the page of what the lights cost to run.
func (b *book) runningCost(f *flow) {
	r := b.runningOf()
	f.para("What the lights take from the supply, what that comes to in a year, and when they go out. They come on at sunset. " +
		"Watts are worked out for the scheme as drawn, with what the sources and cables lose; a dimmed zone is counted at full light.")
	if len(r.missing) > 0 {
		text := "the cost is"
		if !r.nights {
			text = "hours and cost are"
		}
		f.note("Not given: " + listed(r.missing) + ". So " + text + " not worked out, which does not mean zero.")
	}
	if len(r.untrue) > 0 {
		f.note("Without circuit " + listed(r.untrue) + ", whose volts have no solution: what it takes is not known.")
	}
	if len(r.unfed) > 0 {
		f.note("Without " + runsOf(r.unfed) + ", connected to no supply: what is not fed is in no figure here.")
	}
	b.runningTable(f, r)
	if r.nights {
		b.hoursTable(f, r)
		b.sunTable(f, r)
	}
	b.standbyTable(f, r)
	for _, a := range r.assumed {
		f.small("Not said, so taken: " + a + ".")
	}
}

// runningTable lists the zones.
func (b *book) runningTable(f *flow, r *running) {
	f.head("By zone")
	t := &table{columns: []column{{head: "Zone", grow: 1}, {head: "Lamps", anchor: scene.Right}, {head: "At the supply", unit: "W", anchor: scene.Right, least: 20}}}
	if r.nights {
		for _, o := range r.off {
			t.columns = append(t.columns, column{head: "Off at " + o.String(), unit: "kWh a year", anchor: scene.Right})
			if r.tariff.Known {
				t.columns = append(t.columns, column{head: "Cost a year", unit: b.scheme.List.Currency, anchor: scene.Right})
			}
		}
	}
	row := func(name, lamps string, w q.Watt, kWh [3]float64) []string {
		cells := []string{name, lamps, digits(float64(w), 1)}
		for i := range r.off {
			if !r.nights {
				break
			}
			cells = append(cells, digits(kWh[i], 1))
			if c := r.cost(kWh[i]); c.Known {
				cells = append(cells, c.Value.String())
			}
		}
		return cells
	}
	year := func(z *zoneDraw) (kWh [3]float64) {
		for i := range kWh {
			kWh[i] = kilowattHours(z.watts, r.burns(z, i))
		}
		return kWh
	}
	own := ""
	for i := range r.zones {
		z, name := &r.zones[i], r.zones[i].name
		if z.off.Set {
			name += ", out at " + z.off.String()
			own = " A zone with a time of its own is counted with that in every column."
		}
		t.add(z.known(row(name, whole(z.lamps), z.watts, year(z)))...)
	}
	if w, kWh, _ := r.standbyTotal(); w > 0 {
		t.add(row("Standby, see below", "", w, kWh)...)
	}
	w, _, unsaid := r.standbyTotal()
	name := "Together"
	if len(unsaid) > 0 {
		name = "Together, without the standby of " + listed(unsaid)
	}
	t.sum(r.total.known(row(name, whole(r.total.lamps), r.total.watts+w, r.yearly()))...)
	f.table(t)
	text := "Losses of a source are shared among its lamps by their watts. All lamps on at once."
	if r.tariff.Known {
		text += " Tariff " + r.tariff.Value.String() + " " + b.money() + " a kWh; no standing charge."
	}
	f.small(text + own)
}

// known says in a row what lamps its figures are without; of no lamp known it takes
// the figures out.
func (z *zoneDraw) known(cells []string) []string {
	switch {
	case z.unknown == 0:
	case z.unknown < z.lamps:
		cells[0] += ", without " + plural(z.unknown, "lamp", "lamps")
	default:
		for i := 2; i < len(cells); i++ {
			cells[i] = "–"
		}
		cells[2] = "not known"
	}
	return cells
}

// money is the word for the money of the scheme.
func (b *book) money() string {
	if w := b.scheme.List.Currency; w != "" {
		return w
	}
	return "in your money"
}

// hoursTable says how long the lights burn.
func (b *book) hoursTable(f *flow, r *running) {
	f.head("Hours")
	t := &table{narrow: true, columns: []column{{head: "Lights go out at", least: 30}, {head: "In a year", unit: "h", anchor: scene.Right, least: 24}, {head: "A night on average", unit: "h", anchor: scene.Right, least: 34}}}
	for i, o := range r.off {
		t.add(o.String(), digits(r.hours[i], 0), digits(r.hours[i]/365, 1))
	}
	f.table(t)
	n := r.year.Nights()
	f.small("The sun is down for " + digits(n.SunDown, 0) + " h of the year; from the end of civil twilight to its beginning it is dark for " + digits(n.Dark, 0) +
		" h: lights that come on only then burn about " + digits((n.SunDown-n.Dark)/365/2*60, 0) + " minutes less an evening. Nights of " + whole(runningYear) +
		" at " + b.scheme.Running.Latitude.Value.String() + ", " + b.scheme.Running.Longitude.Value.String() + "; sun by the low-precision formulas of the U.S. Naval Observatory.")
}

// sunTable lists sunset and dusk on four days.
func (b *book) sunTable(f *flow, r *running) {
	t := &table{narrow: true, columns: []column{{head: "Day", least: 30}, {head: "Sunset", anchor: scene.Right, least: 24}, {head: "End of civil twilight", anchor: scene.Right, least: 38}, {head: "Sunrise", anchor: scene.Right, least: 24}}}
	for _, d := range []struct {
		name       string
		month, day int
	}{{"20 March", 3, 20}, {"21 June", 6, 21}, {"23 September", 9, 23}, {"21 December", 12, 21}} {
		on := light.Date{Year: runningYear, Month: d.month, Day: d.day}
		v := b.scheme.Running
		s := light.SunOn(on, float64(v.Latitude.Value), float64(v.Longitude.Value))
		show := func(c light.Crossing, ut float64) string {
			switch {
			case c.Always:
				return "stays up"
			case c.Never:
				return "stays down"
			}
			return r.clockText(on, ut)
		}
		dusk := show(s.Dusk, s.Dusk.Down)
		if s.Dusk.Always {
			dusk = "stays light"
		}
		t.add(d.name, show(s.Day, s.Day.Down), dusk, show(s.Day, s.Day.Up))
	}
	f.table(t)
}

// standbyTable lists what takes power while the lamps are off.
func (b *book) standbyTable(f *flow, r *running) {
	if len(r.standby) == 0 {
		return
	}
	f.head("Standby")
	t := &table{narrow: true, columns: []column{{head: "Part"}, {head: "Takes", unit: "W", anchor: scene.Right}, {head: "When"}}}
	for _, s := range r.standby {
		w, when := "not given", "around the clock"
		if s.watts.Known {
			w = digits(float64(s.watts.Value), 1)
		}
		if s.dark {
			when = "while its lamps are off: no gear switches it"
		}
		t.add(b.standbyName(s), w, when)
	}
	f.table(t)
}

func (b *book) standbyName(s standby) string {
	if e := doc.WithTag(b.scheme, s.tag); e != nil {
		return s.tag + ", " + b.whatIs(e)
	}
	return s.tag
}

// note writes a paragraph that must not be missed, in bold.
func (f *flow) note(s string) {
	for _, t := range wrap(s, f.width, capBody, true) {
		f.room(pitch)
		f.write(t, f.x, f.y+capBody, capBody, true, scene.Left)
		f.y += pitch
	}
	f.y += 1
}
