package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// IPX-02: class I lamps that stand in planted ground, where spades, water and
// bare feet are. Class II, or 12 V from a separated source, is preferred there.
// A note; the earthing has rules of its own. Source: 16th-edition guide to
// garden installations.
var soilRule = Rule{Code: "IPX-02", Title: "Class I in planted ground", Run: soil}

var soilSource = finding.Source{Standard: "16th-edition guide to garden installations", Clause: "prefer separated extra-low voltage or class II", Evidence: finding.Found}

func soil(c *Context, emit func(finding.Finding)) {
	g := gather{c: c}
	for i := range c.Net.Nodes {
		n := &c.Net.Nodes[i]
		if n.Kind != network.LampNode || n.System != 0 || n.Place == nil || c.Tree.Parent[i] < 0 || !planted(n.Place.Ground) {
			continue
		}
		s, lv := c.subject(i), level(n.Class == network.ClassII || n.Class == network.ClassIII, finding.Note)
		if c.Wants(lv == finding.Held, s.ID) {
			g.take("", lv, -float64(n.Height), s, func() finding.Finding { return soilFinding(s, n, lv) })
		}
	}
	g.flush(emit)
}

// planted are kinds of ground with soil.
func planted(ground string) bool {
	return ground == "lawn" || ground == "border" || ground == "dug bed"
}

func soilFinding(s finding.Subject, n *network.Node, lv finding.Level) finding.Finding {
	f := finding.Finding{Code: "IPX-02", Level: lv, Subject: s, Also: also(n.Place.Area), Source: soilSource,
		Figure: "class " + n.Class.String(), Limit: "class II or III"}
	f.Working = s.Label + " stands in " + n.Place.Ground + " " + n.Place.Area.Label + "\nclass " + n.Class.String()
	if lv == finding.Held {
		f.Text = s.Label + " has no metal on the protective conductor"
		return f
	}
	f.Text = s.Label + " is class " + n.Class.String() + " and stands in " + n.Place.Ground + " " + n.Place.Area.Label + ": class II or 12 V is preferred there"
	f.Remedies = []finding.Remedy{{Text: "use a class II lamp, or 12 V from a separated source"}}
	return f
}
