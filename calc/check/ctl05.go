package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// CTL-05: lamps of a zone that are not behind the gear that is named to switch
// it. Needs no standard: what is not behind a switch is not switched by it.
var controlReachRule = Rule{Code: "CTL-05", Title: "Lamp not behind the gear that switches its zone", Run: controlReach}

func controlReach(c *Context, emit func(finding.Finding)) {
	s := c.supplied()
	for k := range c.Net.Zones {
		z := &c.Net.Zones[k]
		if !z.Named {
			continue
		}
		var out []int
		for _, i := range z.Lamps {
			if s.first[i] >= 0 && (z.Control < 0 || !s.beyond(i, z.Control)) {
				out = append(out, i)
			}
		}
		if c.Wants(len(out) == 0, z.ID) {
			emit(controlReachFinding(c, z, out))
		}
	}
}

func controlReachFinding(c *Context, z *network.LampZone, out []int) finding.Finding {
	f := finding.Finding{Code: "CTL-05", Level: level(len(out) == 0, finding.Decide), Subject: zoneSubject(z), Source: finding.Source{Evidence: finding.Derived}}
	var w lines
	gear := "gear of another circuit, or of none"
	if z.Control >= 0 {
		gear = c.subject(z.Control).Label
	}
	w.add("zone %s is switched by %s", z.Title(), gear)
	w.add("lamps of it: %d, not behind that gear: %d", len(z.Lamps), len(out))
	for _, i := range out {
		f.Also = append(f.Also, c.subject(i))
	}
	f.Working = w.String()
	f.Figure, f.Limit = num(float64(len(out)), 0)+" lamps", "none"
	f.Text = "all lamps of " + z.Title() + " are behind " + gear
	if len(out) > 0 {
		f.Text = c.subject(out[0]).Label + others(len(out)-1) + " of " + z.Title() + " not behind " + gear + ", which is named to switch them"
		f.Remedies = []finding.Remedy{{Text: "draw the run to these lamps from behind the gear"}, {Text: "put them into another zone, or name other gear for this one"}}
	}
	return f
}

// others says how many more there are.
func others(n int) string {
	switch n {
	case 0:
		return ""
	case 1:
		return " and one more"
	}
	return " and " + num(float64(n), 0) + " more"
}
