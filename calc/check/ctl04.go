package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// CTL-04: zones of which the plan does not say what switches them. A single
// zone behind a spur unit with a switch is switched there. Common practice, no
// source: the client asks who switches what, from where.
var zoneControlRule = Rule{Code: "CTL-04", Title: "Zone without control", Run: zoneControl}

func zoneControl(c *Context, emit func(finding.Finding)) {
	var open []*network.LampZone
	for k := range c.Net.Zones {
		z := &c.Net.Zones[k]
		unit := !z.Named && len(c.Net.Zones) == 1 && c.Net.Supply.Kind == network.Spur && c.Net.Supply.Switched
		if !z.Named && !unit {
			open = append(open, z)
		} else if c.Asked(z.ID) {
			emit(finding.Finding{Code: "CTL-04", Level: finding.Held, Subject: zoneSubject(z), Source: finding.Source{Evidence: finding.Practice},
				Text:    "the plan says what switches " + z.Title(),
				Working: "zone " + z.Title() + "\ncontrol: " + map[bool]string{true: "the switch of the spur unit, the only zone there is", false: "named"}[unit]})
		}
	}
	if len(open) == 0 {
		return
	}
	f := finding.Finding{Code: "CTL-04", Level: finding.Note, Subject: zoneSubject(open[0]), Source: finding.Source{Evidence: finding.Practice}}
	var w lines
	names := ""
	for k, z := range open {
		if k > 0 {
			names += ", "
			f.Also = append(f.Also, zoneSubject(z))
		}
		names += z.Title()
		w.add("zone %s: %d lamps, nothing named that switches it", z.Title(), len(z.Lamps))
	}
	w.add("without it, what inrush and LED load the gear sees is judged by the circuit alone")
	f.Text = "the plan does not say what switches " + names
	f.Working = w.String()
	f.Remedies = []finding.Remedy{{Text: "name the gear in the properties of the zone; a single zone may be left to the switch of a spur unit, if the supply point says that it has one"}}
	emit(f)
}

func zoneSubject(z *network.LampZone) finding.Subject {
	return finding.Subject{ID: z.ID, Label: z.Label}
}
