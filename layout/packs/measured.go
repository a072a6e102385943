package packs

import (
	"strings"

	"duskwire/calc/judge"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/scene"
)

// readings are what was read, to be looked up.
type readings struct {
	*layout.Tests
	at map[doc.Asked]*layout.TestRow
}

// tests returns what is to be read with what was read, worked out once.
func (b *book) tests() *readings {
	if b.tested == nil {
		r := &readings{Tests: layout.TestsOf(b.Frame, b.Rules), at: map[doc.Asked]*layout.TestRow{}}
		for i := range r.Rows {
			r.at[r.Rows[i].Asked] = &r.Rows[i]
		}
		b.tested = r
	}
	return b.tested
}

// shortVerdicts fit a narrow column.
var shortVerdicts = map[judge.Verdict]string{judge.Unjudged: "not judged", judge.Pass: "pass", judge.Far: "far off", judge.Outside: "outside"}

// read returns what was read, for a column whose heading has the unit, and the
// verdict; both empty where nothing was.
func (b *book) read(on doc.ID, t judge.Test, part string) (value, verdict string) {
	r := b.tests().at[doc.Asked{On: on, Test: t, Part: part}]
	if r == nil {
		return "", ""
	}
	j, ok := b.tests().Judge(r)
	if !ok {
		return "", ""
	}
	return r.Taken.Value.Shown(t), shortVerdicts[j.Verdict]
}

// plainRead is read with the unit behind the figure.
func (b *book) plainRead(on doc.ID, t judge.Test, part string) (value, verdict string) {
	value, verdict = b.read(on, t, part)
	if unit := t.Unit(); value != "" && value != "OL" && unit != "" {
		value += " " + unit
	}
	return value, verdict
}

// twice tells the part of a point whose entity comes a second time: the far end of
// a strip.
type twice map[string]bool

func (t twice) part(id string) string {
	if t[id] {
		return doc.FarPart
	}
	t[id] = true
	return ""
}

// anyRead reports whether anything was read at all.
func (b *book) anyRead() bool {
	for i := range b.scheme.Visits {
		if len(b.scheme.Visits[i].Readings) > 0 {
			return true
		}
	}
	return false
}

// visits lists the days of testing; without any there is a line to be filled in.
func (b *book) visits(f *flow) {
	if !b.anyRead() {
		f.small("Instrument and serial number: ______________________________     Temperature on the day: ____________ °C")
		return
	}
	t := &table{narrow: true, columns: []column{{head: "Day"}, {head: "By"}, {head: "Conductors", unit: "°C", anchor: scene.Right}, {head: "Leads", unit: "Ω", anchor: scene.Right}, {head: "Instrument, remark", grow: 1}}}
	for i := range b.scheme.Visits {
		v := &b.scheme.Visits[i]
		if len(v.Readings) == 0 {
			continue
		}
		temp, leads := "not said", "zeroed or not said"
		if v.Temperature.Known {
			temp = digits(v.Temperature.Value.Celsius(), 1)
		}
		if v.Leads.Known {
			leads = ohms(v.Leads.Value)
		}
		t.add(v.On, v.By, temp, leads, strings.Trim(v.Instrument+", "+v.Remark, ", "))
	}
	f.table(t)
}

// pointing lists what the readings of some tests point to.
func (b *book) pointing(f *flow, tests ...judge.Test) {
	first := true
	for _, t := range tests {
		for _, r := range b.tests().Of(t) {
			j, ok := b.tests().Judge(&r)
			if !ok || j.Verdict != judge.Far && j.Verdict != judge.Outside {
				continue
			}
			if first {
				f.head("What the readings point to")
				first = false
			}
			words := r.Label + ", " + r.Title() + ": " + j.Verdict.String() + ". " + upper(j.Text) + "."
			if len(j.Points) > 0 {
				words += " It points to: " + strings.Join(j.Points, "; ") + "."
			}
			f.item(words)
		}
	}
}
