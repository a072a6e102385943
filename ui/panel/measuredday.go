package panel

import (
	"strconv"

	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// dayForm is what is said of the day of testing that readings go to, the last one.
func (p *Measured) dayForm() *form {
	f := newForm(p.dayOn)
	day := func() doc.Visit {
		if v := p.dayOn.scheme().Visits; len(v) > 0 {
			return v[len(v)-1]
		}
		return p.newDay()
	}
	write := func(change func(*doc.Visit)) edit.Operation {
		v := day().Head()
		change(&v)
		return edit.SetVisit{Visit: max(0, len(p.dayOn.scheme().Visits)-1), Head: v}
	}
	text := func(name string, of func(*doc.Visit) *string) {
		f.text(name, func() string { v := day(); return *of(&v) }, func(s string) edit.Operation {
			return write(func(v *doc.Visit) { *of(v) = s })
		})
	}
	text("Date", func(v *doc.Visit) *string { return &v.On })
	text("Measured by", func(v *doc.Visit) *string { return &v.By })
	maybe(f, "Temperature", "°C", q.ParseCelsius, func() q.Maybe[q.Kelvin] { return day().Temperature },
		func(m q.Maybe[q.Kelvin]) edit.Operation {
			return write(func(v *doc.Visit) { v.Temperature = m })
		})
	maybe(f, "Test leads", "Ω", q.ParseOhm, func() q.Maybe[q.Ohm] { return day().Leads },
		func(m q.Maybe[q.Ohm]) edit.Operation { return write(func(v *doc.Visit) { v.Leads = m }) })
	f.hint("Leave the leads empty when the meter was zeroed with them.")
	text("Instrument", func(v *doc.Visit) *string { return &v.Instrument })
	text("Remark", func(v *doc.Visit) *string { return &v.Remark })
	b := NewButton("Begin a new day", func() {
		p.field.Flush()
		_ = p.desk.Commit(edit.SetVisit{Visit: len(p.dayOn.scheme().Visits), Head: p.newDay()}) // a new head is never refused
	})
	f.add(newFixedRow(b.Object()))
	return f
}

// dayName is what the head of the day says.
func (p *Measured) dayName() string {
	v := p.dayOn.scheme().Visits
	if len(v) == 0 {
		return "Day of testing: a new one"
	}
	return "Day of testing " + strconv.Itoa(len(v)) + ": " + orDash(v[len(v)-1].On)
}

// showDay shows the day in the place of the readings, or these again.
func (p *Measured) showDay(open bool) {
	p.field.Flush()
	p.dayOpen = open
	if open {
		p.dayScroll.Show()
	} else {
		p.day.flush()
		p.dayScroll.Hide()
	}
	p.fillRows()
	p.box.Refresh()
}

func orDash(s string) string {
	if s == "" {
		return "no date"
	}
	return s
}
