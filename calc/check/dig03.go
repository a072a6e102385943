package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// DIG-03: above extra-low voltage a cable in the ground needs earthed armour or
// a metal sheath, unless a duct protects it as well. Source: BS 7671 522.8.10.
var bareRule = Rule{Code: "DIG-03", Title: "Cable without armour in the ground", Run: bare}

func bare(c *Context, emit func(finding.Finding)) {
	g := gather{c: c}
	for _, b := range c.ways() {
		br := &c.Net.Branches[b]
		if c.extraLow(c.Far(b)) {
			continue
		}
		s := c.runSubject(b)
		for k := range br.Legs {
			leg := &br.Legs[k]
			if !leg.Dug() {
				continue
			}
			lv := level(guarded(br, leg), finding.Stop)
			if c.Wants(lv == finding.Held, s.ID) {
				g.take("", lv, float64(leg.Length), s, func() finding.Finding { return bareFinding(c, b, s, k, lv) })
			}
		}
	}
	g.flush(emit)
}

func bareFinding(c *Context, b int, s finding.Subject, k int, lv finding.Level) finding.Finding {
	br := &c.Net.Branches[b]
	leg := &br.Legs[k]
	f := finding.Finding{Code: "DIG-03", Level: lv, Subject: s, Source: dugSource, Figure: br.Cable.Name}
	var w lines
	w.add("leg %d of %s, %s in the ground at %s", k+1, s.Label, leg.Length, c.nominal(c.Far(b)))
	switch {
	case br.Armoured():
		w.add("%s has armour", br.Cable.Name)
	case leg.Support == network.InDuct || leg.Sleeve:
		w.add("%s has no armour; a duct protects it", br.Cable.Name)
	default:
		w.add("%s has no armour and no duct is about it", br.Cable.Name)
	}
	f.Working = w.String()
	if lv == finding.Held {
		f.Text = s.Label + " is protected in the ground"
		return f
	}
	f.Text = s.Label + " lies in the ground without armour or duct: " + br.Cable.Name
	f.Remedies = []finding.Remedy{{Text: "use an armoured cable"}, {Text: "lay it in a duct that protects as well as armour does"}}
	return f
}
