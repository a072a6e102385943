package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// SRC-03: a source whose output is not separated (SELV) feeding extra-low-voltage
// lamps: functional extra-low voltage is barred from lighting. Source: BS 7671
// 715.414 (public notes on section 715, found).
var separatedRule = Rule{Code: "SRC-03", Title: "Source not separated", Run: separated}

var separatedSource = finding.Source{Standard: "BS 7671:2018", Clause: "715.414", Edition: "18th edition, A2-era values", Evidence: finding.Found}

// extraLow is the upper end of extra-low voltage between conductors, AC; the
// figure is used to tell systems apart, not as a limit.
const extraLow q.Volt = 50

func separated(c *Context, emit func(finding.Finding)) {
	lamps := make([]int, len(c.Net.Systems))
	for i := range c.Net.Nodes {
		if n := &c.Net.Nodes[i]; n.Kind == network.LampNode && !n.Tail && c.Tree.Parent[i] >= 0 {
			lamps[n.System]++
		}
	}
	for b := range c.Net.Branches {
		br := &c.Net.Branches[b]
		if br.Converter == nil || c.Far(b) < 0 || br.Converter.Nominal > extraLow {
			continue
		}
		if n := lamps[c.Net.Nodes[c.Far(b)].System]; n > 0 && c.Wants(br.Converter.SELV, br.ID) {
			emit(separatedFinding(c, b, n))
		}
	}
}

func separatedFinding(c *Context, b, lamps int) finding.Finding {
	br := &c.Net.Branches[b]
	held, s := br.Converter.SELV, c.runSubject(b)
	f := finding.Finding{Code: "SRC-03", Level: level(held, finding.Stop), Subject: s, Source: separatedSource, Limit: "SELV",
		Text: s.Label + " gives separated extra-low voltage"}
	var w lines
	w.add("%s feeds %d lamps at %s", s.Label, lamps, br.Converter.Nominal)
	w.add("its output is marked as separated: %s", map[bool]string{true: "yes", false: "no"}[held])
	f.Working = w.String()
	if !held {
		f.Text = s.Label + " is not marked as a separated source (SELV) and feeds extra-low-voltage lamps"
		f.Remedies = []finding.Remedy{{Text: "use a safety isolating transformer or a driver marked SELV"}}
	}
	return f
}
