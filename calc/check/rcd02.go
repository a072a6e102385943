package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// RCD-02: the type of every residual device ahead of LED lamps and drivers.
// Their rectifiers can give a fault current with a direct part, to which type
// AC may not answer; type A at least. Source: BS 7671 531.3.3.
var residualTypeRule = Rule{Code: "RCD-02", Title: "Type of the residual device", Run: residualType}

var residualTypeSource = finding.Source{Standard: "BS 7671:2018", Clause: "531.3.3", Edition: "18th edition, A2-era values", Evidence: finding.Found}

func residualType(c *Context, emit func(finding.Finding)) {
	s := c.supplied()
	take, flush := single(emit)
	for i := range c.Net.Nodes {
		n := &c.Net.Nodes[i]
		if s.on[i].points == 0 || n.System != 0 {
			continue
		}
		for k := range n.Devices {
			if d := &n.Devices[k]; d.ResidualPart() {
				held := d.Type != "AC" && d.Type != ""
				if c.Wants(held, c.subject(i).ID) {
					take(residualTypeFinding(c, i, d))
				}
			}
		}
	}
	flush()
}

func residualTypeFinding(c *Context, i int, d *network.Device) finding.Finding {
	f := finding.Finding{Code: "RCD-02", Subject: c.subject(i), Source: residualTypeSource, Figure: "type " + d.Type, Limit: "type A, F or B"}
	var w lines
	w.add("%s: type %s", d.Label, orUnknown(d.Type))
	w.add("behind it: %d LED lamps and sources, %s", c.supplied().on[i].points, c.supplied().on[i].led)
	w.add("drivers rectify: a fault behind the rectifier has a direct part, which a device of type AC may not see")
	switch d.Type {
	case "AC":
		f.Level, f.Text = finding.Decide, d.Label+" is of type AC, ahead of LED drivers; type A at least is asked for"
		f.Remedies = []finding.Remedy{{Text: "change it for one of type A, or F where the maker of the drivers asks for it"}}
	case "":
		f.Level, f.Figure, f.Text = finding.Note, "", "the type of "+d.Label+" is not known: read it off the device, type A at least is asked for ahead of LED drivers"
	default:
		f.Level, f.Text = finding.Held, d.Label+" is of type "+d.Type
		w.add("type %s sees it: meets the limit", d.Type)
	}
	f.Working = w.String()
	return f
}

func orUnknown(s string) string {
	if s == "" {
		return "not known"
	}
	return s
}
