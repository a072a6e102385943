package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// IPX-01: degree of protection against the place: outdoors, in the ground, in
// water. Lamps in water have PND-01, boxes in the ground a rule of their own.
// Source: IEC 60529 for the digits; the least outdoors is IP33 by BS 7671
// 714.512.2.105 (from memory), trade habit asks for more.
var ingressRule = Rule{Code: "IPX-01", Title: "Protection against water and dust", Run: ingressByPlace}

func ingressByPlace(c *Context, emit func(finding.Finding)) {
	g := gather{c: c}
	for i := range c.Net.Nodes {
		n := &c.Net.Nodes[i]
		if n.Place == nil || n.IP == "" || n.Tail || n.Kind == network.SecondaryNode || c.Tree.Parent[i] < 0 || c.indoors(i) || n.Kind == network.LampNode && n.Place.InWater {
			continue
		}
		where, limit := c.placeIP(n)
		if limit.Value <= 0 {
			continue
		}
		s, lv := c.subject(i), level(fit(n.IP, limit), finding.Decide)
		if c.Wants(lv == finding.Held, s.ID) {
			_, water := ingress(n.IP)
			g.take(where, lv, -float64(water), s, func() finding.Finding { return ingressFinding(s, n, where, limit, lv) })
		}
	}
	g.flush(emit)
}

// placeIP says what a place asks for. What is let into the ground, or lies on
// it, is soaked by every rain; a lamp on a spike or post only stands there.
func (c *Context) placeIP(n *network.Node) (where string, limit Limit) {
	site := &c.Rules.Site
	low := within(float64(n.Height), site.GroundLevel.Value)
	flush := n.Form == "recessed" || n.Form == "deck" || n.Form == "step" || n.Form == "strip"
	lying := n.Kind == network.PrimaryNode || n.Kind == network.GearNode || flush
	switch {
	case n.Place.InWater:
		return "in water", site.WaterIP
	case n.Kind != network.BoxNode && (n.Height < 0 || low && lying):
		return "at ground level", site.GroundIP
	}
	return "outdoors", site.OutdoorIP
}

// fit compares digit by digit. A digit that is not stated is not met, but
// lasting immersion keeps out dust that rain would carry.
func fit(ip string, limit Limit) bool {
	solid, water := ingress(ip)
	return water >= int(limit.Value)%10 && (solid >= int(limit.Value)/10 || solid < 0 && water >= 7)
}

func ingressFinding(s finding.Subject, n *network.Node, where string, limit Limit, lv finding.Level) finding.Finding {
	asked := "IP" + num(limit.Value, 0)
	f := finding.Finding{Code: "IPX-01", Level: lv, Subject: s, Source: limit.Source, Figure: n.IP, Limit: asked}
	var w lines
	w.add("%s stands %s, %s above ground", s.Label, where, span(n.Height))
	w.add("%s against %s asked for there", n.IP, asked)
	f.Working = w.String()
	if lv == finding.Held {
		f.Text = s.Label + " is fit for its place"
		return f
	}
	f.Text = s.Label + " stands " + where + " with " + n.IP + "; asked for: " + asked
	f.Remedies = []finding.Remedy{{Text: "use one of at least " + asked}}
	if where == "at ground level" {
		f.Remedies = append(f.Remedies, finding.Remedy{Text: "raise it out of the wet, and drain the ground beneath"})
	} else {
		f.Remedies = append(f.Remedies, finding.Remedy{Text: "put it in an enclosure of that degree, or indoors"})
	}
	return f
}
