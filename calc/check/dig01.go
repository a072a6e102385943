package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// DIG-01: depth of a cable in the ground against what the ground is used for.
// Shallower than people dig there is a Stop, shallower than the rule set's
// depth a Decide, less than is advised a Note. Source: BS 7671 522.8.10, which
// asks for a depth that avoids foreseeable damage and gives no number; 450, 500
// and 600 mm are all in trade use.
var depthRule = Rule{Code: "DIG-01", Title: "Depth in the ground", Run: depth}

// dugSource is the clause about cables in the ground.
var dugSource = finding.Source{Standard: "BS 7671:2018", Clause: "522.8.10", Evidence: finding.Found}

func depth(c *Context, emit func(finding.Finding)) {
	g := gather{c: c}
	for _, b := range c.ways() {
		way := c.Net.Branches[b].Route
		br, s := &c.Net.Branches[b], c.runSubject(b)
		low := c.extraLow(c.Far(b))
		for k := range way.Stretches {
			st := &way.Stretches[k]
			leg := &br.Legs[st.Leg]
			if !leg.Dug() || hidden(st.Ground) || st.Length < short {
				continue
			}
			v := c.judgeDepth(br, leg, st, low)
			if c.Wants(v.level == finding.Held, s.ID) {
				g.take(st.Area.ID, v.level, float64((v.limit.Value+1)/(float64(leg.Depth)+1)), s,
					func() finding.Finding { return depthFinding(s, leg, st, v) })
			}
		}
	}
	g.flush(emit)
}

// depthVerdict is what one stretch is measured against.
type depthVerdict struct {
	level finding.Level
	limit Limit
	why   string
}

func (c *Context) judgeDepth(br *network.Branch, leg *network.Leg, st *network.Stretch, low bool) depthVerdict {
	site := &c.Rules.Site
	d := float64(leg.Depth)
	dig := Limit{Value: float64(st.Dig), Source: dugSource}
	short := !within(dig.Value, d)
	switch {
	case leg.Depth <= 0:
		return depthVerdict{finding.Note, site.DepthLeast, "its depth is not given"}
	case low && guarded(br, leg):
		return depthVerdict{finding.Held, dig, "extra-low voltage in a duct, sleeve or armour"}
	case low && short:
		return depthVerdict{finding.Decide, dig, "people dig there"}
	case low:
		return depthVerdict{level(within(site.LowDepth.Value, d), finding.Note), site.LowDepth, "extra-low voltage"}
	case short:
		return depthVerdict{finding.Stop, dig, "people dig there"}
	case worked(st.Ground):
		return depthVerdict{level(within(site.DepthWorked.Value, d), finding.Decide), site.DepthWorked, "ground that is dug over or driven on"}
	case !within(site.DepthLeast.Value, d):
		return depthVerdict{finding.Decide, site.DepthLeast, "the least in use anywhere"}
	}
	return depthVerdict{level(within(site.DepthAdvised.Value, d), finding.Note), site.DepthAdvised, "what is advised anywhere"}
}

// usualDig says that the digging depth was taken and not given.
func usualDig(st *network.Stretch) []string {
	if !st.Usual {
		return nil
	}
	return []string{"digging depth of " + over(st) + " not given: " + span(st.Dig) + " taken, as is usual in a " + st.Ground}
}

func depthFinding(s finding.Subject, leg *network.Leg, st *network.Stretch, v depthVerdict) finding.Finding {
	f := finding.Finding{Code: "DIG-01", Level: v.level, Subject: s, Also: also(st.Area), Source: v.limit.Source,
		Figure: span(leg.Depth), Limit: "at least " + spanOf(v.limit)}
	var w lines
	w.add("leg %d of %s, %s through %s", st.Leg+1, s.Label, st.Length, over(st))
	w.add("depth %s; %s: at least %s", span(leg.Depth), v.why, spanOf(v.limit))
	if st.Dig > 0 {
		w.add("digging to be expected there: %s", span(st.Dig))
	}
	f.Working, f.Assumed = w.String(), usualDig(st)
	switch {
	case leg.Depth <= 0:
		f.Figure, f.Text = "", s.Label+" is buried in "+over(st)+", but its depth is not given"
		f.Remedies = []finding.Remedy{{Text: "enter the depth of the leg"}}
		return f
	case v.level == finding.Held:
		f.Text = s.Label + " lies deep enough in " + over(st)
		return f
	case v.level == finding.Stop:
		f.Text = s.Label + " lies " + span(leg.Depth) + " deep in " + over(st) + ", where people dig " + span(st.Dig) + " deep"
	default:
		f.Text = s.Label + " lies " + span(leg.Depth) + " deep in " + over(st) + "; asked for: " + spanOf(v.limit)
	}
	f.Remedies = []finding.Remedy{
		{Text: "lay it deeper", Figure: span(q.Metre(v.limit.Value)-leg.Depth) + " more over " + st.Length.String()},
		{Text: "lead it round, along a wall or path where nobody digs"},
	}
	if v.level < finding.Stop {
		f.Remedies = append(f.Remedies, finding.Remedy{Text: "keep it, in a duct or under covers, and record why; show the depth on the plan that stays"})
	}
	return f
}
