package check

import (
	"math"

	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// TRE-01: nothing is dug within a metre of the bark of a tree. Source:
// utilities' guidance on works near trees.
var trunkRule = Rule{Code: "TRE-01", Title: "Trench at a trunk", Run: trunk}

func trunk(c *Context, emit func(finding.Finding)) {
	clear := c.Rules.Site.RootClear
	if clear.Value <= 0 {
		return
	}
	g := gather{c: c}
	for _, b := range c.ways() {
		way := c.Net.Branches[b].Route
		s := c.runSubject(b)
		for k := range way.Roots {
			r := &way.Roots[k]
			lv := level(within(clear.Value, float64(r.Bark)), finding.Stop)
			if c.Wants(lv == finding.Held, s.ID) {
				g.take(r.Subject.ID, lv, -float64(r.Bark), s, func() finding.Finding { return trunkFinding(s, r, clear, lv) })
			}
		}
	}
	g.flush(emit)
}

func trunkFinding(s finding.Subject, r *network.Roots, clear Limit, lv finding.Level) finding.Finding {
	f := finding.Finding{Code: "TRE-01", Level: lv, Subject: s, Also: also(r.Subject), Source: clear.Source,
		Figure: r.Bark.String(), Limit: "at least " + spanOf(clear)}
	var w lines
	if r.Girth > 0 {
		w.add("girth of %s: 2π × %s = %s", r.Subject.Label, span(r.Girth/(2*math.Pi)), r.Girth)
	} else {
		w.add("the trunk of %s is not measured; the distance is to its middle", r.Subject.Label)
	}
	w.add("leg %d of %s is dug %s from the bark, at least %s", r.Leg+1, s.Label, r.Bark, spanOf(clear))
	f.Working = w.String()
	if lv == finding.Held {
		f.Text = s.Label + " keeps away from the trunk of " + r.Subject.Label
		return f
	}
	f.Text = s.Label + " is dug in " + r.Bark.String() + " from the bark of " + r.Subject.Label
	f.Remedies = []finding.Remedy{
		{Text: "lead the trench round the tree", Figure: "by " + clearBy(r, clear)},
		{Text: "carry the last metre on the surface in conduit, without digging"},
	}
	return f
}

func clearBy(r *network.Roots, clear Limit) string {
	return num(clear.Value-float64(r.Bark), 2) + " m more"
}
