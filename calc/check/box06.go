package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// BOX-06: a joint that nobody can reach again has to be of a kind that needs
// no looking after: designed to be buried, or compound-filled or encapsulated.
// Crimped, soldered and maintenance-free (MF) ones are allowed too; the plan
// does not know them. Source: BS 7671 526.3 (found).
var hiddenBoxRule = Rule{Code: "BOX-06", Title: "Hidden joint", Run: hiddenBox}

func hiddenBox(c *Context, emit func(finding.Finding)) {
	held := func(b *network.Box) bool { return b.Burial || b.Encapsulated() }
	boxFindings(c, emit,
		func(_ int, b *network.Box) (float64, bool, bool) { return 1, held(b), b.Hidden },
		func(i int, b *network.Box) finding.Finding {
			s := c.subject(i)
			w := boxWorking(c, i, b)
			w.add("hidden below ground or paving without a hatch")
			w.add("a joint there is designed for burial, compound-filled or encapsulated")
			f := finding.Finding{Code: "BOX-06", Level: level(held(b), finding.Stop), Subject: s,
				Limit:  "designed for burial, compound-filled or encapsulated",
				Source: finding.Source{Standard: "BS 7671:2018", Clause: "526.3", Evidence: finding.Found},
				Text:   "the joints in " + s.Label + " are of a kind that may be hidden", Working: w.String()}
			if !held(b) {
				f.Text = s.Label + " is hidden, and its joints are not of a kind that may be out of reach"
				f.Assumed = fillAssumed(c, i, b)
				f.Remedies = []finding.Remedy{
					{Text: "put the box where it can be reached, or a hatch over it"},
					{Text: "use a joint made for burial, or fill the box with resin or gel"},
					{Text: "joints that are crimped, soldered or marked MF and used as told may stay hidden: record it"},
				}
			}
			return f
		})
}
