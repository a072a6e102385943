package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// BOX-04: a joint box close above ground without fill, where splashes, leaves
// and snow reach it. One below ground is BOX-05. Source: common practice, no
// source.
var lowBoxRule = Rule{Code: "BOX-04", Title: "Joint box close above ground", Run: lowBox}

func lowBox(c *Context, emit func(finding.Finding)) {
	least := c.Rules.Limits.JointHeight
	if least.Value <= 0 {
		return
	}
	held := func(b *network.Box) bool {
		return b.Burial || b.Encapsulated() || within(least.Value, float64(b.Height))
	}
	boxFindings(c, emit,
		func(_ int, b *network.Box) (float64, bool, bool) {
			return 1 + least.Value - float64(b.Height), held(b), b.Height >= 0 && !b.Indoors
		},
		func(i int, b *network.Box) finding.Finding {
			s, limit := c.subject(i), q.Metre(least.Value)
			w := boxWorking(c, i, b)
			w.add("least height without fill: %s", limit)
			f := finding.Finding{Code: "BOX-04", Level: level(held(b), finding.Decide), Subject: s,
				Figure: b.Height.String(), Limit: "at least " + limit.String() + " without fill", Source: least.Source,
				Text: s.Label + " stands clear of the ground or its joints lie in a compound", Working: w.String()}
			if !held(b) {
				f.Text = s.Label + " is " + b.Height.String() + " above ground and not filled: water reaches its joints"
				f.Assumed = fillAssumed(c, i, b)
				f.Remedies = []finding.Remedy{
					{Text: "raise the box", Figure: "by " + (limit - b.Height).String()},
					{Text: "fill it with gel or resin made for joints"},
				}
			}
			return f
		})
}
