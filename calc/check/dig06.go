package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// DIG-06: a cable in the ground so close beside a fence, and so little below
// the depth of a post hole, that the next post goes through it. For
// extra-low voltage it is a Note. Source: usual depth of fence posts, from
// memory.
var postRule = Rule{Code: "DIG-06", Title: "Beside the posts of a fence", Run: posts}

func posts(c *Context, emit func(finding.Finding)) {
	depth := c.Rules.Site.PostDepth
	if depth.Value <= 0 {
		return
	}
	g := gather{c: c}
	for _, b := range c.ways() {
		br, s := &c.Net.Branches[b], c.runSubject(b)
		for k := range br.Route.Beside {
			x := &br.Route.Beside[k]
			if x.Kind != network.BesidePosts || x.Length < alongLeast {
				continue
			}
			leg := &br.Legs[x.Leg]
			lv := finding.Decide
			if c.extraLow(c.Far(b)) {
				lv = finding.Note
			}
			lv = level(within(depth.Value, float64(leg.Depth)), lv)
			if c.Wants(lv == finding.Held, s.ID) {
				g.take(x.Subject.ID, lv, -float64(leg.Depth), s, func() finding.Finding { return postFinding(s, leg.Depth, x, depth, lv) })
			}
		}
	}
	g.flush(emit)
}

func postFinding(s finding.Subject, deep q.Metre, x *network.Beside, depth Limit, lv finding.Level) finding.Finding {
	f := finding.Finding{Code: "DIG-06", Level: lv, Subject: s, Also: also(x.Subject), Source: depth.Source,
		Figure: span(deep), Limit: "at least " + spanOf(depth)}
	var w lines
	w.add("leg %d of %s runs %s along %s, %s from it", x.Leg+1, s.Label, x.Length, x.Subject.Label, span(x.Distance))
	w.add("depth %s, post holes go down %s", span(deep), spanOf(depth))
	f.Working = w.String()
	if lv == finding.Held {
		f.Text = s.Label + " lies below the post holes of " + x.Subject.Label
		return f
	}
	f.Text = s.Label + " lies where a post of " + x.Subject.Label + " would be dug in"
	f.Remedies = []finding.Remedy{
		{Text: "keep it further from the fence"},
		{Text: "lay it deeper", Figure: span(q.Metre(depth.Value)-deep) + " more over " + x.Length.String()},
	}
	return f
}
