package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// UVX-01: a cable in the open whose sheath is not made for sunlight. Grey and
// white indoor cable goes brittle. Source: trade guidance; BS 7671 522.11 (from
// memory).
var sunlightRule = Rule{Code: "UVX-01", Title: "Sheath in sunlight", Run: sunlight}

var sunlightSource = finding.Source{Standard: "BS 7671:2018", Clause: "522.11", Evidence: finding.Memory}

func sunlight(c *Context, emit func(finding.Finding)) {
	g := gather{c: c}
	for _, b := range c.ways() {
		br := &c.Net.Branches[b]
		way := br.Route
		s := c.runSubject(b)
		if br.Cable.Sunlight && !c.Asked(s.ID) {
			continue
		}
		bare := exposed(br, way)
		lv := level(br.Cable.Sunlight, finding.Decide)
		if bare > short && c.Wants(lv == finding.Held, s.ID) {
			g.take("", lv, float64(bare), s, func() finding.Finding { return sunlightFinding(s, br, bare, lv) })
		}
	}
	g.flush(emit)
}

// exposed adds up what of a run lies in the open.
func exposed(br *network.Branch, way *network.Route) (sum q.Metre) {
	for k := range way.Stretches {
		st := &way.Stretches[k]
		leg := &br.Legs[st.Leg]
		open := leg.Support == network.Clipped || leg.Support == network.OnStructure || leg.Support == network.InTree
		if open && !leg.Sleeve && st.Ground != "building" {
			sum += st.Length
		}
	}
	return sum
}

func sunlightFinding(s finding.Subject, br *network.Branch, bare q.Metre, lv finding.Level) finding.Finding {
	f := finding.Finding{Code: "UVX-01", Level: lv, Subject: s, Source: sunlightSource, Figure: bare.String()}
	var w lines
	w.add("%s of %s lie in the open", bare, s.Label)
	w.add("%s made for sunlight: %s", br.Cable.Name, yes(br.Cable.Sunlight))
	f.Working = w.String()
	if lv == finding.Held {
		f.Text = "the sheath of " + s.Label + " is made for sunlight"
		return f
	}
	f.Text = s.Label + " lies in the open over " + bare.String() + " and its sheath is not made for sunlight: " + br.Cable.Name
	f.Remedies = []finding.Remedy{{Text: "use a cable with a sheath for sunlight, black rather than grey"}, {Text: "put it in conduit that is made for sunlight"}}
	return f
}
