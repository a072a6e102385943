package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// DIG-05: an extra-low voltage cable without sleeve where a lawn ends or a
// drive passes over it. There edging irons, spiking and wheels find it.
// Extra-low voltage is not exempt from protection against damage. Deep enough
// for mains needs no sleeve. Source: trade practice (conduit under mown edges);
// BS 7671 522.8 (from memory).
var edgeRule = Rule{Code: "DIG-05", Title: "Sleeve at lawn edges and drives", Run: edge}

var edgeSource = finding.Source{Standard: "garden-lighting practice", Clause: "conduit under mown edges and drives", Evidence: finding.Found}

func edge(c *Context, emit func(finding.Finding)) {
	g := gather{c: c}
	for _, b := range c.ways() {
		br := &c.Net.Branches[b]
		way := br.Route
		if !c.extraLow(c.Far(b)) {
			continue
		}
		s := c.runSubject(b)
		for k := range way.Stretches {
			at, st, ok := c.edgeAt(br, way, k)
			if !ok {
				continue
			}
			leg := &br.Legs[st.Leg]
			lv := level(!c.loose(br, leg, st.Ground), finding.Decide)
			if c.Wants(lv == finding.Held, s.ID) {
				g.take(st.Area.ID, lv, -float64(leg.Depth), s, func() finding.Finding { return edgeFinding(s, leg, st, at, lv) })
			}
		}
	}
	g.flush(emit)
}

// edgeAt reports whether stretch k lies under a drive, or starts or ends at the
// edge of a lawn, and which stretch is the lawn or drive, with the leg that is
// worse off at that edge.
func (c *Context) edgeAt(br *network.Branch, way *network.Route, k int) (at string, st network.Stretch, ok bool) {
	st = way.Stretches[k]
	if st.Ground == "drive" && st.Length >= short {
		return "under", st, true
	}
	if k == 0 || st.Area == way.Stretches[k-1].Area {
		return "", st, false
	}
	before := way.Stretches[k-1]
	lawn := st
	if before.Ground == "lawn" {
		lawn = before
	}
	if lawn.Ground != "lawn" || hidden(st.Ground) || hidden(before.Ground) {
		return "", st, false
	}
	// At a bend on the edge either leg may be the one that lies bare.
	for _, s := range [2]network.Stretch{before, st} {
		if lawn.Leg = s.Leg; c.loose(br, &br.Legs[s.Leg], "lawn") {
			break
		}
	}
	return "at the edge of", lawn, true
}

// loose reports whether a cable lies there without any protection.
func (c *Context) loose(br *network.Branch, leg *network.Leg, ground string) bool {
	site := &c.Rules.Site
	deep := site.DepthLeast.Value
	if ground == "drive" {
		deep = site.DepthWorked.Value
	}
	switch {
	case guarded(br, leg):
		return false
	case leg.Dug():
		return !within(deep, float64(leg.Depth))
	}
	return leg.Support == network.Clipped && !leg.Rise && float64(leg.Height) < site.LowSupport.Value
}

func edgeFinding(s finding.Subject, leg *network.Leg, st network.Stretch, at string, lv finding.Level) finding.Finding {
	f := finding.Finding{Code: "DIG-05", Level: lv, Subject: s, Also: also(st.Area), Source: edgeSource}
	var w lines
	w.add("leg %d of %s passes %s %s", st.Leg+1, s.Label, at, over(&st))
	if leg.Dug() {
		w.add("it lies %s deep", span(leg.Depth))
	}
	if lv == finding.Held {
		w.add("a duct, sleeve or armour protects it, or it lies deep or high enough")
		f.Working, f.Text = w.String(), s.Label+" is protected "+at+" "+over(&st)
		return f
	}
	w.add("no duct, sleeve or armour is about it")
	f.Working = w.String()
	f.Text = s.Label + " lies without a sleeve " + at + " " + over(&st)
	f.Remedies = []finding.Remedy{{Text: "put it in a sleeve there, 300 mm to either side"}}
	return f
}
