package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// CTL-02: a receiver in a metal enclosure: metal shields radio. Source: public
// how-to of a wireless switch (found); the range that makers give is open air.
var receiverRule = Rule{Code: "CTL-02", Title: "Receiver in a metal enclosure", Run: receiver}

var receiverSource = finding.Source{Standard: "installer's how-to for wireless switches", Evidence: finding.Found}

func receiver(c *Context, emit func(finding.Finding)) {
	for i := range c.Net.Nodes {
		g := c.Net.Nodes[i].Gear
		if g == nil || g.Kind != network.Receiver {
			continue
		}
		s := c.subject(i)
		if !c.Wants(!g.Metal, s.ID) {
			continue
		}
		f := finding.Finding{Code: "CTL-02", Level: level(!g.Metal, finding.Decide), Subject: s, Source: receiverSource,
			Text: s.Label + " is a receiver in an enclosure that lets radio through"}
		var w lines
		w.add("%s receives by radio", s.Label)
		w.add("metal enclosure: %s", map[bool]string{true: "yes, it shields", false: "no"}[g.Metal])
		if g.Metal {
			f.Text = s.Label + " is a receiver in a metal enclosure, which shields radio"
			f.Remedies = []finding.Remedy{{Text: "use a plastic enclosure, or lead its aerial out"}}
		}
		f.Working = w.String()
		emit(f)
	}
}
