package check

import (
	"math"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// TRE-02: how much of a trench lies within four girths of a tree, where it is
// dug by hand and roots are kept. A note for the day of digging. Source:
// utilities' guidance on works near trees.
var handDigRule = Rule{Code: "TRE-02", Title: "Digging by hand among roots", Run: handDig}

func handDig(c *Context, emit func(finding.Finding)) {
	limit := c.Rules.Site.HandDig
	if limit.Value <= 0 {
		return
	}
	g := gather{c: c}
	for _, b := range c.ways() {
		way := c.Net.Branches[b].Route
		if len(way.Roots) == 0 {
			continue
		}
		s := c.runSubject(b)
		for k := range way.Roots {
			r := &way.Roots[k]
			if sum, first := rootLength(way, k); first {
				g.take(r.Subject.ID, finding.Note, float64(sum), s, func() finding.Finding { return handDigFinding(s, r, sum, limit) })
			}
		}
	}
	g.flush(emit)
}

// rootLength adds up what a run has among the roots of one tree; first is
// false when an earlier leg met the tree already.
func rootLength(way *network.Route, k int) (sum q.Metre, first bool) {
	for i := range way.Roots {
		if way.Roots[i].Subject == way.Roots[k].Subject {
			if i < k {
				return 0, false
			}
			sum += way.Roots[i].Length
		}
	}
	return sum, true
}

func handDigFinding(s finding.Subject, r *network.Roots, sum q.Metre, limit Limit) finding.Finding {
	f := finding.Finding{Code: "TRE-02", Level: finding.Note, Subject: s, Also: also(r.Subject), Source: limit.Source}
	var w lines
	if r.Girth <= 0 {
		w.add("the trunk of %s is not measured, so its girth is not known", r.Subject.Label)
		w.add("%s of %s lie within 10 m of it", sum, s.Label)
		f.Working = w.String()
		f.Text = r.Subject.Label + " has no girth, so how much of " + s.Label + " must be dug by hand is not known"
		f.Remedies = []finding.Remedy{{Text: "measure the girth and enter the radius of the trunk"}}
		return f
	}
	zone := q.Metre(limit.Value * float64(r.Girth))
	w.add("girth of %s: 2π × %s = %s", r.Subject.Label, span(r.Girth/(2*math.Pi)), r.Girth)
	w.add("by hand within %s × %s = %s of the bark", num(limit.Value, 1), r.Girth, zone)
	w.add("%s of %s lie there", sum, s.Label)
	f.Figure, f.Limit, f.Working = sum.String(), "within "+zone.String()+" of the bark", w.String()
	f.Text = sum.String() + " of " + s.Label + " are dug by hand among the roots of " + r.Subject.Label + "; cut none thicker than a finger"
	return f
}
