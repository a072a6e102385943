package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// BOX-03: an entry in the top of a box outdoors: water stands on the gland and
// runs down the cable. Cables enter from below with a drip loop. Source: common
// practice, no source.
var topEntryRule = Rule{Code: "BOX-03", Title: "Entry in the top of a box", Run: topEntry}

func topEntry(c *Context, emit func(finding.Finding)) {
	boxFindings(c, emit,
		func(_ int, b *network.Box) (float64, bool, bool) {
			return float64(b.TopEntries), b.TopEntries == 0, !b.Indoors
		},
		func(i int, b *network.Box) finding.Finding {
			s, held := c.subject(i), b.TopEntries == 0
			var w lines
			w.add("%s: %s, %s, outdoors", s.Label, b.Name, b.IP)
			w.add("entries in the top: %d", b.TopEntries)
			f := finding.Finding{Code: "BOX-03", Level: level(held, finding.Decide), Subject: s,
				Figure: count(b.TopEntries, "entry", "entries"), Limit: "none", Source: finding.Source{Evidence: finding.Practice},
				Text: s.Label + " is entered from below or the side", Working: w.String()}
			if !held {
				f.Text = s.Label + " has " + count(b.TopEntries, "entry", "entries") + " in its top, where water stands"
				f.Remedies = []finding.Remedy{{Text: "bring the cables in from below with a drip loop and blank the top"}}
			}
			return f
		})
}
