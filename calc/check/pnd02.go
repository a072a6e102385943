package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// PND-02: mains equipment, a source with it, within 2.0 m of water and less
// than 2.5 m up; and a mains run led through water. What is in the water has a
// rule of its own. Whether a garden pond comes under Section 702 is argued, so
// the electrician decides. Source: BS 7671 702, zone 1.
var pondRule = Rule{Code: "PND-02", Title: "Mains near water", Run: pond}

func pond(c *Context, emit func(finding.Finding)) {
	zone := c.Rules.Site.PondZone
	if zone.Value <= 0 {
		return
	}
	g := gather{c: c}
	for i := range c.Net.Nodes {
		n := &c.Net.Nodes[i]
		if n.System != 0 || n.Place == nil || n.Place.Water == nil || c.Tree.Parent[i] < 0 ||
			n.Kind == network.OpenNode || n.Kind == network.LampNode && n.Place.InWater || c.indoors(i) {
			continue
		}
		s, high := c.subject(i), float64(n.Height) >= c.Rules.Site.PondHeight.Value
		lv := level(high || within(zone.Value, float64(n.Place.Water.Distance)), finding.Decide)
		if c.Wants(lv == finding.Held, s.ID) {
			g.take(n.Place.Water.Subject.ID, lv, -float64(n.Place.Water.Distance), s, func() finding.Finding { return pondFinding(c, i, s, lv) })
		}
	}
	for _, b := range c.ways() {
		way := c.Net.Branches[b].Route
		if c.Net.Nodes[c.Far(b)].System != 0 {
			continue
		}
		for k := range way.Stretches {
			if st := &way.Stretches[k]; st.Ground == "water" && st.Length >= short {
				s := c.runSubject(b)
				g.take(st.Area.ID, finding.Decide, 0, s, func() finding.Finding { return throughWater(s, st, zone) })
			}
		}
	}
	g.flush(emit)
}

func pondFinding(c *Context, i int, s finding.Subject, lv finding.Level) finding.Finding {
	n, site := &c.Net.Nodes[i], &c.Rules.Site
	near := n.Place.Water
	zone := q.Metre(site.PondZone.Value)
	f := finding.Finding{Code: "PND-02", Level: lv, Subject: s, Also: also(near.Subject), Source: site.PondZone.Source,
		Figure: near.Distance.String(), Limit: "at least " + zone.String()}
	var w lines
	w.add("%s stands %s from the edge of %s, %s above ground", s.Label, near.Distance, near.Subject.Label, span(n.Height))
	w.add("zone 1 reaches %s from the edge and %s up", zone, q.Metre(site.PondHeight.Value))
	w.add("beyond it, 1.5 m further (zone 2, from memory): mains behind a 30 mA residual device")
	f.Working = w.String()
	if lv == finding.Held {
		f.Text = s.Label + " stands clear of " + near.Subject.Label
		return f
	}
	what := "on the mains"
	if n.Kind == network.PrimaryNode {
		what = "a source"
	}
	f.Text = s.Label + ", " + what + ", stands " + near.Distance.String() + " from the edge of " + near.Subject.Label
	f.Remedies = []finding.Remedy{
		{Text: "move it away from the water", Figure: (zone - near.Distance).String() + " further"},
		{Text: "decide whether Section 702 is applied to this pond and record it"},
	}
	return f
}

func throughWater(s finding.Subject, st *network.Stretch, zone Limit) finding.Finding {
	return finding.Finding{Code: "PND-02", Level: finding.Decide, Subject: s, Also: also(st.Area), Source: zone.Source,
		Figure: "0 m", Limit: "at least " + q.Metre(zone.Value).String(),
		Text:     s.Label + ", on the mains, is led through " + st.Area.Label,
		Working:  "leg " + num(float64(st.Leg+1), 0) + " of " + s.Label + " crosses " + st.Area.Label + " over " + st.Length.String() + "\nno mains cable belongs into the water or within " + q.Metre(zone.Value).String() + " of it",
		Remedies: []finding.Remedy{{Text: "lead the run round the water"}}}
}

// indoors reports whether a node stands inside a building: over one on the
// plan, or, where nobody drew the ground, at the end of a run that never leaves
// the house.
func (c *Context) indoors(i int) bool {
	n := &c.Net.Nodes[i]
	if n.Place != nil && n.Place.Ground != "" {
		return n.Place.Ground == "building"
	}
	b := c.Tree.Parent[i]
	if b < 0 || len(c.Net.Branches[b].Legs) == 0 {
		return false
	}
	for k := range c.Net.Branches[b].Legs {
		if l := &c.Net.Branches[b].Legs[k]; l.Support != network.Indoors && !l.Rise {
			return false
		}
	}
	return true
}
