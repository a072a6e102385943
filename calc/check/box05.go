package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// BOX-05: a box below ground that is neither made for burial nor encapsulated
// fills with water, whatever its IP code: that is for a short while under
// water. Source: BS 7671 522.3.1, 526.3 (from memory).
var buriedBoxRule = Rule{Code: "BOX-05", Title: "Box below ground", Run: buriedBox}

func buriedBox(c *Context, emit func(finding.Finding)) {
	held := func(b *network.Box) bool { return b.Burial || b.Encapsulated() }
	boxFindings(c, emit,
		func(_ int, b *network.Box) (float64, bool, bool) {
			return 1 - float64(b.Height), held(b), b.Height < 0
		},
		func(i int, b *network.Box) finding.Finding {
			s := c.subject(i)
			w := boxWorking(c, i, b)
			w.add("below ground a box is made for burial or its joints lie in resin or gel")
			f := finding.Finding{Code: "BOX-05", Level: level(held(b), finding.Stop), Subject: s,
				Figure: (-b.Height).String() + " below ground", Limit: "made for burial or encapsulated",
				Source: finding.Source{Standard: "BS 7671:2018", Clause: "522.3.1, 526.3", Evidence: finding.Memory},
				Text:   s.Label + " is below ground and made for it", Working: w.String()}
			if !held(b) {
				f.Text = s.Label + " lies " + (-b.Height).String() + " below ground and is neither made for burial nor encapsulated"
				f.Assumed = fillAssumed(c, i, b)
				f.Remedies = []finding.Remedy{
					{Text: "use a box made for burial, or a resin joint"},
					{Text: "bring the joint above ground", Figure: "by " + (-b.Height).String() + " and clear of splashes"},
				}
			}
			return f
		})
}
