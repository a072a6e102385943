package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// HOT-01: a filament lamp among plants. It scorches leaves and dries what lies
// against it; on a lawn nothing grows up to it. The electrician decides. Source:
// sellers' advice (halogen discolours leaves, found); a LED lamp stays cooler.
var hotRule = Rule{Code: "HOT-01", Title: "Hot lamp among plants", Run: hot}

var hotSource = finding.Source{Standard: "garden-lighting practice", Clause: "halogen lamps discolour leaves", Evidence: finding.Found}

func hot(c *Context, emit func(finding.Finding)) {
	g := gather{c: c}
	for i := range c.Net.Nodes {
		n := &c.Net.Nodes[i]
		if n.Kind != network.LampNode || n.Place == nil || c.Tree.Parent[i] < 0 || n.Place.InWater || !grown(n.Place.Ground) {
			continue
		}
		lv := level(!glows(n), finding.Decide)
		if s := c.subject(i); c.Wants(lv == finding.Held, s.ID) {
			g.take("", lv, 0, s, func() finding.Finding { return hotFinding(s, n, lv) })
		}
	}
	g.flush(emit)
}

// grown are kinds of ground where plants stand up to a lamp.
func grown(ground string) bool { return ground == "border" || ground == "dug bed" }

// glows reports whether a lamp makes its light by heat.
func glows(n *network.Node) bool {
	for _, l := range n.Loads {
		if l.Law == network.Filament {
			return true
		}
	}
	return false
}

func hotFinding(s finding.Subject, n *network.Node, lv finding.Level) finding.Finding {
	f := finding.Finding{Code: "HOT-01", Level: lv, Subject: s, Also: also(n.Place.Area), Source: hotSource, Limit: "no filament lamp among plants"}
	where := n.Place.Ground + " " + n.Place.Area.Label
	if n.Place.Area.Label == "" {
		where = n.Place.Ground
	}
	var w lines
	w.add("%s stands in %s", s.Label, where)
	w.add("filament lamp: %s", yes(glows(n)))
	f.Working = w.String()
	if lv == finding.Held {
		f.Text = s.Label + " has no filament that heats the plants about it"
		return f
	}
	f.Text = s.Label + " has a filament and stands among plants in " + where + ": it scorches leaves and dries what lies against it"
	f.Remedies = []finding.Remedy{
		{Text: "use a LED lamp"},
		{Text: "keep leaves and mulch 0.5 m clear of its front (from memory), and say so in the notes for the client"},
	}
	return f
}
