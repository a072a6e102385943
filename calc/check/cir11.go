package check

import (
	"strings"

	"duskwire/calc/finding"
)

// CIR-11: a ring at extra-low voltage. It evens the volts out, but one break
// leaves every lamp lit and the cable towards it with the whole load, and the
// two ends must be joined with the same polarity. Source: trade habit, from
// memory.
var ringRule = Rule{Code: "CIR-11", Title: "Ring at extra-low voltage", Run: ringNote}

func ringNote(c *Context, emit func(finding.Finding)) {
	var keys []int
	var groups []failing
	for _, b := range c.rings().Closed {
		groups[slot(&keys, &groups, c.Net.Nodes[c.Far(b)].System)].add(b, 0)
	}
	for k, g := range groups {
		g.emit(func(b int) finding.Finding { return ringFinding(c, b, keys[k]) }, c.runSubject, emit)
	}
}

func ringFinding(c *Context, b, system int) finding.Finding {
	s := c.runSubject(b)
	var w lines
	var runs []string
	for k := range c.Net.Branches {
		if br := &c.Net.Branches[k]; c.InRing(k) && c.Net.Nodes[br.To].System == system && br.Cable != nil {
			runs = append(runs, c.runSubject(k).Label)
		}
	}
	w.add("%s leads from %s back to %s, both already fed by %s", s.Label, c.subject(c.Near(b)).Label, c.subject(c.Far(b)).Label, c.Net.Systems[system].Label)
	w.add("runs on a loop: %s", strings.Join(runs, ", "))
	if c.Trusted() {
		w.add("it carries %s; volts and currents are those of the closed loop", c.Flow(b))
	}
	w.add("each run of a ring is to carry the whole load of its source (CAP-02), as it must after a break")
	return finding.Finding{Code: "CIR-11", Level: finding.Note, Subject: s,
		Text: s.Label + " closes a ring on " + c.Net.Systems[system].Label +
			": one break will not be noticed; join the same polarity at both ends",
		Source: finding.Source{Standard: "trade habit", Evidence: finding.Memory}, Working: w.String(),
		Remedies: []finding.Remedy{{Text: "when testing, open the ring and measure its continuity end to end"}},
	}
}
