package file

import (
	"errors"

	"duskwire/calc/check"
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// light reads the single limits of light. A rule set may leave out any of them.
func (s singles) light() check.LightLimits {
	candela := func(n node) float64 { return withUnit(n, "cd", "an intensity such as 100 cd") }
	kelvin := func(n node) float64 { return withUnit(n, "K", "a colour temperature such as 2700 K") }
	lux := by(q.ParseLux)
	out := check.LightLimits{
		Courtesy:   limitIf(s, "courtesy", lux),
		Raised:     limitIf(s, "raised", func(n node) float64 { return withUnit(n, "deg", "an angle such as 90 deg") }),
		Seen:       limitIf(s, "seen", candela),
		SeenHard:   limitIf(s, "seen_hard", candela),
		SeenReach:  limitIf(s, "seen_reach", by(q.ParseMetre)),
		WarmSoft:   limitIf(s, "warm_soft", kelvin),
		WarmHard:   limitIf(s, "warm_hard", kelvin),
		HabitatLux: limitIf(s, "habitat", lux),
		CrownLux:   limitIf(s, "crown", lux),
	}
	if s.has("curfew") {
		o := s.need("curfew", "a map of value and source").object()
		out.Curfew = q.Some(clockHour(o.need("value", hourExpected))) // 0 is midnight
		out.CurfewSource = readSource(o.need("source", "a source"), s.edition)
		o.done()
	}
	return out
}

const hourExpected = `a time such as "23:00"`

// clockHour reads an hour of the clock; dawn is none.
func clockHour(n node) float64 {
	at, _ := read(n, hourExpected, func(text string) (doc.Off, error) {
		at, err := doc.ParseOff(text)
		if err != nil || !at.Set || at.Dawn {
			return doc.Off{}, errors.New("found " + text + ", expected " + hourExpected)
		}
		return at, nil
	})
	return float64(at.Minute) / 60
}

// lightTables reads which tables a rule set names for light; each may be left out.
func lightTables(l *check.LightLimits, named *object, own *tableSet) {
	l.Uses = pickIf[check.LightUseRow](own, named.get("light_uses"), "light use")
	l.Spill = pickIf[check.SpillRow](own, named.get("spill"), "spill")
	l.Upward = pickIf[check.UpwardRow](own, named.get("upward"), "upward")
	l.Bright = pickIf[check.BrightRow](own, named.get("bright"), "source intensity")
}

// oneWord reads a text that must be one of a list.
func oneWord(o *object, key string, list []string) string {
	return list[o.need(key, oneOf(list)).word(list)]
}

func lightUseRows(f tableFrame, o *object) []check.LightUseRow {
	row := check.LightUseRow{
		Use:     oneWord(o, "use", doc.LightUses),
		Average: needAbove(o, "average", q.ParseLux),
		Least:   value(o, "least", q.ParseLux),
		Source:  f.rowSource(o),
	}
	row.LeastSource = row.Source
	if n := o.get("least_evidence"); n.present() {
		row.LeastSource.Evidence = evidenceOf[n.word(evidenceWords)]
		if row.LeastSource.Evidence == finding.Practice {
			row.LeastSource = finding.Source{Evidence: finding.Practice}
		}
	}
	if n := o.get("uniformity"); n.present() {
		row.Uniformity = n.number(0.01, 1)
		row.UniformitySource = row.Source
	}
	if n := o.get("uniformity_source"); n.present() {
		row.UniformitySource = readSource(n, "")
	}
	if n := o.get("upright"); n.present() {
		row.Upright = needAbove(o, "upright", q.ParseLux)
		row.UprightSource = row.Source
	}
	if n := o.get("upright_source"); n.present() {
		row.UprightSource = readSource(n, "")
	}
	return []check.LightUseRow{row}
}

func brightRows(f tableFrame, o *object) []check.BrightRow {
	return []check.BrightRow{{
		Zone: oneWord(o, "zone", doc.LightZones), After: o.flagOr("after"),
		Candela: q.Candela(withUnit(o.need("candela", "an intensity such as 2500 cd"), "cd", "an intensity such as 2500 cd")), Source: f.rowSource(o),
	}}
}

func spillRows(f tableFrame, o *object) []check.SpillRow {
	return []check.SpillRow{{
		Zone: oneWord(o, "zone", doc.LightZones), After: o.flagOr("after"),
		Lux: needValue(o, "lux", q.ParseLux), Source: f.rowSource(o),
	}}
}

func upwardRows(f tableFrame, o *object) []check.UpwardRow {
	return []check.UpwardRow{{
		Zone: oneWord(o, "zone", doc.LightZones), All: o.flagOr("all"),
		Share: o.need("share", "a percentage such as 5 %").ratio(), Source: f.rowSource(o),
	}}
}
