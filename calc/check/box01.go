package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// BOX-01: more cables than the box has entries. A hole cut where no entry is
// made loses the enclosure its protection. Source: BS 7671 522.8.5, 416.2.1
// (from memory).
var entriesRule = Rule{Code: "BOX-01", Title: "Entries of a box", Run: entries}

func entries(c *Context, emit func(finding.Finding)) {
	boxFindings(c, emit,
		func(_ int, b *network.Box) (float64, bool, bool) {
			return float64(b.Cables) / float64(max(b.Entries, 1)), b.Cables <= b.Entries, b.Entries > 0
		},
		func(i int, b *network.Box) finding.Finding {
			s, held := c.subject(i), b.Cables <= b.Entries
			var w lines
			w.add("%s: %s, %s", s.Label, b.Name, count(b.Entries, "entry", "entries"))
			w.add("%s end in it: %s", count(b.Cables, "cable", "cables"), meets(held))
			f := finding.Finding{Code: "BOX-01", Level: level(held, finding.Stop), Subject: s,
				Figure: count(b.Cables, "cable", "cables"), Limit: count(b.Entries, "entry", "entries"),
				Source: finding.Source{Standard: "BS 7671:2018", Clause: "416.2.1, 522.8.5", Evidence: finding.Memory},
				Text:   s.Label + " has " + count(b.Entries, "entry", "entries") + " for " + count(b.Cables, "cable", "cables"), Working: w.String()}
			if !held {
				f.Remedies = []finding.Remedy{
					{Text: "use a box with more entries", Figure: "at least " + count(b.Cables, "entry", "entries")},
					{Text: "take some of the cables to a second box", Figure: count(b.Cables-b.Entries+1, "cable", "cables") + " or more"},
				}
			}
			return f
		})
}
