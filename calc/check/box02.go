package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// BOX-02: an entry that is neither used nor blanked. Water and insects come in,
// and live parts may be touched. Source: BS 7671 416.2.1 (from memory).
var openEntryRule = Rule{Code: "BOX-02", Title: "Open entry of a box", Run: openEntry}

func openEntry(c *Context, emit func(finding.Finding)) {
	boxFindings(c, emit,
		func(_ int, b *network.Box) (float64, bool, bool) { return float64(b.Open), b.Open == 0, true },
		func(i int, b *network.Box) finding.Finding {
			s, held := c.subject(i), b.Open == 0
			var w lines
			w.add("%s: %s, %s", s.Label, b.Name, b.IP)
			w.add("entries neither used nor blanked: %d", b.Open)
			f := finding.Finding{Code: "BOX-02", Level: level(held, finding.Stop), Subject: s,
				Figure: count(b.Open, "open entry", "open entries"), Limit: "none",
				Source: finding.Source{Standard: "BS 7671:2018", Clause: "416.2.1", Evidence: finding.Memory},
				Text:   s.Label + " has no entry left open", Working: w.String()}
			if !held {
				f.Text = s.Label + " has " + count(b.Open, "entry", "entries") + " neither used nor blanked"
				f.Remedies = []finding.Remedy{{Text: "close every open entry with a blanking plug of the box's rating", Figure: count(b.Open, "plug", "plugs")}}
			}
			return f
		})
}
