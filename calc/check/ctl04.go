package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// CTL-04: zones of which the plan does not say what switches them. Common
// practice, no source: the client asks who switches what, from where.
var zoneControlRule = Rule{Code: "CTL-04", Title: "Zone without control", Run: zoneControl}

func zoneControl(c *Context, emit func(finding.Finding)) {
	var open []*network.LampZone
	for k := range c.Net.Zones {
		z := &c.Net.Zones[k]
		if !z.Named {
			open = append(open, z)
		}
		if z.Named && c.Asked(z.ID) {
			emit(finding.Finding{Code: "CTL-04", Level: finding.Held, Subject: zoneSubject(z), Source: finding.Source{Evidence: finding.Practice},
				Text: "the plan says what switches " + z.Title(), Working: "zone " + z.Title() + "\ncontrol: named"})
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
	f.Remedies = []finding.Remedy{{Text: "name the gear in the properties of the zone, or leave it to the switch of the circuit"}}
	emit(f)
}

func zoneSubject(z *network.LampZone) finding.Subject {
	return finding.Subject{ID: z.ID, Label: z.Label}
}
